// SVG pages to one PDF.
#pragma once

#include <string>
#include <vector>

namespace spanloom {

struct PdfInfo {
  std::string title;
  std::string date;  ///< "YYYY-MM-DD": the PDF's creation date, so that the same sheet gives the same bytes
};

/// Turns A4 pages as draw_sheet() makes them into one PDF document; texts stay texts.
/// @return the bytes of the file
/// @throws std::runtime_error when librsvg or cairo refuse a page, which is a bug of ours
std::string pdf_from_svg(const std::vector<std::string>& pages, const PdfInfo& info);

}  // namespace spanloom
