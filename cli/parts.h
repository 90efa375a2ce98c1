// Work cut into numbered parts: --part K/N makes one of them, --join FOLDER takes them together.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "files/rig_file.h"
#include "files/space_parts.h"

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

/// @throws InputError "--part" where it is no K/N, or --join was given too, or no folder
std::optional<Part> part_asked(const PartOptions& options, const std::optional<std::string>& folder);

/// "search-03-of-40.json", so that names sort as their numbers.
std::string part_name(const std::string& kind, const Part& part);

/// The part files of one kind in a folder, by name. @throws InputError "--join" where the folder cannot be read
std::vector<PartFile> read_parts(const std::string& folder, const std::string& kind);

/// Of the rig file, the files that it names, and what else the work depends on.
std::string fingerprint_of(const RigSources& sources, const std::string& options);

}  // namespace spanloom
