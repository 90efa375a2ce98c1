#include "option_values.h"

#include <utility>
#include <variant>

namespace spanloom {

std::optional<double> OptionValues::quantity(const char* option, const std::string& text, const Wanted& wanted) {
  if (text.empty()) return std::nullopt;
  const auto parsed = parse_quantity(text, wanted);
  if (const double* value = std::get_if<double>(&parsed)) return *value;
  const auto& fault = std::get<QuantityFault>(parsed);
  add(option, text, fault.expected, fault.cure);
  return std::nullopt;
}

std::optional<double> OptionValues::positive(const char* option, const std::string& text, const Wanted& wanted) {
  const std::optional<double> value = quantity(option, text, wanted);
  if (!value || *value > 0.0) return value;
  add(option, text, expectation(wanted) + ", above 0");
  return std::nullopt;
}

std::optional<double> OptionValues::number(const char* option, const std::string& text) {
  if (text.empty()) return std::nullopt;
  const std::optional<double> value = parse_number(text);
  if (!value) add(option, text, "a number, such as 0.15");
  return value;
}

void OptionValues::add(const char* option, const std::string& text, std::string expected, std::string cure) {
  problems_.push_back({option, '"' + text + '"', std::move(expected), std::move(cure)});
}

void OptionValues::demand_none() const {
  if (!problems_.empty()) throw InputError(problems_);
}

}  // namespace spanloom
