#pragma once

#include "command.h"

namespace spanloom {

/// `spanloom plan RIG.toml`: lengths, tape list, loads, clearances, checks; with -o also the sheet.
Command add_plan_command(CLI::App& app);

}  // namespace spanloom
