#include "help_text.h"

#include <algorithm>

#include "sheet/text_table.h"

namespace spanloom {
namespace {

void add_options(PlainText& text, const char* title, const std::vector<OptionEntry>& options) {
  if (options.empty()) return;
  text.add_line("");
  text.add_line(title);
  for (const OptionEntry& option : options) {
    text.add_line("  " + head_of(option));
    text.add_words(full_words(option), 6);
  }
}

void add_commands(PlainText& text, const std::vector<CommandEntry>& commands) {
  if (commands.empty()) return;
  std::size_t widest = 0;
  for (const CommandEntry& command : commands) widest = std::max(widest, command.name.size());
  text.add_line("");
  text.add_line("Commands:");
  for (const CommandEntry& command : commands) {
    text.add_labelled("  " + command.name, short_words(command.words), int(widest) + 4);
  }
}

}  // namespace

std::string help_text(const CommandEntry& command) {
  PlainText text;
  text.add_words(command.words);
  text.add_line("");
  text.add_labelled("Usage:", usage_of(command), 7);
  add_options(text, "Files and words:", command.places);
  add_options(text, "Options:", command.options);
  add_commands(text, command.commands);
  if (!command.commands.empty()) {
    text.add_line("");
    text.add_line(command.path + " COMMAND --help says more of each.");
  }
  if (!command.exit_words.empty()) {
    text.add_line("");
    text.add_words(command.exit_words);
  }
  return text.text();
}

std::string HelpFormatter::make_help(const CLI::App* app, std::string, CLI::AppFormatMode) const {
  return help_text(command_tree(*app));
}

}  // namespace spanloom
