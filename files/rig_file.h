// Rig files on the disk.
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

#include "files/limits.h"
#include "files/rig_toml.h"

namespace spanloom {

/// The content of a file, or why there is none: up to one byte more than may be, so that its reader sees that it is too large.
SideFile load_file(const std::filesystem::path& path, std::size_t most_bytes = kLargestFile);

/// Reads a rig file and the CSV files that it names, which lie relative to it.
/// @throws FileError also when one cannot be opened
RigFile read_rig_file(const std::filesystem::path& path);

/// A rig file and what it says, with the files that it names as they are.
struct RigSources {
  struct Side { std::string name, text; };  ///< as written in the rig file; its content
  RigFile file;
  std::string text;
  std::vector<Side> side_files;             ///< in the order of the rig file, each once
};

/// @throws FileError as read_rig_file()
RigSources read_rig_sources(const std::filesystem::path& path);

}  // namespace spanloom
