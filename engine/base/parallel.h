// The same work on many items, on as many threads as wanted. What an item gives must not depend on the others, so
// that the answer is the same on any number of threads.
#pragma once

#include <cstddef>
#include <functional>

namespace spanloom {

/// Calls work(i) for i in [0, count) on up to `threads` threads, in order on one.
/// @param keep_on  called after each item with the number done, by one thread at a time; false stops: items not yet
///                 begun are left out. May be empty.
/// @return false if it was stopped
/// The first exception of any item ends the rest and is thrown again here.
bool in_parallel(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& work,
                 const std::function<bool(std::size_t)>& keep_on);

}  // namespace spanloom
