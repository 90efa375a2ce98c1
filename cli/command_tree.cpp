#include "command_tree.h"

#include <CLI/CLI.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace spanloom {
namespace {

// "TEXT:{metric,us}", "UINT:INT in [1 - 256]", "TEXT:FILE": the type, then what each check says of itself.
std::vector<std::string> pieces_of(const std::string& type) {
  std::vector<std::string> pieces(1);
  int depth = 0;
  for (const char letter : type) {
    depth += letter == '{' || letter == '[' ? 1 : letter == '}' || letter == ']' ? -1 : 0;
    if (letter == ':' && depth == 0) {
      pieces.emplace_back();
    } else {
      pieces.back() += letter;
    }
  }
  return pieces;
}

// ".toml" of "RIG.toml"; empty where the name has none.
std::string suffix_of(const std::string& name) {
  const std::size_t dot = name.rfind('.');
  if (dot == std::string::npos || dot + 1 == name.size()) return {};
  const bool plain = std::all_of(name.begin() + std::ptrdiff_t(dot) + 1, name.end(),
                                 [](unsigned char letter) { return std::isalnum(letter) != 0; });
  return plain ? name.substr(dot) : std::string();
}

void take_check(const std::string& check, ValueEntry& value) {
  if (check.starts_with('{') && check.ends_with('}')) {
    value.kind = ValueKind::choice;
    value.choices = CLI::detail::split(check.substr(1, check.size() - 2), ',');
  } else if (check.ends_with("FILE") || check.starts_with("PATH")) {
    value.kind = ValueKind::file;
  } else if (check.ends_with("DIR")) {
    value.kind = ValueKind::folder;
  } else if (const std::size_t at = check.find(" in ["); at != std::string::npos && check.ends_with(']')) {
    const std::string ends = check.substr(at + 5, check.size() - at - 6);
    const std::size_t dash = ends.find(" - ");
    if (dash != std::string::npos) value.range = ends.substr(0, dash) + " to " + ends.substr(dash + 3);
  }
}

ValueEntry value_of(const CLI::Option& option) {
  if (option.get_items_expected_max() == 0) return {};
  const std::vector<std::string> pieces = pieces_of(option.get_type_name());
  ValueEntry value{.kind = ValueKind::text, .name = pieces.front()};
  for (const char* number : {"INT", "UINT", "FLOAT"}) {
    if (value.name == number) value.name = "NUMBER";
  }
  if (value.name.empty()) value.name = "TEXT";
  if (value.name == "FOLDER" || value.name == "DIR") value.kind = ValueKind::folder;
  value.suffix = suffix_of(option.get_positional() ? option.get_name(true) : value.name);
  if (value.name == "FILE" || !value.suffix.empty()) value.kind = ValueKind::file;
  for (std::size_t i = 1; i < pieces.size(); ++i) take_check(pieces[i], value);
  return value;
}

OptionEntry entry_of(const CLI::Option& option) {
  OptionEntry entry;
  if (option.nonpositional()) {
    for (const std::string& name : option.get_snames()) entry.names.push_back("-" + name);
    for (const std::string& name : option.get_lnames()) entry.names.push_back("--" + name);
  } else {
    entry.names = {option.get_name(true)};
  }
  entry.value = value_of(option);
  entry.required = option.get_required();
  entry.repeated = entry.takes_value() && option.get_items_expected_max() > 1;
  entry.usual = option.get_default_str();
  entry.words = option.get_description();
  return entry;
}

std::string path_of(const CLI::App& app) {
  return app.get_parent() == nullptr ? app.get_name() : path_of(*app.get_parent()) + " " + app.get_name();
}

// Descriptions are written in lines; the last sentence tells the exit codes.
std::string exit_words_of(std::string words) {
  std::replace(words.begin(), words.end(), '\n', ' ');
  const std::size_t exit = words.rfind("Exit code");
  return exit == std::string::npos ? std::string() : words.substr(exit);
}

void take_description(std::string words, CommandEntry& command) {
  std::replace(words.begin(), words.end(), '\n', ' ');
  const std::size_t exit = words.rfind("Exit code");
  command.exit_words = exit_words_of(words);
  command.words = words.substr(0, exit == std::string::npos ? words.size() : words.find_last_not_of(' ', exit - 1) + 1);
}

void collect(const CommandEntry& command, std::vector<const CommandEntry*>& all) {
  all.push_back(&command);
  for (const CommandEntry& below : command.commands) collect(below, all);
}

}  // namespace

CommandEntry command_tree(const CLI::App& app) {
  CommandEntry command{.name = app.get_name(), .path = path_of(app)};
  take_description(app.get_description(), command);
  // What a command like "log" says of exit codes holds for those below it; what the program says does not.
  for (const CLI::App* above = app.get_parent(); command.exit_words.empty() && above != nullptr; above = above->get_parent()) {
    if (above->get_parent() == nullptr) break;
    command.exit_words = exit_words_of(above->get_description());
  }
  for (const CLI::Option* option : app.get_options()) {
    if (option->get_group().empty()) continue;  // hidden
    (option->nonpositional() ? command.options : command.places).push_back(entry_of(*option));
  }
  for (const CLI::App* below : app.get_subcommands([](const CLI::App* one) { return !one->get_group().empty(); })) {
    command.commands.push_back(command_tree(*below));
  }
  return command;
}

std::string short_words(const std::string& words) {
  std::size_t end = words.size();
  for (const char* stop : {": ", "; ", ". "}) end = std::min(end, words.find(stop));
  while (end > 0 && words[end - 1] == '.') --end;
  return words.substr(0, end);
}

std::string full_words(const OptionEntry& option) {
  std::string facts;
  const auto add = [&](const std::string& fact) { facts += facts.empty() ? fact : "; " + fact; };
  if (option.required && option.names.front().starts_with('-')) add("must be given");
  if (option.value.kind == ValueKind::choice) add(fmt::format("{}", fmt::join(option.value.choices, ", ")));
  if (!option.value.range.empty()) add(option.value.range);
  if (option.repeated) add("may be given more than once");
  if (!option.usual.empty()) add("usual: " + option.usual);
  return facts.empty() ? option.words : fmt::format("{} ({})", option.words, facts);
}

std::string usage_of(const CommandEntry& command) {
  std::string usage = command.path;
  if (!command.options.empty()) usage += " [OPTIONS]";
  for (const OptionEntry& option : command.options) {
    if (option.required) usage += fmt::format(" {} {}", option.names.back(), option.value.name);
  }
  for (const OptionEntry& place : command.places) {
    const std::string name = place.names.front() + (place.repeated ? "..." : "");
    usage += place.required ? " " + name : " [" + name + "]";
  }
  return command.commands.empty() ? usage : usage + " COMMAND";
}

std::string head_of(const OptionEntry& option) {
  std::string head = fmt::format("{}", fmt::join(option.names, ", "));
  if (option.names.front().starts_with('-') && option.takes_value()) head += " " + option.value.name;
  return head;
}

std::vector<const CommandEntry*> all_commands(const CommandEntry& top) {
  std::vector<const CommandEntry*> all;
  collect(top, all);
  return all;
}

}  // namespace spanloom
