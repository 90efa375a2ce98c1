#include "files/pdf.h"

#include <cairo-pdf.h>
#include <librsvg/rsvg.h>

#include <memory>
#include <stdexcept>

#include "sheet/drawing.h"

namespace spanloom {
namespace {

struct Destroy {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_t* context) const { cairo_destroy(context); }
  void operator()(RsvgHandle* handle) const { g_object_unref(handle); }
  void operator()(GError* error) const { g_error_free(error); }
};
template <class T>
using Owned = std::unique_ptr<T, Destroy>;

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

void check(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS) {
    throw std::runtime_error(std::string("cairo: ") + cairo_status_to_string(status));
  }
}

[[noreturn]] void throw_rsvg(GError* error) {
  const Owned<GError> owned(error);
  throw std::runtime_error(std::string("librsvg: ") + (owned ? owned->message : "no reason given"));
}

void render_page(cairo_t* context, const std::string& svg) {
  GError* error = nullptr;
  const Owned<RsvgHandle> handle(rsvg_handle_new_from_data(
      reinterpret_cast<const guint8*>(svg.data()), svg.size(), &error));
  if (!handle) throw_rsvg(error);
  const RsvgRectangle viewport{0.0, 0.0, kPageWidth, kPageHeight};
  if (!rsvg_handle_render_document(handle.get(), context, &viewport, &error)) throw_rsvg(error);
  cairo_show_page(context);
  check(cairo_status(context));
}

}  // namespace

std::string pdf_from_svg(const std::vector<std::string>& pages, const PdfInfo& info) {
  std::string bytes;
  const Owned<cairo_surface_t> surface(
      cairo_pdf_surface_create_for_stream(append, &bytes, kPageWidth, kPageHeight));
  check(cairo_surface_status(surface.get()));
  const std::string created = info.date + "T00:00:00Z";
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, info.title.c_str());
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR, "spanloom");
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, created.c_str());
  {
    const Owned<cairo_t> context(cairo_create(surface.get()));
    for (const std::string& page : pages) render_page(context.get(), page);
  }
  cairo_surface_finish(surface.get());
  check(cairo_surface_status(surface.get()));
  return bytes;
}

}  // namespace spanloom
