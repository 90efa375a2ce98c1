#include "commands_markdown.h"

#include <fmt/format.h>

namespace spanloom {
namespace {

// What Markdown would take for something else than letters.
std::string escaped(const std::string& words) {
  std::string out;
  for (const char letter : words) {
    if (std::string_view("\\*_`<>[]|#").find(letter) != std::string_view::npos) out += '\\';
    out += letter;
  }
  return out;
}

std::string anchor_of(std::string path) {
  for (char& letter : path) letter = letter == ' ' ? '-' : letter;
  return path;
}

void add_entries(std::string& out, const std::vector<OptionEntry>& entries) {
  for (const OptionEntry& entry : entries) {
    out += fmt::format("- `{}`: {}\n", head_of(entry), escaped(full_words(entry)));
  }
}

void add_command(std::string& out, const CommandEntry& command) {
  out += fmt::format("\n## {}\n\n    {}\n\n{}\n", command.path, usage_of(command), escaped(command.words));
  if (!command.places.empty() || !command.options.empty()) out += '\n';
  add_entries(out, command.places);
  add_entries(out, command.options);
  if (!command.exit_words.empty()) out += fmt::format("\n{}\n", escaped(command.exit_words));
}

}  // namespace

std::string commands_markdown(const CommandEntry& top) {
  std::string out = fmt::format(
      "# The commands of `{0}`\n\nMade by `{0} manual --markdown`; `scripts/renew_docs.sh` writes it anew.\n\n", top.name);
  const std::vector<const CommandEntry*> all = all_commands(top);
  for (const CommandEntry* command : all) {
    if (command == &top) continue;
    out += fmt::format("- [{}](#{}): {}\n", command->path, anchor_of(command->path), escaped(short_words(command->words)));
  }
  for (const CommandEntry* command : all) add_command(out, *command);
  return out;
}

}  // namespace spanloom
