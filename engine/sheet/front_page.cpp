#include "sheet/front_page.h"

#include <algorithm>

#include <fmt/format.h>

#include "sheet/elevation.h"
#include "sheet/figures.h"
#include "sheet/key_numbers.h"

namespace spanloom {
namespace {

constexpr int kColumns = 3;
constexpr double kLeastCell = 58.0;    // height with two lines of notes [pt]
constexpr double kMostCell = 84.0;     // [pt]
constexpr double kCellPad = 6.0;       // [pt]
constexpr double kBannerHeight = 30.0; // [pt]
constexpr double kFallsLine = 10.0;    // [pt]

// A long title is set smaller, then over two lines; only what is longer still ends in dots.
void add_title(PageStack& pages, const std::string& title) {
  constexpr std::size_t kMostLines = 2;
  double size = 22.0;
  constexpr double kSmallestTitle = 14.0;
  std::vector<std::string> lines = wrap_text(title, kContentWidth, size, FontWeight::bold);
  while (size > kSmallestTitle && lines.size() > 1) {
    size -= 2.0;
    lines = wrap_text(title, kContentWidth, size, FontWeight::bold);
  }
  if (lines.size() > kMostLines) {
    lines.resize(kMostLines);
    lines.back() = fit_text(lines.back() + " \u2026", kContentWidth, size, FontWeight::bold);
  }
  for (const std::string& words : lines) {
    pages.advance(size * 1.15);
    pages.drawing().text(kLeft, pages.y(), words, {.size = size, .weight = FontWeight::bold});
  }
  pages.advance(9.0);
  pages.drawing().line({kLeft, pages.y()}, {kRight, pages.y()}, {.width = 2.0});
}

// Each title up to its colon or comma, each once: one line has to hold them.
std::string titles_with(const std::vector<Check>& checks, Verdict verdict) {
  std::vector<std::string> names;
  for (const Check& check : checks) {
    const std::string name = check.title.substr(0, check.title.find_first_of(":,"));
    if (check.verdict == verdict && std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  std::string out;
  for (const std::string& name : names) out += fmt::format("{}{}", out.empty() ? "" : "; ", name);
  return out;
}

// The verdict over everything, so that nobody rigs from page 1 past a stop on page 4.
// @param of  before the counts
void add_banner(PageStack& pages, const std::vector<Check>& checks, const char* of) {
  const Verdict verdict = worst(checks);
  const bool stop = verdict == Verdict::stop;
  Drawing& drawing = pages.drawing();
  pages.advance(7.0);
  const double y = pages.y();
  drawing.begin_group("verdict");
  drawing.rectangle(kLeft, y, kContentWidth, kBannerHeight, stop ? "#000" : "#fff", {.width = 1.2});
  draw_verdict_mark(drawing, {kLeft + 16.0, y + 0.5 * kBannerHeight}, 14.0, verdict);
  const char* ink = stop ? "#fff" : "#000";
  const std::string head = stop                            ? "STOP: do not walk this rig as planned"
                           : verdict == Verdict::caution ? "Caution: read the checks first"
                                                           : "All checks ok for the data given";
  constexpr double kHeadSize = 11.0, kHeadRoom = kContentWidth - 40.0;
  const std::string words = fmt::format("{} ({}{})", head, of, verdict_counts(checks));
  const double fitting = kHeadSize * kHeadRoom / text_width(words, kHeadSize, FontWeight::bold);
  drawing.text(kLeft + 32.0, y + 13.0, words,
               {.size = std::clamp(fitting, kSmallestText, kHeadSize), .weight = FontWeight::bold, .fill = ink});
  drawing.text(kLeft + 32.0, y + 25.0,
               fit_text(titles_with(checks, verdict), kContentWidth - 40.0, kSmallestText),
               {.size = kSmallestText, .fill = ink});
  drawing.end_group();
  pages.advance(kBannerHeight + 6.0);
}

int rows_of(const std::vector<KeyNumber>& numbers) {
  return (static_cast<int>(numbers.size()) + kColumns - 1) / kColumns;
}

void draw_key_number(Drawing& drawing, const KeyNumber& number, double x, double y, double room,
                     double height) {
  constexpr std::size_t kNoteLines = 2;
  const double spare = std::clamp(height - kLeastCell, 0.0, 16.0);  // goes into the value's size
  const double wanted = 17.0 + 0.3 * spare;
  // A number is set smaller rather than cut.
  const double fitting = wanted * room / text_width(number.value, wanted, FontWeight::bold);
  const double size = std::clamp(fitting, kSmallestText, wanted);
  drawing.text(x, y + 13.0, fit_text(number.label, room, 10.0), {.size = 10.0});
  drawing.text(x, y + 30.0 + 0.4 * spare, number.value, {.size = size, .weight = FontWeight::bold});
  std::vector<std::string> notes = wrap_text(number.note, room, kSmallestText);
  notes.resize(std::min(notes.size(), kNoteLines));
  double note_y = y + 42.0 + 0.7 * spare;
  for (const std::string& words : notes) {
    drawing.text(x, note_y, words, {.size = kSmallestText});
    note_y += 11.0;
  }
}

void add_key_numbers(PageStack& pages, const std::vector<KeyNumber>& numbers) {
  Drawing& drawing = pages.drawing();
  const double width = kContentWidth / kColumns;
  const int rows = rows_of(numbers);
  const double height = std::min(kMostCell, (kBottom - pages.y()) / rows);
  const double top = pages.y();
  drawing.begin_group("key-numbers");
  for (int row = 0; row <= rows; ++row) {
    const double y = top + row * height;
    drawing.line({kLeft, y}, {kRight, y}, {.width = row == 0 || row == rows ? 1.4 : 0.5});
  }
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    const int column = static_cast<int>(i) % kColumns;
    const double x = kLeft + column * width + (column == 0 ? 0.0 : kCellPad);
    const double y = top + static_cast<double>(i / kColumns) * height;
    draw_key_number(drawing, numbers[i], x, y, width - 2.0 * kCellPad, height);
  }
  for (int column = 1; column < kColumns; ++column) {
    const double x = kLeft + column * width;
    drawing.line({x, top + 4.0}, {x, top + rows * height - 4.0}, {.width = 0.5});
  }
  drawing.end_group();
  pages.advance(rows * height);
}

}  // namespace

void add_front_page(PageStack& pages, const Rig& rig, const Plan& plan, const std::vector<Check>& checks,
                    const std::string& falls_line) {
  pages.begin_bare_page();
  add_title(pages, rig.title);
  add_banner(pages, checks, falls_line.empty() ? "" : "falls and plan: ");
  if (!falls_line.empty()) {
    pages.paragraph(falls_line, {.size = kFallsLine, .weight = FontWeight::bold}, 0.0, 4.0);
  }
  const UnitSystem units = pages.info().units;
  const std::vector<KeyNumber> numbers = key_numbers(rig, plan, units);
  const double numbers_room = rows_of(numbers) * kLeastCell;
  constexpr double kWordsRoom = 68.0;  // up to five lines below the elevation [pt]
  const Frame frame{kLeft, pages.y(), kContentWidth, kBottom - numbers_room - kWordsRoom - pages.y()};
  const ElevationNotes notes = draw_elevation(pages.drawing(), frame, rig, plan, units);
  pages.advance(notes.used_height);
  for (const std::string& words : notes.words) {
    pages.paragraph(words, {.size = kSmallestText}, 0.0, 0.0);
  }
  pages.advance(8.0);
  add_key_numbers(pages, numbers);
}

}  // namespace spanloom
