#include "sheet/check_pages.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "sheet/figures.h"
#include "sheet/key_numbers.h"

namespace spanloom {
namespace {

constexpr double kTitleSize = 11.0;  // [pt]
constexpr double kTitleLine = 14.0;  // [pt]
constexpr double kWordsSize = 9.5;   // [pt]
constexpr double kIndent = 22.0;     // [pt]
constexpr std::array<double, 3> kRights = {404.0, 464.0, kContentWidth};

using Align = TextStyle::Align;

FontWeight weight_of(const Check& check) {
  return check.verdict == Verdict::ok ? FontWeight::regular : FontWeight::bold;
}

std::vector<std::string> title_lines(const Check& check) {
  constexpr double kValueRoom = 66.0;
  return wrap_text(check.title, kRights[0] - kIndent - kValueRoom, kTitleSize, weight_of(check));
}

double height_of(const Check& check) {
  const auto titles = title_lines(check).size();
  const auto words = wrap_text(check_words(check), kContentWidth - kIndent, kWordsSize).size();
  return static_cast<double>(titles) * kTitleLine + static_cast<double>(words) * kWordsSize * 1.3 + 10.0;
}

void draw_head(PageStack& pages) {
  const std::array<const char*, 3> heads = {"value", "limit", "verdict"};
  for (std::size_t i = 0; i < heads.size(); ++i) {
    pages.drawing().text(kLeft + kRights[i], pages.y() + 8.0, heads[i], {.size = 9.5, .align = Align::right});
  }
  pages.advance(12.0);
}

void draw_check(PageStack& pages, const Check& check) {
  if (pages.reserve(height_of(check))) draw_head(pages);
  Drawing& drawing = pages.drawing();
  const double y = pages.y() + 12.0;
  const CheckNumbers numbers = check_numbers(check, pages.info().units);
  draw_verdict_mark(drawing, {kLeft + 6.0, y - 4.0}, 11.0, check.verdict);
  drawing.text(kLeft + kRights[0], y, numbers.value,
               {.size = kTitleSize, .weight = FontWeight::bold, .align = Align::right});
  drawing.text(kLeft + kRights[1], y, numbers.limit, {.size = kTitleSize, .align = Align::right});
  drawing.text(kLeft + kRights[2], y, verdict_word(check.verdict),
               {.size = kTitleSize, .weight = FontWeight::bold, .align = Align::right});
  for (const std::string& words : title_lines(check)) {
    drawing.text(kLeft + kIndent, pages.y() + 12.0, words, {.size = kTitleSize, .weight = weight_of(check)});
    pages.advance(kTitleLine);
  }
  pages.advance(1.0);
  pages.paragraph(check_words(check), {.size = kWordsSize}, kIndent, 5.0);
  drawing.line({kLeft, pages.y()}, {kRight, pages.y()}, {.width = 0.35, .colour = "#777"});
  pages.advance(2.0);
}

// Units that are no quantity but a number of things, "bays".
bool is_count(const std::string& unit) { return unit != "-" && unit != "m" && unit != "N" && unit != "m/s"; }

void add_list(PageStack& pages, const std::vector<std::string>& entries, double size) {
  for (const std::string& words : entries) {
    pages.reserve(size * 1.3);
    pages.drawing().line({kLeft + 2.0, pages.y() + size * 0.7}, {kLeft + 9.0, pages.y() + size * 0.7},
                         {.width = 1.2});
    pages.paragraph(words, {.size = size}, 16.0, 4.0);
  }
}

}  // namespace

CheckNumbers check_numbers(const Check& check, UnitSystem units) {
  if (!check.computed) return {"not known", "", ""};
  const double margin = check.at_most ? check.limit - check.value : check.value - check.limit;
  if (is_count(check.unit)) {
    const auto count = [&](double value) {
      const std::string one = check.unit.substr(0, check.unit.size() - 1);
      return fmt::format("{:g} {}", value, value == 1.0 ? one : check.unit);
    };
    const bool must_be_none = check.at_most && check.limit == 0.0;
    return {count(check.value), count(check.limit), must_be_none ? "" : fmt::format("{:+g}", margin)};
  }
  const Measure measure = measure_of(check.unit, check.value, check.limit);
  return {quantity_text(check.value, measure, units), quantity_text(check.limit, measure, units),
          signed_text(margin, measure, units)};
}

std::string check_words(const Check& check) {
  constexpr std::size_t kListed = 4;
  if (check.assumed.empty()) return check.words;
  if (check.assumed.size() > kListed) {
    return fmt::format("{} Rests on {} of our defaults; they are listed below.", check.words, check.assumed.size());
  }
  return fmt::format("{} Rests on our default{}: {}.", check.words, check.assumed.size() == 1 ? "" : "s",
                     fmt::join(check.assumed, "; "));
}

std::vector<std::string> assumed_inputs(const std::vector<Check>& checks) {
  std::vector<std::string> inputs;
  for (const Check& check : checks) {
    for (const std::string& input : check.assumed) {
      if (std::find(inputs.begin(), inputs.end(), input) == inputs.end()) inputs.push_back(input);
    }
  }
  return inputs;
}

void add_checks(PageStack& pages, const std::vector<Check>& checks) {
  pages.begin_part(fmt::format("Checks: {}", verdict_counts(checks)));
  draw_head(pages);
  for (const Check& check : checks) draw_check(pages, check);
}

void add_cautions(PageStack& pages, Falls falls) {
  double height = 0.0;
  constexpr double kSize = 11.0;
  for (const std::string& words : cautions(falls)) {
    height += static_cast<double>(wrap_text(words, kContentWidth - 16.0, kSize).size()) * kSize * 1.3 + 4.0;
  }
  pages.begin_part_within("Cautions", height);
  add_list(pages, cautions(falls), kSize);
}

void add_notes(PageStack& pages, const Plan& plan, const std::vector<Check>& checks) {
  constexpr double kSize = 10.0;
  if (!plan.notes.empty()) {
    pages.begin_part_within("Notes", 4.0 * kSize);
    add_list(pages, plan.notes, kSize);
  }
  const std::vector<std::string> assumed = assumed_inputs(checks);
  if (assumed.empty()) return;
  pages.begin_part_within("Our defaults, not stated in the rig file", 6.0 * kSize);
  pages.paragraph("A verdict that rests on one of these is never ok. State them in the rig file.",
                  {.size = kSize});
  add_list(pages, assumed, kSize);
}

}  // namespace spanloom
