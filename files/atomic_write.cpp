#include "files/atomic_write.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstddef>
#include <cstring>
#include <set>
#include <string_view>
#include <system_error>
#include <utility>

namespace spanloom {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const fs::path& path, std::string_view what, int error) {
  throw WriteError(path.string() + ": " + std::string(what) + ": " + std::strerror(error));
}

/// An open file that is closed whatever happens.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  int number() const { return number_; }
  /// Closes now, so that a late write error is seen. @return 0 or errno
  int close() {
    const int number = std::exchange(number_, -1);
    return ::close(number) == 0 ? 0 : errno;
  }

 private:
  int number_;
};

/// Removes what was made unless it is kept.
class Scaffold {
 public:
  Scaffold() = default;
  Scaffold(const Scaffold&) = delete;
  Scaffold& operator=(const Scaffold&) = delete;
  ~Scaffold() {
    std::error_code ignored;  // the first failure is the one to tell
    for (const fs::path& file : files_) fs::remove(file, ignored);
    for (auto folder = folders_.rbegin(); folder != folders_.rend(); ++folder) fs::remove(*folder, ignored);
  }
  void made_folder(fs::path folder) { folders_.push_back(std::move(folder)); }
  void made_file(fs::path file) { files_.insert(std::move(file)); }
  void keep_folders() { folders_.clear(); }
  void forget_file(const fs::path& file) { files_.erase(file); }

 private:
  std::set<fs::path> files_;
  std::vector<fs::path> folders_;  // outermost first
};

// Makes a folder and those it lies in, as far as they are missing.
void make_folders(const fs::path& folder, Scaffold& scaffold) {
  std::error_code fault;
  if (folder.empty() || fs::is_directory(folder, fault)) return;
  make_folders(folder.parent_path(), scaffold);
  if (fs::create_directory(folder, fault)) scaffold.made_folder(folder);
  if (fault) fail(folder, "cannot be made", fault.value());
}

struct Staged {
  fs::path temporary;
  fs::path target;
};

void write_all(int descriptor, std::string_view bytes, const fs::path& target) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) fail(target, "cannot be written", errno);
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
}

Staged stage(const fs::path& folder, const OutputFile& file, Scaffold& scaffold) {
  const fs::path target = folder / file.name;
  std::string name = (folder / ('.' + file.name + ".XXXXXX")).string();
  Descriptor descriptor(::mkstemp(name.data()));
  if (descriptor.number() < 0) fail(target, "cannot be written", errno);
  scaffold.made_file(name);
  write_all(descriptor.number(), file.bytes, target);
  // mkstemp makes files for their owner alone; these are for the crew.
  const mode_t mask = ::umask(0);
  ::umask(mask);
  if (::fchmod(descriptor.number(), 0666 & ~mask) != 0) fail(target, "cannot be given its rights", errno);
  if (::fsync(descriptor.number()) != 0) fail(target, "cannot be forced to the disk", errno);
  if (const int error = descriptor.close()) fail(target, "cannot be written", error);
  return {name, target};
}

void check_names(const fs::path& folder, const std::vector<OutputFile>& files) {
  std::set<std::string> names;
  for (const OutputFile& file : files) {
    const fs::path target = folder / file.name;
    if (file.name.empty() || fs::path(file.name).filename() != file.name || file.name == "." || file.name == "..") {
      fail(target, "is no name for a file in a folder", EINVAL);
    }
    if (!names.insert(file.name).second) fail(target, "would be written twice", EEXIST);
    std::error_code ignored;  // what cannot be looked at fails when it is written
    if (fs::is_directory(target, ignored)) fail(target, "is in the way", EISDIR);
  }
}

void force_to_disk(const fs::path& folder) {
  Descriptor descriptor(::open(folder.c_str(), O_RDONLY | O_DIRECTORY));
  // Some file systems cannot sync a folder; the files are whole in any case.
  if (descriptor.number() >= 0) ::fsync(descriptor.number());
}

/// Gives the file that stands at a target a second name, so that it can be put back. The target keeps
/// its own name too, where the file system knows hard links.
fs::path set_aside(const Staged& file, Scaffold& scaffold) {
  fs::path old = file.temporary;
  old += ".old";  // as unique as the temporary name
  if (::link(file.target.c_str(), old.c_str()) != 0 && ::rename(file.target.c_str(), old.c_str()) != 0) {
    fail(file.target, "cannot be replaced", errno);
  }
  scaffold.made_file(old);
  return old;
}

/// Gives the staged files their names; puts everything back if one of them cannot have its own.
void put_in_place(const std::vector<Staged>& staged, Scaffold& scaffold) {
  std::vector<std::pair<fs::path, fs::path>> done;  // target, and what stood there ("" if nothing)
  try {
    for (const Staged& file : staged) {
      const bool stood = fs::exists(fs::symlink_status(file.target));
      done.emplace_back(file.target, stood ? set_aside(file, scaffold) : fs::path());
      if (::rename(file.temporary.c_str(), file.target.c_str()) != 0) {
        fail(file.target, "cannot be put in place", errno);
      }
      scaffold.forget_file(file.temporary);
    }
  } catch (const WriteError&) {
    for (const auto& [target, old] : done) {
      if (old.empty()) {
        ::unlink(target.c_str());
        continue;
      }
      scaffold.forget_file(old);  // should it not go back, it is better left where it is
      ::rename(old.c_str(), target.c_str());
    }
    throw;
  }
}

}  // namespace

void write_files(const fs::path& folder, const std::vector<OutputFile>& files) {
  check_names(folder, files);
  Scaffold scaffold;
  if (folder.empty()) fail(folder, "no folder named", ENOENT);
  make_folders(folder, scaffold);

  std::vector<Staged> staged;
  for (const OutputFile& file : files) staged.push_back(stage(folder, file, scaffold));
  put_in_place(staged, scaffold);
  scaffold.keep_folders();
  force_to_disk(folder);
}

}  // namespace spanloom
