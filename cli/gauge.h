#pragma once

#include "command.h"

namespace spanloom {

Command add_gauge_command(CLI::App& app);

}  // namespace spanloom
