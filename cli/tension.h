#pragma once

#include "command.h"

namespace spanloom {

Command add_tension_command(CLI::App& app);

}  // namespace spanloom
