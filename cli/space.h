#pragma once

#include "command.h"

namespace spanloom {

/// `spanloom space RIG.toml`: finds where to tape; with -o also the rig file of the chosen layout, its sheet, picture and files.
Command add_space_command(CLI::App& app);

}  // namespace spanloom
