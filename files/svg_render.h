// Drawing an SVG document with cairo, for PDF and PNG alike.
#pragma once

#include <cairo.h>
#include <glib-object.h>

#include <memory>
#include <string>

typedef struct _RsvgHandle RsvgHandle;

namespace spanloom {

/// Ends the life of what C libraries hand out.
struct Destroy {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_t* context) const { cairo_destroy(context); }
  void operator()(RsvgHandle* handle) const { g_object_unref(handle); }
  void operator()(GError* error) const { g_error_free(error); }
};
template <class T>
using Owned = std::unique_ptr<T, Destroy>;

/// Where cairo writes a file to: appends to the std::string behind `closure`.
cairo_status_t append_bytes(void* closure, const unsigned char* data, unsigned int length);

/// @throws std::runtime_error if cairo says that something failed
void check_cairo(cairo_status_t status);

/// Draws the document over width times height units of the context.
/// @throws std::runtime_error when librsvg refuses it, which is a bug of ours
void render_svg(cairo_t* context, const std::string& svg, double width, double height);

}  // namespace spanloom
