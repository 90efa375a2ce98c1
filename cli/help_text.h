// The help of a command as the terminal shows it.
#pragma once

#include <CLI/CLI.hpp>

#include <string>

#include "command_tree.h"

namespace spanloom {

/// At most 80 columns.
std::string help_text(const CommandEntry& command);

/// Has CLI11 print help_text() for --help.
class HelpFormatter : public CLI::FormatterBase {
 public:
  std::string make_help(const CLI::App* app, std::string name, CLI::AppFormatMode mode) const override;
};

}  // namespace spanloom
