#include "files/svg_render.h"

#include <librsvg/rsvg.h>

#include <stdexcept>

namespace spanloom {
namespace {

[[noreturn]] void throw_rsvg(GError* error) {
  const Owned<GError> owned(error);
  throw std::runtime_error(std::string("librsvg: ") + (owned ? owned->message : "no reason given"));
}

}  // namespace

cairo_status_t append_bytes(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

void check_cairo(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS) {
    throw std::runtime_error(std::string("cairo: ") + cairo_status_to_string(status));
  }
}

void render_svg(cairo_t* context, const std::string& svg, double width, double height) {
  GError* error = nullptr;
  const Owned<RsvgHandle> handle(rsvg_handle_new_from_data(
      reinterpret_cast<const guint8*>(svg.data()), svg.size(), &error));
  if (!handle) throw_rsvg(error);
  const RsvgRectangle viewport{0.0, 0.0, width, height};
  if (!rsvg_handle_render_document(handle.get(), context, &viewport, &error)) throw_rsvg(error);
  check_cairo(cairo_status(context));
}

}  // namespace spanloom
