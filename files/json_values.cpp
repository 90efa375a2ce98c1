#include "files/json_values.h"

#include <cassert>
#include <cmath>

#include "base/version.h"
#include "checks/verdicts.h"

namespace spanloom {

double finite(double value) {
  assert(std::isfinite(value));
  return value;
}

Json optional(const std::optional<double>& value) { return value ? Json(finite(*value)) : Json(nullptr); }

Json document_head(const char* format, int number, const std::string& title) {
  Json head;
  head["format"] = {{"name", format}, {"number", number}};
  head["version"] = version();
  head["title"] = title;
  head["cautions"] = cautions();
  return head;
}

std::string text_of(const Json& document) {
  constexpr int kIndent = 2;
  // Titles come from a file that was read as UTF-8; a name built elsewhere must not stop the document.
  return document.dump(kIndent, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace spanloom
