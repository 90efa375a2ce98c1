// Scripts that make a shell complete the commands of a program, their options, the values these take, and files.
#pragma once

#include <string>

#include "command_tree.h"

namespace spanloom {

/// For bash 3.2 and later; needs nothing but bash.
std::string bash_completion(const CommandEntry& top);
/// For zsh with compinit; an autoload file, and one to be sourced.
std::string zsh_completion(const CommandEntry& top);
/// For fish 3 and later.
std::string fish_completion(const CommandEntry& top);

}  // namespace spanloom
