#include "read.h"

#include <CLI/CLI.hpp>

#include <cstdio>
#include <memory>
#include <string>

#include "files/rig_file.h"
#include "rig_text.h"

namespace spanloom {

Command add_read_command(CLI::App& app) {
  struct Options {
    std::string file;
    std::string units = "metric";
  };
  const auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("read", "Read a rig file and say what was understood; write nothing");
  command->add_option("RIG.toml", options->file, "The rig file")->required();
  command->add_option("--units", options->units, "Units to print")
      ->check(CLI::IsMember({"metric", "us"}))
      ->capture_default_str();
  return {command, [options] {
            const RigFile file = read_rig_file(options->file);
            const UnitSystem units = options->units == "us" ? UnitSystem::us : UnitSystem::metric;
            const std::string text = rig_text(file.rig, units);
            std::fwrite(text.data(), 1, text.size(), stdout);
            return Exit::ok;
          }};
}

}  // namespace spanloom
