// Which file the record is in.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

namespace spanloom {

struct RecordPath {
  std::filesystem::path file;
  std::string named_by;  ///< the option or variable; "" for the usual place
};

/// The file asked for; else the one that SPANLOOM_LOG names; else spanloom/spanloom-log.sqlite where the user's data
/// belong: $XDG_DATA_HOME, or ~/.local/share where that is unset, empty or not absolute.
/// Source: XDG Base Directory Specification 0.8, sections 2 and 3.
/// @throws InputError where nothing names one
RecordPath record_path(const std::optional<std::string>& asked);

/// Makes the folder of the usual place, for its owner alone as the specification asks (section 4). Folders that the
/// user named are not made: a slip in a name must not begin a second record.
/// @throws RecordError, InputError
void make_folder_for(const RecordPath& path);

}  // namespace spanloom
