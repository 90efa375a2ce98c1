#include "sheet/page_stack.h"

#include <utility>

#include <fmt/format.h>

namespace spanloom {
namespace {

constexpr double kLeading = 1.3;  // line distance over font size

std::string foot(const PageStack& stack, const std::string& title, const std::string& caution,
                 std::size_t page, std::size_t pages) {
  Drawing drawing;
  drawing.begin_group("foot");
  double y = kBottom + 16.0;
  drawing.line({kLeft, y}, {kRight, y}, {.width = 1.0});
  y += 13.0;
  constexpr std::size_t kMostLines = 2;
  std::vector<std::string> lines =
      wrap_text(caution, kContentWidth, kSmallestText, FontWeight::bold);
  if (lines.size() > kMostLines) lines.resize(kMostLines);
  for (const std::string& words : lines) {
    drawing.text(kLeft, y, words, {.size = kSmallestText, .weight = FontWeight::bold});
    y += kSmallestText * kLeading;
  }
  const SheetInfo& info = stack.info();
  const std::string count = fmt::format("page {} of {}", page, pages);
  const double room = kContentWidth - text_width(count, 10.0, FontWeight::bold) - 20.0;
  const std::string source = fmt::format("{}   spanloom {}   {}   {}", info.file_name, info.version,
                                         info.date, title);
  drawing.text(kLeft, y, fit_text(source, room, kSmallestText), {.size = kSmallestText});
  drawing.text(kRight, y, count,
               {.size = 10.0, .weight = FontWeight::bold, .align = TextStyle::Align::right});
  drawing.end_group();
  return drawing.svg();
}

}  // namespace

PageStack::PageStack(std::string title, SheetInfo info, std::string caution)
    : title_(std::move(title)), info_(std::move(info)), caution_(std::move(caution)) {}

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

std::vector<std::string> PageStack::finish() const {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < pages_.size(); ++i) {
    // The view box is in points and the page in millimetres, so one user unit is one point.
    out.push_back(fmt::format(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"210mm\" height=\"297mm\" "
        "viewBox=\"0 0 {:.3f} {:.3f}\" font-family=\"'DejaVu Sans', sans-serif\" "
        "fill=\"#000\">\n<title>{}</title>\n"
        "<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n{}{}</svg>\n",
        kPageWidth, kPageHeight, xml_escaped(title_), pages_[i].svg(),
        foot(*this, title_, caution_, i + 1, pages_.size())));
  }
  return out;
}

}  // namespace spanloom
