// Quantities given by options, read with their units; what is wrong with any of them is told in one go.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/input_error.h"
#include "files/units.h"

namespace spanloom {

class OptionValues {
 public:
  /// In SI. Empty where the option was not given, or is wrong, which is kept as a problem.
  std::optional<double> quantity(const char* option, const std::string& text, const Wanted& wanted);
  /// The same; 0 and less are wrong.
  std::optional<double> positive(const char* option, const std::string& text, const Wanted& wanted);
  /// A number without a unit.
  std::optional<double> number(const char* option, const std::string& text);

  void add(const char* option, const std::string& text, std::string expected, std::string cure = "");
  void add(Problem problem) { problems_.push_back(std::move(problem)); }
  /// @throws InputError with all that was wrong
  void demand_none() const;

 private:
  std::vector<Problem> problems_;
};

}  // namespace spanloom
