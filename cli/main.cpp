// The command `spanloom`: runs the command asked for, says errors on stderr.
#include <CLI/CLI.hpp>

#include <cstdio>
#include <exception>
#include <new>

#include "app.h"
#include "base/input_error.h"
#include "files/atomic_write.h"
#include "files/file_error.h"

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
  const Program program = make_program();
  try {
    program.app->parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    const bool asked_for_text = error.get_exit_code() == 0;  // --help, --version
    program.app->exit(error);
    return static_cast<int>(asked_for_text ? Exit::ok : Exit::bad_input);
  }
  for (const Command& command : program.commands) {
    if (command.app->parsed()) return static_cast<int>(run_command(command));
  }
  return static_cast<int>(Exit::bad_input);
}

}  // namespace
}  // namespace spanloom

int main(int argc, char** argv) { return spanloom::run(argc, argv); }
