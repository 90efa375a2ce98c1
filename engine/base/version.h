#pragma once

namespace spanloom {

/// Version of the library and all its outputs, "major.minor.patch".
const char* version();

}  // namespace spanloom
