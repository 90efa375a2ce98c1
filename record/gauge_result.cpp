#include "record/gauge_result.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "files/file_error.h"
#include "files/limits.h"
#include "files/part_value.h"

namespace spanloom {
namespace {

constexpr const char* kFormat = "spanloom-gauge";
constexpr int kNumber = 1;
constexpr double kGreatestForce = 1e7;  // [N], beyond any line
constexpr std::size_t kMostMethods = 100;
constexpr const char* kCure = "give what `spanloom gauge --json` printed";

const ReadJson& member(const ReadJson& table, const char* name, const std::string& key, const std::string& file) {
  const auto found = table.is_object() ? table.find(name) : table.end();
  if (!table.is_object() || found == table.end()) refuse(file, {}, {key, "nothing", "a value", kCure});
  return *found;
}

double force_of(const ReadJson& table, const char* name, const std::string& in, const std::string& file) {
  const std::string key = in + name;
  const ReadJson& value = member(table, name, key, file);
  const double force = value.is_number() ? value.get<double>() : -1.0;
  if (!(force >= 0.0 && force <= kGreatestForce)) {
    refuse(file, {},
           {key,
            value.is_structured() ? "no number"
                                  : in_quotes(value.dump(-1, ' ', false, ReadJson::error_handler_t::replace)),
            "a force in newtons", kCure});
  }
  return force;
}

double tension_of(const ReadJson& table, const std::string& in, const std::string& file) {
  const double tension = force_of(table, "tension_N", in, file);
  if (tension == 0.0) refuse(file, {}, {in + "tension_N", "0", "a tension above nothing", kCure});
  return tension;
}

void make_sure_of_format(const ReadJson& document, const std::string& file) {
  const ReadJson& format = member(document, "format", "format", file);
  const ReadJson& name = member(format, "name", "format.name", file);
  const ReadJson& number = member(format, "number", "format.number", file);
  if (name != kFormat)
    refuse(file, {},
           {"format.name", name.is_string() ? in_quotes(name.get<std::string>()) : "no text",
            fmt::format("\"{}\"", kFormat), kCure});
  if (number != kNumber)
    refuse(file, {}, {"format.number", "another", fmt::format("{}", kNumber), "use the program that made it"});
}

}  // namespace

Measured read_gauge_result(const std::string& text, const std::string& file) {
  if (text.size() > kLargestFile)
    refuse(file, {},
           {"file", fmt::format("{} bytes", text.size()), fmt::format("at most {} bytes", kLargestFile), kCure});
  const ReadJson document = ReadJson::parse(text, nullptr, false);
  if (document.is_discarded()) refuse(file, {}, {"file", "something else", "JSON", kCure});
  make_sure_of_format(document, file);
  Measured out;
  out.tension = tension_of(document, "", file);
  out.tension_sd = force_of(document, "tension_sd_N", "", file);
  const ReadJson& by = member(document, "by", "by", file);
  if (!by.is_array() || by.size() > kMostMethods)
    refuse(file, {}, {"by", "something else", "a list of methods", kCure});
  for (std::size_t i = 0; i < by.size(); ++i) {
    const std::string in = fmt::format("by[{}].", i);
    const ReadJson& method = member(by[i], "method", in + "method", file);
    if (!method.is_string()) refuse(file, {}, {in + "method", "no text", "the name of a method", kCure});
    out.by.push_back({method.get<std::string>(), tension_of(by[i], in, file), force_of(by[i], "sd_N", in, file)});
  }
  out.json = text;
  return out;
}

}  // namespace spanloom
