// Reads back what the sheet drew, so that tests see a page as a reader of the SVG does.
#pragma once

#include <string>
#include <vector>

#include "sheet/text_width.h"

namespace spanloom::fixture {

struct ReadText {
  std::string words;   ///< entities resolved
  double x = 0.0, y = 0.0, size = 0.0;
  bool bold = false;
  std::string anchor;  ///< "start", "middle", "end"

  double width() const { return text_width(words, size, bold ? FontWeight::bold : FontWeight::regular); }
  double left() const { return anchor == "end" ? x - width() : anchor == "middle" ? x - 0.5 * width() : x; }
  double right() const { return left() + width(); }
};

/// Every <text> of a page in the order drawn.
std::vector<ReadText> texts_of(const std::string& svg);

/// What stands between the <g class="name"> and its </g>, for every such group.
std::vector<std::string> groups_of(const std::string& svg, const std::string& name);

/// Pairs of texts whose letters run into each other, in words; boxes reach from the baseline up to the height of a
/// capital (0.73 em in this font).
std::vector<std::string> texts_that_run_into_another(const std::string& svg);

/// Colours that are no grey.
std::vector<std::string> colours_of(const std::string& svg);

/// "" if every tag is closed in order and no bare & or < stands in a text; else what is wrong.
std::string xml_fault(const std::string& svg);

}  // namespace spanloom::fixture
