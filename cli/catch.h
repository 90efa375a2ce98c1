#pragma once

#include "command.h"

namespace spanloom {

/// `spanloom catch RIG.toml`: main failure and leash falls; with -o also the sheet, pictures and files.
Command add_catch_command(CLI::App& app);

}  // namespace spanloom
