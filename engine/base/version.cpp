#include "base/version.h"

namespace spanloom {

const char* version() { return SPANLOOM_VERSION; }

}  // namespace spanloom
