// Runs the real command in a folder of its own.
#pragma once

#include <filesystem>
#include <string>

namespace spanloom::fixture {

struct Ran {
  int exit_code = -1;
  std::string out;
  std::string err;
};

/// `spanloom` followed by `arguments` as a shell would read them, run in `folder`.
/// @param before  a command that runs it, "timeout 5"
Ran run_spanloom(const std::filesystem::path& folder, const std::string& arguments, const std::string& before = "");

std::string bytes_of(const std::filesystem::path& file);
void put_file(const std::filesystem::path& file, const std::string& bytes);

/// A folder that is gone when the test is.
class TemporaryFolder {
 public:
  TemporaryFolder();
  ~TemporaryFolder();
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  const std::filesystem::path& path() const { return path_; }
  /// Files and folders in it, with what is in those, sorted.
  std::string listing() const;

 private:
  std::filesystem::path path_;
};

}  // namespace spanloom::fixture
