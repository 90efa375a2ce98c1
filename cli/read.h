#pragma once

#include "command.h"

namespace spanloom {

/// `spanloom read RIG.toml`: reads a rig file and says what was understood; writes nothing.
Command add_read_command(CLI::App& app);

}  // namespace spanloom
