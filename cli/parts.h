// Work cut into numbered parts: --part K/N makes one of them, --join FOLDER takes them together.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "files/rig_file.h"
#include "files/space_parts.h"
#include "report_options.h"

namespace CLI {
class App;
}

namespace spanloom {

struct PartOptions {
  std::string part;                       ///< "3/40", empty: all of it
  std::string join;                       ///< folder of the parts, empty: none
};

/// @param work  what is cut, in words
void add_part_options(CLI::App& command, PartOptions& options, const std::string& work);

/// "search-03-of-40.json", so that names sort as their numbers.
std::string part_name(const std::string& kind, const Part& part);

/// The part files of one kind in a folder, by name. @throws InputError "--join" where the folder cannot be read
std::vector<PartFile> read_parts(const std::string& folder, const std::string& kind);

/// Of the rig file, the files that it names, and what else the work depends on.
std::string fingerprint_of(const RigSources& sources, const std::string& options);

/// A rig read and planned, for work that may be one part of more.
struct PlannedRig {
  RigSources sources;
  std::optional<Part> part;
  Plan plan;

  const RigFile& file() const { return sources.file; }
  const Rig& rig() const { return sources.file.rig; }
};

/// Empty where there is no plan, which is said on stderr.
/// @throws InputError "--part" where it is no K/N, or --join was given too, or no folder; WriteError as make_sure_of()
std::optional<PlannedRig> planned_rig(const ReportOptions& asked, const PartOptions& parts);

}  // namespace spanloom
