#pragma once

#include "command.h"

namespace spanloom {

/// `spanloom shake RIG.toml`: how much of a shake comes back; with -o also the sheet, the picture and files.
Command add_shake_command(CLI::App& app);

}  // namespace spanloom
