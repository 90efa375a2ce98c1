// The rig file: TOML with the units written out, see docs/rig-file.md.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "base/input_error.h"
#include "files/file_error.h"
#include "files/key_places.h"
#include "rig/rig.h"

namespace spanloom {

/// A rig and where each of its keys stands.
struct RigFile {
  Rig rig;            ///< find_problems(rig) is empty
  KeyPlaces places;

  /// What the engine finds wrong later (a tape beyond the end of the main, ...) with its place.
  FileError locate(const InputError& error) const;
};

/// Text of a file that a rig file names, or why there is none.
struct SideFile {
  std::optional<std::string> text;
  std::string why_not;  ///< "no such file"; set when text is empty
};

/// Gets a side file by the name written in the rig file.
using SideFileLoader = std::function<SideFile(const std::string& name)>;

/// Reads a rig.
/// @param file  name of the rig file, for errors
/// @throws FileError with every problem of the rig file and its side files; where the TOML itself is
/// broken, with the first such place
RigFile read_rig(std::string_view text, const std::string& file, const SideFileLoader& load_side_file);

}  // namespace spanloom
