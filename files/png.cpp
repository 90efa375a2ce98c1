#include "files/png.h"

#include <cmath>

#include "files/svg_render.h"

namespace spanloom {

std::string png_from_svg(const std::string& svg, double width, double height, double scale) {
  const int across = static_cast<int>(std::ceil(scale * width)), down = static_cast<int>(std::ceil(scale * height));
  const Owned<cairo_surface_t> surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, across, down));
  check_cairo(cairo_surface_status(surface.get()));
  {
    const Owned<cairo_t> context(cairo_create(surface.get()));
    render_svg(context.get(), svg, across, down);
  }
  std::string bytes;
  check_cairo(cairo_surface_write_to_png_stream(surface.get(), append_bytes, &bytes));
  return bytes;
}

}  // namespace spanloom
