// What every command of `spanloom` looks like, so that app.cpp only lists them.
//
// One file a command: cli/<name>.cpp defines `Command add_<name>_command(CLI::App& app)` and
// cli/<name>.h declares it. The function adds a subcommand with its options; the options live in a
// shared struct that the returned `run` holds. `run` does the work and returns the exit code.
//
// Errors are thrown, not printed: run_command() in main.cpp turns FileError (files/file_error.h) and
// InputError into text on stderr and exit code 2. A command reads its rig with
// read_rig_file() (files/rig_file.h) and passes InputErrors that come later, from the planning,
// through RigFile::locate() so that they too name file, line and column.
#pragma once

#include <functional>

namespace CLI {
class App;
}

namespace spanloom {

/// Exit codes of every command.
enum class Exit : int {
  ok = 0,
  stop = 1,            ///< a check says stop
  bad_input = 2,       ///< a bad file or argument; nothing was written
  no_certificate = 3,  ///< a solve did not finish with a proof, or the user stopped it
  bug = 4,             ///< an error that is ours, not the user's
};

struct Command {
  CLI::App* app = nullptr;    ///< the subcommand; asked whether it was given
  std::function<Exit()> run;  ///< called once after parsing, if it was
};

}  // namespace spanloom
