#include "read.h"

#include <CLI/CLI.hpp>

#include <cstdio>
#include <map>
#include <memory>
#include <string>

#include "files/rig_file.h"
#include "rig_text.h"

namespace spanloom {

Command add_read_command(CLI::App& app) {
  struct Options {
    std::string file;
    UnitSystem units = UnitSystem::metric;
  };
  const auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("read", "Read a rig file and say what was understood; write nothing");
  command->add_option("RIG.toml", options->file, "The rig file")->required();
  const std::map<std::string, UnitSystem> systems = {{"metric", UnitSystem::metric}, {"us", UnitSystem::us}};
  command->add_option("--units", options->units, "Units to print")->transform(CLI::CheckedTransformer(systems));
  return {command, [options] {
            const RigFile file = read_rig_file(options->file);
            const std::string text = rig_text(file.rig, options->units);
            std::fwrite(text.data(), 1, text.size(), stdout);
            return Exit::ok;
          }};
}

}  // namespace spanloom
