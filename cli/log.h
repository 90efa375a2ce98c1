#pragma once

#include "command.h"

namespace spanloom {

/// `spanloom log ...`: webbings, rigs, how long they hung, falls, measurements and rules for retiring, in one file.
Command add_log_command(CLI::App& app);

}  // namespace spanloom
