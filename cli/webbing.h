#pragma once

#include "command.h"

namespace spanloom {

Command add_webbing_command(CLI::App& app);

}  // namespace spanloom
