#include "read.h"

#include <CLI/CLI.hpp>

#include <memory>
#include <string>

#include "report_options.h"
#include "rig_text.h"

namespace spanloom {

Command add_read_command(CLI::App& app) {
  const auto options = std::make_shared<ReportOptions>();
  CLI::App* command = app.add_subcommand("read", "Read a rig file and say what was understood; nothing is computed or written.\n"
                                                 "Exit code 0; 2 bad file or argument.");
  add_file_and_units(*command, *options);
  return {command, [options] {
            print_result(rig_text(read_rig_file(options->file).rig, options->unit_system()));
            return Exit::ok;
          }};
}

}  // namespace spanloom
