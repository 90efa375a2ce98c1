#include "sheet/page_stack.h"

#include <utility>

#include <fmt/format.h>

namespace spanloom {
namespace {

constexpr double kLeading = 1.3;  // line distance over font size

// Pages get parted on the way to the edge, so each carries the cautions, whole sentences only.
std::vector<std::string> fitting_cautions(const std::vector<std::string>& cautions) {
  constexpr std::size_t kMostLines = 3;
  std::string words;
  std::vector<std::string> lines;
  for (const std::string& caution : cautions) {
    words += (words.empty() ? "" : " ") + caution;
    std::vector<std::string> longer = wrap_text(words, kContentWidth, kSmallestText, FontWeight::bold);
    if (longer.size() > kMostLines) break;
    lines = std::move(longer);
  }
  return lines;
}

}  // namespace

PageStack::PageStack(std::string title, SheetInfo info, const std::vector<std::string>& cautions)
    : title_(std::move(title)), info_(std::move(info)), foot_words_(fitting_cautions(cautions)) {}

void PageStack::begin_bare_page() {
  pages_.emplace_back();
  heading_.clear();
  y_ = kTop;
}

void PageStack::begin_page_with(const std::string& heading) {
  pages_.emplace_back();
  y_ = kTop;
  if (!heading.empty()) draw_heading(heading);
}

void PageStack::draw_heading(const std::string& heading) {
  constexpr double kSize = 17.0;
  y_ += kSize;
  drawing().text(kLeft, y_, heading, {.size = kSize, .weight = FontWeight::bold});
  y_ += 7.0;
  drawing().line({kLeft, y_}, {kRight, y_}, {.width = 2.0});
  y_ += 8.0;
}

void PageStack::begin_part(std::string heading) {
  heading_ = std::move(heading);
  begin_page_with(heading_);
}

void PageStack::begin_part_within(std::string heading, double height) {
  constexpr double kGapBefore = 14.0;
  constexpr double kHeadHeight = 32.0;
  if (pages_.empty() || y_ + kGapBefore + kHeadHeight + height > kBottom) {
    begin_part(std::move(heading));
    return;
  }
  heading_ = std::move(heading);
  y_ += kGapBefore;
  draw_heading(heading_);
}

bool PageStack::reserve(double height) {
  if (y_ + height <= kBottom) return false;
  begin_page_with(heading_.empty() ? heading_ : heading_ + ", continued");
  return true;
}

void PageStack::paragraph(std::string_view text, const TextStyle& style, double indent,
                          double gap_after) {
  for (const std::string& words : wrap_text(text, kContentWidth - indent, style.size, style.weight)) {
    reserve(style.size * kLeading);
    y_ += style.size * kLeading;
    drawing().text(kLeft + indent, y_ - style.size * (kLeading - 1.0), words, style);
  }
  y_ += gap_after;
}

std::string PageStack::foot(std::size_t page) const {
  Drawing drawing;
  drawing.begin_group("foot");
  double y = kBottom + 14.0;
  drawing.line({kLeft, y}, {kRight, y}, {.width = 1.0});
  y += 12.0;
  for (const std::string& words : foot_words_) {
    drawing.text(kLeft, y, words, {.size = kSmallestText, .weight = FontWeight::bold});
    y += kSmallestText * kLeading;
  }
  const std::string count = fmt::format("page {} of {}", page, pages_.size());
  const double room = kContentWidth - text_width(count, 10.0, FontWeight::bold) - 20.0;
  const std::string source = fmt::format("{}   spanloom {}   {}   {}", info_.file_name, info_.version,
                                         info_.date, title_);
  drawing.text(kLeft, y, fit_text(source, room, kSmallestText), {.size = kSmallestText});
  drawing.text(kRight, y, count,
               {.size = 10.0, .weight = FontWeight::bold, .align = TextStyle::Align::right});
  drawing.end_group();
  return drawing.svg();
}

std::vector<std::string> PageStack::finish() const {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < pages_.size(); ++i) {
    out.push_back(svg_document(kPageWidth, kPageHeight, title_, pages_[i].svg() + foot(i + 1)));
  }
  return out;
}

}  // namespace spanloom
