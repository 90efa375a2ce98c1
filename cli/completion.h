#pragma once

#include "command.h"

namespace spanloom {

/// `spanloom completion SHELL`: what makes the shell complete commands, options, their values and files.
Command add_completion_command(CLI::App& app);

}  // namespace spanloom
