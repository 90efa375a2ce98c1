// The built page as a form to be filled in: a rig goes where it says `null`.
#pragma once

#include <filesystem>
#include <string>

#include "files/rig_file.h"

namespace spanloom {

/// A page that opens for itself, as the build made it.
struct PageTemplate {
  std::string name;  ///< path, for complaints
  std::string text;
};

/// @throws InputError "--template" where there is no such file or it cannot be read
PageTemplate read_page_template(const std::filesystem::path& path);

/// The page with a rig in it. Nothing else of the page changes, and a rig that was in it gives way.
/// @param rig_name  of the rig file, as the page shows it and saves it under
/// @throws FileError where the page has not exactly one place for a rig, or a file that the rig names is not UTF-8; InputError where the rig's name is not
std::string page_with_rig(const PageTemplate& page, const RigSources& sources, const std::string& rig_name);

}  // namespace spanloom
