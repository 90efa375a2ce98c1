// What `spanloom` can be told, as plain data read off the one CLI::App: help, manual, Markdown and completions are
// all made from it, so that none of them can say anything else than the program does.
#pragma once

#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace spanloom {

enum class ValueKind { none, text, choice, file, folder };

/// What is written behind an option or in a place.
struct ValueEntry {
  ValueKind kind = ValueKind::none;
  std::string name{};                   ///< as shown: "TEXT", "NUMBER", "FOLDER"
  std::vector<std::string> choices{};   ///< of a choice
  std::string suffix{};                 ///< that a file's name ends in, ".toml"; empty: any
  std::string range{};                  ///< "1 to 256", or empty
};

struct OptionEntry {
  std::vector<std::string> names{};     ///< "-o", "--out"; of a place its one name, "RIG.toml"
  ValueEntry value{};
  bool required = false;
  bool repeated = false;                ///< may be given more than once
  std::string usual{};                  ///< what stands where it is not given, or empty
  std::string words{};

  bool takes_value() const { return value.kind != ValueKind::none; }
};

struct CommandEntry {
  std::string name{};                   ///< "plan"
  std::string path{};                   ///< "spanloom plan"
  std::string words{};                  ///< what it does, one paragraph
  std::string exit_words{};             ///< "Exit code 0; ...", or empty
  std::vector<OptionEntry> places{};    ///< what is told by where it stands
  std::vector<OptionEntry> options{};   ///< what is told by name
  std::vector<CommandEntry> commands{};
};

/// The app and all below it that is not hidden.
CommandEntry command_tree(const CLI::App& app);

/// The words up to the first colon, semicolon or full stop: what fits on a line of a list.
std::string short_words(const std::string& words);
/// The words with choices, range and usual value behind them.
std::string full_words(const OptionEntry& option);
/// "spanloom plan [OPTIONS] RIG.toml".
std::string usage_of(const CommandEntry& command);
/// "-o, --out FOLDER", or of a place its name.
std::string head_of(const OptionEntry& option);
/// The command and all below it, each before those below it.
std::vector<const CommandEntry*> all_commands(const CommandEntry& top);

}  // namespace spanloom
