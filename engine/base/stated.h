// A value that remembers whether the crew stated it or the tool assumed it.
#pragma once

#include <utility>

namespace spanloom {

/// A verdict that rests on an assumed value is never green, so every such value carries the mark.
template <class T>
struct Stated {
  T value{};
  bool assumed = true;  ///< true: our default; false: stated in the rig file

  static Stated by_default(T v) { return {std::move(v), true}; }
  static Stated given(T v) { return {std::move(v), false}; }
};

}  // namespace spanloom
