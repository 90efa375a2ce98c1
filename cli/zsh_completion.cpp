#include <fmt/format.h>

#include <algorithm>

#include "completion_script.h"
#include "shell_words.h"

namespace spanloom {
namespace {

std::string function_of(const CommandEntry& command) {
  std::string name = "_" + command.path;
  std::replace_if(name.begin(), name.end(), [](char letter) { return letter == ' ' || letter == '-'; }, '_');
  return name;
}

// "message:action" of an argument.
std::string argument_of(const std::string& message, const ValueEntry& value) {
  std::string action = " ";  // a message, nothing to choose from
  if (value.kind == ValueKind::folder) action = "_files -/";
  if (value.kind == ValueKind::file) action = value.suffix.empty() ? "_files" : "_files -g \"*" + value.suffix + "\"";
  if (value.kind == ValueKind::choice) {
    action.clear();
    for (const std::string& choice : value.choices) {
      action += (action.empty() ? "" : " ") + backslashed(choice, " ():");
    }
    action = "(" + action + ")";
  }
  return backslashed(message, ":") + ":" + action;
}

void add_option(std::vector<std::string>& specs, const OptionEntry& option) {
  const std::string others = fmt::format("({})", fmt::join(option.names, " "));
  for (const std::string& name : option.names) {
    const char* joined = !option.takes_value() ? "" : name.starts_with("--") ? "=" : "+";
    std::string spec = (option.repeated ? "*" : others) + name + joined;
    spec += "[" + backslashed(short_words(option.words), "[]:") + "]";
    if (option.takes_value()) spec += ":" + argument_of(option.value.name, option.value);
    specs.push_back(spec);
  }
}

std::vector<std::string> specs_of(const CommandEntry& command) {
  std::vector<std::string> specs;
  for (const OptionEntry& option : command.options) add_option(specs, option);
  for (std::size_t i = 0; i < command.places.size(); ++i) {
    const OptionEntry& place = command.places[i];
    const std::string where = place.repeated ? "*" : std::to_string(i + 1);
    specs.push_back(where + (place.required || place.repeated ? ":" : "::") + argument_of(place.names.front(), place.value));
  }
  return specs;
}

std::string arguments_call(const char* flags, const std::vector<std::string>& specs) {
  std::string call = fmt::format("  _arguments {}", flags);
  for (const std::string& spec : specs) call += " \\\n    " + posix_quoted(spec);
  return call + "\n";
}

std::string with_commands_below(const CommandEntry& command) {
  std::string commands, cases;
  for (const CommandEntry& below : command.commands) {
    commands += "    " + posix_quoted(below.name + ":" + backslashed(short_words(below.words), "")) + "\n";
    cases += fmt::format("    {}) {} ;;\n", below.name, function_of(below));
  }
  std::vector<std::string> specs = specs_of(command);
  specs.push_back("1:command:->command");
  specs.push_back("*::argument:->below");
  return fmt::format("  local context state state_descr line\n  typeset -A opt_args\n  local -a commands\n{}", arguments_call("-C -S", specs)) +
         fmt::format("  if [[ $state == command ]]; then\n    commands=(\n{0}    )\n    _describe -t commands command commands\n"
                     "    return\n  fi\n  [[ $state == below ]] || return\n  case $line[1] in\n{1}  esac\n",
                     commands, cases);
}

}  // namespace

std::string zsh_completion(const CommandEntry& top) {
  std::string out = fmt::format("#compdef {0}\n# Completion of {0} for zsh, made by `{0} completion zsh`.\n", top.name);
  for (const CommandEntry* command : all_commands(top)) {
    const std::string body = command->commands.empty() ? arguments_call("-S", specs_of(*command)) : with_commands_below(*command);
    out += fmt::format("\n{}() {{\n{}}}\n", function_of(*command), body);
  }
  return out + with_name("\n# Found by compinit it is the function; sourced, it has to be made known.\n"
                         "if [[ $funcstack[1] == _@ ]]; then\n  _@ \"$@\"\nelse\n  compdef _@ @\nfi\n",
                         top.name);
}

}  // namespace spanloom
