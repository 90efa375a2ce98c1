// What every long computation takes from the command line, in one place.
#pragma once

#include <cstddef>

#include "base/input_error.h"
#include "files/rig_file.h"
#include "progress.h"
#include "report_options.h"

namespace spanloom {

/// Runs `make` with what was asked for: quick, threads, units, progress on the terminal, stopping on ctrl-C.
/// @tparam Options  with members of these names
/// @param name  before the progress, "shaking:"
/// @throws InputError that names the place in the file
template <class Options, class Make>
auto run_long(const char* name, const RigFile& file, const LongRunOptions& options, const StopOnInterrupt& interrupt,
              Make make) {
  ProgressLine line(name);
  Options asked;
  asked.quick = options.quick;
  asked.threads = options.threads;
  asked.units = options.report.unit_system();
  asked.progress = [&](std::size_t done, std::size_t all) {
    line.show(done, all);
    return !interrupt.asked();
  };
  try {
    return make(asked);
  } catch (const InputError& error) {
    throw file.locate(error);
  }
}

}  // namespace spanloom
