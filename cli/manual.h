#pragma once

#include "command.h"

namespace spanloom {

/// `spanloom manual`: the manual as a page for `man`, or as Markdown.
Command add_manual_command(CLI::App& app);

}  // namespace spanloom
