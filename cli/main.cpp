// The command `spanloom`: lists its commands, runs the one asked for, says errors on stderr.
#include <CLI/CLI.hpp>

#include <cstdio>
#include <exception>
#include <new>
#include <vector>

#include "base/input_error.h"
#include "base/version.h"
#include "catch.h"
#include "command.h"
#include "files/atomic_write.h"
#include "files/file_error.h"
#include "page.h"
#include "plan.h"
#include "read.h"
#include "shake.h"
#include "space.h"
#include "taping.h"

namespace spanloom {
namespace {

/// The edge where errors become text and an exit code.
Exit run_command(const Command& command) {
  try {
    return command.run();
  } catch (const FileError& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return Exit::bad_input;
  } catch (const InputError& error) {
    std::fprintf(stderr, "spanloom: %s\n", error.what());
    return Exit::bad_input;
  } catch (const WriteError& error) {
    std::fprintf(stderr, "spanloom: %s\n", error.what());
    return Exit::bad_input;
  } catch (const std::bad_alloc&) {
    std::fprintf(stderr, "spanloom: out of memory\n");
    return Exit::bug;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "spanloom: an error of the program itself, please report it: %s\n", error.what());
    return Exit::bug;
  }
}

int run(int argc, char** argv) {
  CLI::App app{
      "Plans highlines from one rig file: lengths, tension, tapes, sag, clearances, anchor loads;\n"
      "shakes them: how much of a shake comes back; finds where to tape so that little does;\n"
      "and lets the main fail and the walker fall: what drops how far, and what has to hold it.\n"
      "A planning aid, not a certificate: have the rig and the anchors checked by a competent rigger.",
      "spanloom"};
  app.set_version_flag("--version", version());
  app.require_subcommand(1);
  const std::vector<Command> commands = {
      add_plan_command(app), add_shake_command(app),  add_catch_command(app), add_space_command(app),
      add_taping_command(app), add_page_command(app), add_read_command(app)};

  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    const bool asked_for_text = error.get_exit_code() == 0;  // --help, --version
    app.exit(error);
    return static_cast<int>(asked_for_text ? Exit::ok : Exit::bad_input);
  }
  for (const Command& command : commands) {
    if (command.app->parsed()) return static_cast<int>(run_command(command));
  }
  return static_cast<int>(Exit::bad_input);
}

}  // namespace
}  // namespace spanloom

int main(int argc, char** argv) { return spanloom::run(argc, argv); }
