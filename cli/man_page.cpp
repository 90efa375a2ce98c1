#include "man_page.h"

#include <fmt/format.h>

#include <cctype>

#include "checks/verdicts.h"
#include "sheet/words.h"

namespace spanloom {
namespace {

std::string upper(std::string words) {
  for (char& letter : words) letter = char(std::toupper(static_cast<unsigned char>(letter)));
  return words;
}

std::string bold(const std::string& words) { return "\\fB" + troff(words) + "\\fR"; }
std::string italic(const std::string& words) { return "\\fI" + troff(words) + "\\fR"; }

std::string troff_head(const OptionEntry& option) {
  if (!option.names.front().starts_with('-')) return italic(option.names.front());
  std::string head;
  for (const std::string& name : option.names) head += (head.empty() ? "" : ", ") + bold(name);
  return option.takes_value() ? head + " " + italic(option.value.name) : head;
}

std::string entry(const std::string& head, const std::string& words) {
  return fmt::format(".TP\n{}\n{}\n", head, troff(words));
}

std::string section(const char* title) { return fmt::format(".SH {}\n", title); }

std::string head_and_synopsis(const CommandEntry& top, const std::string& version) {
  std::string out = fmt::format(".TH {} 1 \"\" \"{}\"\n", upper(troff(top.name)), troff(top.name + " " + version));
  out += section("NAME") + fmt::format("{} \\- plans highlines, and says how they move and what catches a fall\n", troff(top.name));
  out += section("SYNOPSIS") + ".nf\n";
  for (const CommandEntry* command : all_commands(top)) {
    if (!command->commands.empty()) continue;
    const std::string usage = usage_of(*command);
    out += bold(command->path) + troff(usage.substr(command->path.size())) + "\n";
  }
  return out + ".fi\n";
}

std::string commands_section(const CommandEntry& top) {
  std::string out = section("OPTIONS");
  for (const OptionEntry& option : top.options) out += entry(troff_head(option), full_words(option));
  out += section("COMMANDS");
  for (const CommandEntry* command : all_commands(top)) {
    if (command == &top) continue;
    out += fmt::format(".SS {}\n{}\n", troff(usage_of(*command)), troff(command->words));
    for (const OptionEntry& place : command->places) out += entry(troff_head(place), full_words(place));
    for (const OptionEntry& option : command->options) out += entry(troff_head(option), full_words(option));
    if (!command->exit_words.empty()) out += ".PP\n" + troff(command->exit_words) + "\n";
  }
  return out;
}

std::string exit_section() {
  return section("EXIT STATUS") + entry("0", "Done; where checks were made, none says stop.") +
         entry("1", "Done, and a check says stop.") +
         entry("2", "A bad file or argument. What is wrong is on standard error; nothing was written.") +
         entry("3", "No result that proves itself, or the run was stopped. Why is on standard error.") +
         entry("4", "An error of the program itself: please report it.");
}

std::string files_section() {
  return section("FILES") +
         entry(italic("RIG.toml"), "The rig: gap, webbings, tension, tapes, walker, each value with its unit. It may name "
                                   "further files beside it, such as the ground under the line. docs/rig-file.md of the "
                                   "sources has every key.") +
         entry(italic("spanloom.html"), "The page that the command page puts a rig into: beside the program, or in "
                                        "../share/spanloom seen from there.") +
         entry(italic("spanloom/spanloom-log.sqlite"), "In $XDG_DATA_HOME, or else ~/.local/share: what the command log keeps.") +
         ".PP\n" + troff("Files are written whole or not at all; those of the same name are replaced.") + "\n";
}

std::string environment_section() {
  return section("ENVIRONMENT") +
         entry("SPANLOOM_LOG", "The file that the command log keeps, where no --file is given.") +
         entry("TZ", "The time zone of today's date on reports and sheets, where no day is given.");
}

std::string example(const char* words, const char* command) {
  return fmt::format(".PP\n{}\n.PP\n.RS 4\n.nf\n{}\n.fi\n.RE\n", troff(words), troff(command));
}

std::string examples_section() {
  return section("EXAMPLES") + example("The report on the terminal, and the sheet for the crew in the folder my-rig:",
                                       "spanloom plan my-rig.toml -o my-rig") +
         example("In feet, pounds and inches:", "spanloom plan my-rig.toml --units us") +
         example("A first look at what comes back of a shake:", "spanloom shake my-rig.toml --quick") +
         example("Where to tape, with 25 tapes at most:", "spanloom space my-rig.toml --most-tapes 25 -o my-spacing") +
         example("The rig in one file for the phone:", "spanloom page my-rig.toml -o my-rig.html");
}

std::string cautions_section() {
  std::string out = section("CAUTIONS");
  for (const std::string& words : cautions(Falls::computed)) out += entry("\\(bu", words);
  return out;
}

}  // namespace

std::string troff(std::string_view words) {
  std::string out;
  for (const char32_t letter : code_points(words)) {
    switch (letter) {
      case U'\\': out += "\\(rs"; break;
      case U'-': out += "\\-"; break;
      case U'"': out += "\\(dq"; break;
      case U'\'': out += "\\(aq"; break;
      case U'`': out += "\\(ga"; break;
      case U'^': out += "\\(ha"; break;
      case U'~': out += "\\(ti"; break;
      case U'.': out += out.empty() ? "\\&." : "."; break;
      case U'\n': out += ' '; break;  // the next line could start a request
      default: out += letter < 0x80 ? std::string(1, char(letter)) : fmt::format("\\[u{:04X}]", unsigned(letter));
    }
  }
  return out;
}

std::string man_page(const CommandEntry& top, const std::string& version) {
  return head_and_synopsis(top, version) + section("DESCRIPTION") + troff(top.words) + "\n" + commands_section(top) +
         exit_section() + files_section() + environment_section() + examples_section() + cautions_section();
}

}  // namespace spanloom
