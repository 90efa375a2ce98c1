// The engine as the page's worker sees it: engine.d.mts. Nothing of C++ crosses but texts and copies of columns.
#include <emscripten/bind.h>
#include <emscripten/val.h>

#include <string>

#include "answers/answer.h"

namespace {

spanloom::Kept kept;  // one engine a worker, one call at a time

std::string call(const std::string& method, const std::string& args, emscripten::val tell) {
  try {
    return spanloom::answer_to(method, args, [&](std::size_t done, std::size_t all) { tell(double(done), double(all)); }, kept);
  } catch (const std::exception& bug) {
    // Uncaught it would reach JavaScript as a bare number.
    emscripten::val::global("Error").new_(std::string(bug.what())).throw_();
  }
}

emscripten::val floats(const std::string& name) {
  const std::vector<float> column = std::move(kept.films[name]);  // given once
  return emscripten::val::global("Float32Array").new_(emscripten::typed_memory_view(column.size(), column.data()));
}

}  // namespace

EMSCRIPTEN_BINDINGS(spanloom) {
  emscripten::function("call", &call);
  emscripten::function("floats", &floats);
}
