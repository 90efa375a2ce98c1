// Counts what operator new is asked for in the whole test program.
#pragma once

#include <cstddef>

namespace spanloom {

std::size_t allocations();

}  // namespace spanloom
