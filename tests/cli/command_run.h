// Runs the real command in a folder of its own.
#pragma once

#include <gtest/gtest.h>

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

/// A command with the practice line in a folder of its own.
class OnThePracticeLine : public testing::Test {
 protected:
  explicit OnThePracticeLine(const std::string& command) : command_(command) { put_file(folder_.path() / "rig.toml", practice_); }
  Ran run(const std::string& arguments, const std::string& before = "") {
    return run_spanloom(folder_.path(), command_ + " rig.toml " + arguments, before);
  }
  /// The practice line with one piece of its text changed.
  void change(const std::string& piece, const std::string& other) {
    std::string text = practice_;
    ASSERT_NE(text.find(piece), std::string::npos);
    put_file(folder_.path() / "rig.toml", text.replace(text.find(piece), piece.size(), other));
  }
  std::string file(const std::string& name) { return bytes_of(folder_.path() / name); }

  const std::string practice_ = bytes_of(SPANLOOM_SOURCE_DIR "/examples/practice-line/rig.toml");
  TemporaryFolder folder_;

 private:
  std::string command_;
};

}  // namespace spanloom::fixture
