#include "sheet/check_text.h"

#include <fmt/format.h>

#include "sheet/check_pages.h"
#include "sheet/key_numbers.h"

namespace spanloom {

void add_checks(PlainText& text, const std::vector<Check>& checks, UnitSystem units) {
  constexpr int kIndent = 8;
  for (const Check& check : checks) {
    const CheckNumbers n = check_numbers(check, units);
    std::string numbers = n.value;
    if (check.computed && !n.margin.empty()) numbers += fmt::format(", limit {} (margin {})", n.limit, n.margin);
    text.add_labelled(verdict_word(check.verdict), fmt::format("{}: {}", check.title, numbers), kIndent);
    text.add_words(check_words(check), kIndent);
  }
}

}  // namespace spanloom
