#include "unit/motion/allocations.h"

#include <atomic>
#include <cstdlib>
#include <new>

namespace {
std::atomic<std::size_t> asked{0};
}

namespace spanloom {
std::size_t allocations() { return asked; }
}  // namespace spanloom

void* operator new(std::size_t size) {
  ++asked;
  if (void* p = std::malloc(size)) return p;
  throw std::bad_alloc();
}
// The sanitizer's own does not come through the one above, as the library's does.
void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
  ++asked;
  return std::malloc(size);
}
void* operator new(std::size_t size, std::align_val_t align) {
  ++asked;
  const std::size_t step = std::size_t(align);
  if (void* p = std::aligned_alloc(step, (size + step - 1) / step * step)) return p;
  throw std::bad_alloc();
}
void operator delete(void* p) noexcept { std::free(p); }
void operator delete(void* p, std::size_t) noexcept { std::free(p); }
void operator delete(void* p, std::align_val_t) noexcept { std::free(p); }
void operator delete(void* p, std::size_t, std::align_val_t) noexcept { std::free(p); }
