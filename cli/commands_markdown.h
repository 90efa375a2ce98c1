// The help of all commands as one Markdown page: docs/commands.md.
#pragma once

#include <string>

#include "command_tree.h"

namespace spanloom {

std::string commands_markdown(const CommandEntry& top);

}  // namespace spanloom
