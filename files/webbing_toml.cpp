#include "files/webbing_toml.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <stdexcept>

#include "base/input_error.h"
#include "files/rig_toml.h"

namespace spanloom {
namespace {

constexpr double kStandInMass = 0.05;      // [kg/m]
constexpr double kStandInStrength = 20e3;  // [N]
constexpr double kLossDigits = 5.1e-3;     // half the third figure of a loss

enum class Missing { as_comment, stand_in };

std::string commented(const std::vector<std::string>& comments) {
  std::string out;
  for (const std::string& line : comments) out += line.empty() ? "#\n" : fmt::format("# {}\n", line);
  return out;
}

void check_name(const std::string& name) {
  const auto may_stand = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
  };
  if (!name.empty() && std::all_of(name.begin(), name.end(), may_stand)) return;
  throw InputError("name", '"' + name + '"', "a name of letters, digits, - and _, such as river");
}

std::string quantity(const char* key, double value, const char* unit) { return fmt::format("{} = \"{:.6g} {}\"\n", key, value, unit); }

std::string table_text(const KnownWebbing& webbing, Missing missing) {
  const auto must = [&](const std::optional<double>& value, double stand_in, double si_of_one, const char* key, const char* unit,
                        const char* how) {
    if (value) return quantity(key, *value / si_of_one, unit);
    if (missing == Missing::stand_in) return quantity(key, stand_in / si_of_one, unit);
    return fmt::format("# {} = \"... {}\"   # fill in: {}\n", key, unit, how);
  };
  const auto may = [](const std::optional<double>& value, double si_of_one, const char* key, const char* unit) {
    return value ? quantity(key, *value / si_of_one, unit) : std::string();
  };
  std::string out = fmt::format("[webbing.{}]\n", webbing.name);
  if (webbing.generic) out += "generic = true\n";
  out += must(webbing.mass_per_length, kStandInMass, 1e-3, "mass", "g/m", "weigh a known length");
  out += may(webbing.width, 1e-3, "width", "mm");
  out += may(webbing.thickness, 1e-3, "thickness", "mm");
  out += must(webbing.strength, kStandInStrength, 1e3, "strength", "kN", "what the maker states, new and straight");
  out += may(webbing.wet_keeps, 1e-2, "wet_keeps", "%");
  if (webbing.loss) out += fmt::format("loss = \"{:.3g} %\"\n", 100.0 * *webbing.loss);
  out += "stretch = [\n";
  for (const CurvePoint& p : webbing.curve.points()) {
    if (p.tension > 0.0) out += fmt::format("  [\"{:.10g} N\", \"{:.10g} %\"],\n", p.tension, 100.0 * p.stretch);
  }
  return out + "]\n";
}

// The smallest rig that the reader takes, around one webbing.
std::string rig_around(const KnownWebbing& webbing, const std::string& table) {
  return fmt::format(
      "title = \"one webbing\"\n"
      "site = {{ gap = \"20 m\", rise = \"0 m\" }}\n"
      "main = {{ webbing = \"{0}\", tension = \"1 kN\" }}\n"
      "backup = {{ webbing = \"{0}\", slack = \"3 %\" }}\n"
      "spacing = {{ arm_span = \"1.7 m\", even = \"2 m\" }}\n"
      "walker = {{ mass = \"70 kg\", leash = \"1 m\" }}\n{1}",
      webbing.name, table);
}

void demand_same(const KnownWebbing& wanted) {
  const auto near = [](double a, double b) { return std::abs(a - b) <= 1e-5 * std::abs(b); };
  const RigFile rig = read_rig(rig_around(wanted, table_text(wanted, Missing::stand_in)), "webbing.toml",
                               [](const std::string&) { return SideFile{{}, "no such file"}; });
  const Webbing& read = rig.rig.webbings.at(0);
  const std::vector<CurvePoint>&got = read.curve.points(), &want = wanted.curve.points();
  bool same = read.name == wanted.name && read.generic == wanted.generic && got.size() == want.size() &&
              near(read.mass_per_length, wanted.mass_per_length.value_or(kStandInMass)) &&
              near(read.strength, wanted.strength.value_or(kStandInStrength)) &&
              std::abs(read.loss.value_or(0.0) - wanted.loss.value_or(0.0)) <= kLossDigits * wanted.loss.value_or(0.0);
  for (std::size_t i = 0; same && i < got.size(); ++i) {
    constexpr double kExact = 1e-12;
    same = std::abs(got[i].tension - want[i].tension) <= kExact * want.back().tension &&
           std::abs(got[i].stretch - want[i].stretch) <= kExact * want.back().stretch;
  }
  if (!same) throw std::logic_error("the table of webbing " + wanted.name + " does not read back as it is");
}

}  // namespace

std::string webbing_table(const KnownWebbing& webbing, const std::vector<std::string>& comments) {
  check_name(webbing.name);
  demand_same(webbing);
  return commented(comments) + table_text(webbing, Missing::as_comment);
}

std::string curve_csv(const StretchCurve& curve, const std::vector<std::string>& comments) {
  std::string out = commented(comments) + "tension [N],stretch [%]\n";
  for (const CurvePoint& p : curve.points()) out += fmt::format("{:.10g},{:.10g}\n", p.tension, 100.0 * p.stretch);
  return out;
}

}  // namespace spanloom
