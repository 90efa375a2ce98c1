// What `spanloom space` takes from the command line.
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <thread>

#include "parts.h"
#include "report_options.h"
#include "spacing/space_report.h"

namespace spanloom {

/// How exactly the crew tapes.
struct CrewArguments {
  std::string arm_span_error, loop_error; ///< with units; empty: usual
};
void add_crew_options(CLI::App& command, CrewArguments& arguments);
/// @throws InputError that names the argument
TapingErrors taping_errors(const CrewArguments& arguments);

struct SpaceArguments {
  ReportOptions report;
  PartOptions parts;
  unsigned threads = std::max(1u, std::thread::hardware_concurrency());
  bool quick = false;
  bool free = false;                      ///< bays in centimetres
  std::string least_bay, most_bay, least_slack, most_slack, most_drop, most_backup_tension;  ///< with units; empty: usual
  CrewArguments crew;
  std::optional<std::size_t> most_tapes, tapes;
  std::uint64_t seed = 1;
  std::size_t effort = 1;
};

void add_space_options(CLI::App& command, SpaceArguments& arguments);

/// Everything that the search depends on.
/// @throws InputError that names the argument
SpaceOptions space_options(const SpaceArguments& arguments, const Rig& rig, const Plan& plan);

/// The same as words, for the fingerprint of parts.
std::string space_options_text(const SpaceOptions& options);

}  // namespace spanloom
