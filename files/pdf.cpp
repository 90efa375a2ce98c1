#include "files/pdf.h"

#include <cairo-pdf.h>

#include "files/svg_render.h"
#include "sheet/drawing.h"

namespace spanloom {

std::string pdf_from_svg(const std::vector<std::string>& pages, const PdfInfo& info) {
  std::string bytes;
  const Owned<cairo_surface_t> surface(
      cairo_pdf_surface_create_for_stream(append_bytes, &bytes, kPageWidth, kPageHeight));
  check_cairo(cairo_surface_status(surface.get()));
  const std::string created = info.date + "T00:00:00Z";
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, info.title.c_str());
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR, "spanloom");
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, created.c_str());
  {
    const Owned<cairo_t> context(cairo_create(surface.get()));
    for (const std::string& page : pages) {
      render_svg(context.get(), page, kPageWidth, kPageHeight);
      cairo_show_page(context.get());
      check_cairo(cairo_status(context.get()));
    }
  }
  cairo_surface_finish(surface.get());
  check_cairo(cairo_surface_status(surface.get()));
  return bytes;
}

}  // namespace spanloom
