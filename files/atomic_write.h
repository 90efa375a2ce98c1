// Writing a set of files whole or not at all.
#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>
#include <vector>

namespace spanloom {

/// A file to be written. `bytes` is its whole content.
struct OutputFile {
  std::string name;   ///< within the folder, no directories
  std::string bytes;
};

/// The folder or a file in it could not be written; says which and why. No file was changed.
class WriteError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// Writes files into a folder, which is made if it is missing, with its parents. All are first
/// written beside their places under other names and forced to the disk; only when every one is there
/// do they take their names. Files of the same names are replaced.
/// @throws WriteError if any cannot be written: then none was replaced, nothing is left behind
void write_files(const std::filesystem::path& folder, const std::vector<OutputFile>& files);

}  // namespace spanloom
