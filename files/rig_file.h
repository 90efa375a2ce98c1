// Rig files on the disk.
#pragma once

#include <filesystem>

#include "files/rig_toml.h"

namespace spanloom {

/// Reads a rig file and the CSV files that it names, which lie relative to it.
/// @throws FileError also when one cannot be opened
RigFile read_rig_file(const std::filesystem::path& path);

}  // namespace spanloom
