// Help, manual, Markdown and completions say the same, since all are made from the one list of commands.
#include <CLI/CLI.hpp>
#include <gtest/gtest.h>

#include <cstdlib>
#include <string>

#include "cli/app.h"
#include "cli/command_tree.h"
#include "cli/completion_script.h"
#include "cli/help_text.h"
#include "cli/man_page.h"
#include "command_run.h"

namespace spanloom {
namespace {

using fixture::Ran;
using fixture::run_spanloom;
using fixture::TemporaryFolder;

std::string printed(const std::string& arguments) {
  const TemporaryFolder folder;
  const Ran ran = run_spanloom(folder.path(), arguments);
  EXPECT_EQ(ran.exit_code, 0) << arguments << ran.err;
  return ran.out;
}

// What the shell command prints, in a folder with a rig file, another file, and two folders.
std::string from_shell(const std::string& command) {
  const TemporaryFolder folder;
  for (const char* name : {"heron.toml", "notes.txt", "heron two.toml"}) fixture::put_file(folder.path() / name, "x");
  for (const char* name : {"rigs", "old rigs"}) std::filesystem::create_directory(folder.path() / name);
  fixture::put_file(folder.path() / "completion", printed("completion bash"));
  fixture::put_file(folder.path() / "ask", command);
  const std::string all = "cd '" + folder.path().string() + "' && bash --norc ./ask >out 2>&1";
  EXPECT_EQ(std::system(all.c_str()), 0) << fixture::bytes_of(folder.path() / "out");
  return fixture::bytes_of(folder.path() / "out");
}

// What bash would offer for the last of the words, each in a line; "complete" is never run by hand.
std::string offered(const std::string& words) {
  return from_shell("set -u\nsource ./completion\nCOMP_WORDS=(" + words +
                    ")\nCOMP_CWORD=$((${#COMP_WORDS[@]} - 1))\n_spanloom\n"
                    "[[ ${#COMPREPLY[@]} -eq 0 ]] || printf '%s\\n' \"${COMPREPLY[@]}\" | sort\n");
}

bool holds(const std::string& text, const std::string& piece) { return text.find(piece) != std::string::npos; }

TEST(Manual, HasEveryCommandAndEveryOptionOfTheHelp) {
  const Program program = make_program();
  const CommandEntry top = command_tree(*program.app);
  const std::string page = printed("manual"), markdown = printed("manual --markdown");
  const std::string bash = printed("completion bash"), zsh = printed("completion zsh"), fish = printed("completion fish");
  EXPECT_GE(all_commands(top).size(), 14u);
  for (const CommandEntry* command : all_commands(top)) {
    const std::string help = printed(command->path.substr(top.name.size()) + " --help");
    EXPECT_TRUE(holds(markdown, "\n## " + command->path + "\n")) << command->path;
    EXPECT_TRUE(command == &top || holds(page, ".SS " + troff(command->path))) << command->path;
    for (const std::string* script : {&bash, &fish}) EXPECT_TRUE(holds(*script, "'" + command->path)) << command->path;
    EXPECT_TRUE(command == &top || holds(zsh, "'" + command->name + ":")) << command->path;
    for (const OptionEntry& option : command->options) {
      EXPECT_FALSE(option.words.empty()) << command->path << option.names.back();
      for (const std::string& name : option.names) {
        EXPECT_TRUE(holds(help, name)) << command->path << name;
        EXPECT_TRUE(holds(page, "\\fB" + troff(name) + "\\fR")) << command->path << name;
        EXPECT_TRUE(holds(markdown, name)) << command->path << name;
        EXPECT_TRUE(holds(bash, "'" + name + "'")) << command->path << name;
        EXPECT_TRUE(holds(zsh, ")" + name) || holds(zsh, "*" + name)) << command->path << name;
        EXPECT_TRUE(holds(fish, name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1))) << name;
      }
    }
  }
}

TEST(Manual, SaysTheExitCodesOfEveryCommandThatDoesSomething) {
  const Program program = make_program();
  const CommandEntry top = command_tree(*program.app);
  for (const CommandEntry* command : all_commands(top)) {
    if (!command->commands.empty()) continue;  // which has to be followed by one of these
    EXPECT_TRUE(command->exit_words.starts_with("Exit code")) << command->path;
  }
}

TEST(Manual, IsTheCommandsPageOfTheDocs) {
  EXPECT_EQ(fixture::bytes_of(SPANLOOM_SOURCE_DIR "/docs/commands.md"), printed("manual --markdown"))
      << "docs/commands.md is out of date; renew it: scripts/renew_docs.sh " SPANLOOM_COMMAND;
}

TEST(Manual, HasNoHyphenThatTroffWouldTurnIntoADash) {
  const std::string page = printed("manual");
  for (std::size_t at = page.find('-'); at != std::string::npos; at = page.find('-', at + 1)) {
    EXPECT_EQ(page[at - 1], '\\') << page.substr(at - 10, 30);
  }
}

TEST(Manual, PassesGroffWithoutAWarningWhereGroffIsThere) {
  if (std::system("command -v groff >/dev/null") != 0) GTEST_SKIP() << "no groff here";
  const TemporaryFolder folder;
  fixture::put_file(folder.path() / "page.1", printed("manual"));
  const std::string groff = "cd '" + folder.path().string() + "' && groff -man -Tascii -ww -z page.1 >said 2>&1";
  EXPECT_EQ(std::system(groff.c_str()), 0);
  EXPECT_EQ(fixture::bytes_of(folder.path() / "said"), "");
}

TEST(Manual, EscapesWhatTroffWouldTakeForARequest) {
  EXPECT_EQ(troff(".TH"), "\\&.TH");
  EXPECT_EQ(troff("'so"), "\\(aqso");
  EXPECT_EQ(troff("a\\b -c\n.d"), "a\\(rsb \\-c .d");
  EXPECT_EQ(troff("5 \xc2\xb0"), "5 \\[u00B0]");
}

TEST(HelpText, IsNeverWiderThanATerminal) {
  const Program program = make_program();
  const CommandEntry top = command_tree(*program.app);
  for (const CommandEntry* command : all_commands(top)) {
    const std::string help = help_text(*command);
    for (std::size_t at = 0, end; (end = help.find('\n', at)) != std::string::npos; at = end + 1) {
      EXPECT_LE(end - at, 80u) << help.substr(at, end - at);
    }
  }
}

TEST(BashCompletion, OffersCommandsOptionsAndValues) {
  EXPECT_EQ(offered("spanloom pl"), "plan\n");
  EXPECT_EQ(offered("spanloom --v"), "--version\n");
  EXPECT_EQ(offered("spanloom plan --u"), "--units\n");
  EXPECT_EQ(offered("spanloom plan --units ''"), "metric\nus\n");
  EXPECT_EQ(offered("spanloom plan --units = u"), "us\n");    // how bash cuts --units=u
  EXPECT_EQ(offered("spanloom plan --units '='"), "metric\nus\n");
  EXPECT_EQ(offered("spanloom plan --units=u"), "--units=us\n");  // and how where = parts no words
  EXPECT_EQ(offered("spanloom completion ''"), "bash\nfish\nzsh\n");
}

TEST(BashCompletion, OffersRigFilesAndFoldersWhereARigIsWanted) {
  EXPECT_EQ(offered("spanloom plan ''"), "heron two.toml\nheron.toml\nold rigs\nrigs\n");
  EXPECT_EQ(offered("spanloom plan --json her"), "heron two.toml\nheron.toml\n");
  EXPECT_EQ(offered("spanloom plan -o out her"), "heron two.toml\nheron.toml\n");
  EXPECT_EQ(offered("spanloom plan -o ''"), "old rigs\nrigs\n");
  EXPECT_EQ(offered("spanloom plan --date ''"), "");
  EXPECT_EQ(offered("spanloom plan heron.toml ''"), "");
}

TEST(BashCompletion, KnowsCommandsBelowCommandsAndWordsThatAShellWouldRead) {
  CLI::App app("Words", "spanloom");
  CLI::App* below = app.add_subcommand("log", "Keep")->add_subcommand("add", "It's $HOME `x` \"q\"; more");
  std::string kind;
  below->add_option("--kind", kind, "Of what")->check(CLI::IsMember({"it's", "$HOME"}));
  const TemporaryFolder folder;
  fixture::put_file(folder.path() / "completion", bash_completion(command_tree(app)));
  fixture::put_file(folder.path() / "ask", "source ./completion\nCOMP_WORDS=(spanloom log add --kind '')\nCOMP_CWORD=4\n"
                                           "_spanloom\nprintf '%s\\n' \"${COMPREPLY[@]}\"\n");
  ASSERT_EQ(std::system(("cd '" + folder.path().string() + "' && bash --norc ./ask >out 2>&1").c_str()), 0);
  EXPECT_EQ(fixture::bytes_of(folder.path() / "out"), "it's\n$HOME\n");
}

TEST(Completion, RefusesAShellItDoesNotKnow) {
  const TemporaryFolder folder;
  EXPECT_EQ(run_spanloom(folder.path(), "completion csh").exit_code, 2);
}

}  // namespace
}  // namespace spanloom
