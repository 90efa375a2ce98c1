#pragma once

#include "command.h"

namespace spanloom {

/// `spanloom taping RIG.toml`: what comes back of a shake as crews in fact tape the rig, and which bays are touchiest.
Command add_taping_command(CLI::App& app);

}  // namespace spanloom
