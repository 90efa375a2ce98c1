#include <fmt/format.h>

#include "completion_script.h"
#include "shell_words.h"

namespace spanloom {
namespace {

std::string quoted(std::string_view word) { return "'" + backslashed(word, "'") + "'"; }

// Where in the tree the words typed so far lead to; %marks% become lists. @ is the program's name.
constexpr const char* kState = R"fish(
# Whether the words typed so far lead to command $argv[1], and with $argv[2] words in its places.
function __@_is
    set -l at @
    set -l place 0
    set -l value
    set -l typed (commandline -opc)
    set -e typed[1]
    for word in $typed
        if test -n "$value"
            set value
            continue
        end
        switch "$at $word"
            case %commands%
                set at "$at $word"
            case %valued%
                set value "$word"
            case '* -*'
                true
            case '*'
                set place (math $place + 1)
        end
    end
    test "$at" = "$argv[1]"; or return 1
    test (count $argv) -lt 2; and return
    contains -- $place $argv[2..-1]
end

complete -c @ -f
)fish";

std::string list_of(const std::vector<std::string>& words) {
  std::string list;
  for (const std::string& word : words) list += (list.empty() ? "" : " ") + quoted(word);
  return list;
}

std::string values_of(const ValueEntry& value) {
  switch (value.kind) {
    case ValueKind::none: return {};
    case ValueKind::text: return " -x";
    case ValueKind::folder: return " -x -a '(__fish_complete_directories (commandline -ct))'";
    case ValueKind::choice: return " -x -a " + quoted(fmt::format("{}", fmt::join(value.choices, " ")));
    case ValueKind::file:
      if (value.suffix.empty()) return " -r -F";
      return " -x -k -a " + quoted("(__fish_complete_suffix " + value.suffix + ")");
  }
  return {};
}

std::string line_of(const std::string& top, const std::string& condition, const std::string& rest, const std::string& words) {
  return fmt::format("complete -c {} -n {}{} -d {}\n", top, quoted(fmt::format("__{}_is {}", top, condition)), rest,
                     quoted(short_words(words)));
}

std::string lines_of(const std::string& top, const CommandEntry& command) {
  const std::string here = quoted(command.path);
  std::string out = "\n";
  for (const CommandEntry& below : command.commands) {
    out += line_of(top, here + " 0", " -a " + below.name, below.words);
  }
  for (const OptionEntry& option : command.options) {
    std::string names;
    for (const std::string& name : option.names) {
      names += name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1);
    }
    out += line_of(top, here, names + values_of(option.value), option.words);
  }
  for (std::size_t i = 0; i < command.places.size(); ++i) {
    const OptionEntry& place = command.places[i];
    // A repeated place goes on for as long as anyone types.
    std::string condition = here;
    if (!place.repeated) condition += fmt::format(" {}", i);
    out += line_of(top, condition, values_of(place.value), place.words);
  }
  return out;
}

void put(std::string& script, const std::string& mark, const std::vector<std::string>& words) {
  script.replace(script.find(mark), mark.size(), words.empty() ? quoted("") : list_of(words));
}

}  // namespace

std::string fish_completion(const CommandEntry& top) {
  std::vector<std::string> commands, valued;
  std::string lines;
  for (const CommandEntry* command : all_commands(top)) {
    if (command != &top) commands.push_back(command->path);
    for (const OptionEntry& option : command->options) {
      if (!option.takes_value()) continue;
      for (const std::string& name : option.names) valued.push_back(command->path + " " + name);
    }
    lines += lines_of(top.name, *command);
  }
  std::string state = with_name(kState, top.name);
  put(state, "%commands%", commands);
  put(state, "%valued%", valued);
  return fmt::format("# Completion of {0} for fish, made by `{0} completion fish`.\n", top.name) + state + lines;
}

}  // namespace spanloom
