#pragma once

#include "command.h"

namespace spanloom {

/// `spanloom page RIG.toml -o FILE`: the page with the rig in it, one file that opens without a network.
Command add_page_command(CLI::App& app);

}  // namespace spanloom
