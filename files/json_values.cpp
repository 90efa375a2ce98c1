#include "files/json_values.h"

#include <cassert>
#include <cmath>

#include "base/version.h"

namespace spanloom {
namespace {

const char* verdict_name(Verdict verdict) {
  switch (verdict) {
    case Verdict::ok: return "ok";
    case Verdict::caution: return "caution";
    case Verdict::stop: return "stop";
  }
  return "stop";
}

}  // namespace

double finite(double value) {
  assert(std::isfinite(value));
  return value;
}

Json optional(const std::optional<double>& value) { return value ? Json(finite(*value)) : Json(nullptr); }

Json numbers_of(const std::vector<double>& values) {
  Json out = Json::array();
  for (const double value : values) out.push_back(finite(value));
  return out;
}

Json vector_of(const Vec3& v) { return {finite(v.x), finite(v.y), finite(v.z)}; }

Json checks_json(const std::vector<Check>& checks) {
  Json out = Json::array();
  for (const Check& check : checks) {
    out.push_back({{"name", check.name},
                   {"title", check.title},
                   {"value", check.computed ? Json(finite(check.value)) : Json(nullptr)},
                   {"limit", finite(check.limit)},
                   {"limit_is", check.at_most ? "greatest" : "least"},
                   {"unit", check.unit},
                   {"verdict", verdict_name(check.verdict)},
                   {"words", check.words},
                   {"assumed", check.assumed}});
  }
  return out;
}

Json document_head(const char* format, int number, const std::string& title, Falls falls) {
  Json head;
  head["format"] = {{"name", format}, {"number", number}};
  head["version"] = version();
  head["title"] = title;
  head["cautions"] = cautions(falls);
  return head;
}

std::string text_of(const Json& document) {
  constexpr int kIndent = 2;
  // Titles come from a file that was read as UTF-8; a name built elsewhere must not stop the document.
  return document.dump(kIndent, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace spanloom
