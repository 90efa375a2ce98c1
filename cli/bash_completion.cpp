#include <fmt/format.h>

#include "completion_script.h"
#include "shell_words.h"

namespace spanloom {
namespace {

// The walk over what is typed already, the same for any tree. @ is the name of the program.
constexpr const char* kWalk = R"sh(
# Puts those of the words after it that begin as what is typed into the answer.
_@_offer() {
  local word
  for word in "$@"; do
    [[ $word == "$current"* ]] && COMPREPLY+=("$before$word")
  done
}

_@_offer_files() {
  local word
  compopt -o filenames 2>/dev/null
  while IFS= read -r word; do
    COMPREPLY+=("$before$word")
  done < <([[ $kind == folder ]] || compgen -f -X "!*$suffix" -- "$current"
    [[ $kind == file && -z $suffix ]] || compgen -d -- "$current")
}

_@_offer_value() {
  case $kind in
    choice) _@_offer "${choices[@]}" ;;
    file | folder) _@_offer_files ;;
  esac
}

_@() {
  local at=@ place=0 places_only='' before='' kind='' suffix='' i word current=${COMP_WORDS[COMP_CWORD]}
  local -a choices=() commands=() options=()
  COMPREPLY=()
  _@_words "$at"
  for ((i = 1; i < COMP_CWORD; i++)); do
    word=${COMP_WORDS[i]}
    if [[ -n $kind ]]; then  # the value of an option; bash makes three words of --option=value
      [[ $word == '=' ]] || kind=''
    elif [[ $word == -- ]]; then
      places_only=1
    elif [[ $word == -* && -z $places_only ]]; then
      _@_value "$at $word"
    elif ((place == 0)) && [[ " ${commands[*]} " == *" $word "* ]]; then
      at="$at $word"
      _@_words "$at"
    else
      ((place++))
    fi
  done
  [[ -n $kind && $current == '=' ]] && current=''
  if [[ -z $kind && -z $places_only && $current == --*=* ]]; then  # or leaves it one
    before=${current%%=*}=
    _@_value "$at ${current%%=*}"
    current=${current#*=}
  fi
  if [[ -n $kind ]]; then
    _@_offer_value
  elif [[ -z $before && -z $places_only && $current == -* ]]; then
    _@_offer "${options[@]}"
  elif [[ -z $before ]]; then
    ((place == 0)) && _@_offer "${commands[@]}"
    _@_value "$at $((place + 1))"
    _@_offer_value
  fi
}

complete -F _@ @
)sh";

std::string quoted_list(const std::vector<std::string>& words) {
  std::string list;
  for (const std::string& word : words) list += (list.empty() ? "" : " ") + posix_quoted(word);
  return list;
}

std::string words_case(const CommandEntry& command) {
  std::vector<std::string> commands, options;
  for (const CommandEntry& below : command.commands) commands.push_back(below.name);
  for (const OptionEntry& option : command.options) {
    options.insert(options.end(), option.names.begin(), option.names.end());
  }
  return fmt::format("    {}) commands=({}) options=({}) ;;\n", posix_quoted(command.path), quoted_list(commands),
                     quoted_list(options));
}

std::string value_case(const std::string& pattern, const ValueEntry& value) {
  const std::string head = "    " + pattern + ") ";
  switch (value.kind) {
    case ValueKind::none: return {};
    case ValueKind::text: return head + "kind=text ;;\n";
    case ValueKind::choice: return fmt::format("{}kind=choice choices=({}) ;;\n", head, quoted_list(value.choices));
    case ValueKind::folder: return head + "kind=folder ;;\n";
    case ValueKind::file: return fmt::format("{}kind=file suffix={} ;;\n", head, posix_quoted(value.suffix));
  }
  return {};
}

std::string value_cases(const CommandEntry& command) {
  std::string cases;
  for (const OptionEntry& option : command.options) {
    std::string pattern;
    for (const std::string& name : option.names) {
      pattern += (pattern.empty() ? "" : " | ") + posix_quoted(command.path + " " + name);
    }
    cases += value_case(pattern, option.value);
  }
  for (std::size_t i = 0; i < command.places.size(); ++i) {
    const OptionEntry& place = command.places[i];
    const std::string pattern = place.repeated ? posix_quoted(command.path + " ") + "[0-9]*"  // this one and all after it
                                               : posix_quoted(fmt::format("{} {}", command.path, i + 1));
    cases += value_case(pattern, place.value);
  }
  return cases;
}

}  // namespace

std::string bash_completion(const CommandEntry& top) {
  std::string words, values;
  for (const CommandEntry* command : all_commands(top)) {
    words += words_case(*command);
    values += value_cases(*command);
  }
  return fmt::format(
             "# Completion of {0} for bash, made by `{0} completion bash`.\n\n"
             "# The commands and options of command $1.\n"
             "_{0}_words() {{\n  case $1 in\n{1}  esac\n}}\n\n"
             "# What is written behind option or in place $1.\n"
             "_{0}_value() {{\n  kind='' suffix='' choices=()\n  case $1 in\n{2}  esac\n}}\n",
             top.name, words, values) +
         with_name(kWalk, top.name);
}

}  // namespace spanloom
