#include "record/record_path.h"

#include <sys/stat.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>

#include <fmt/format.h>

#include "base/input_error.h"
#include "record/database.h"

namespace spanloom {
namespace {

namespace fs = std::filesystem;

constexpr const char* kVariable = "SPANLOOM_LOG";

std::string variable(const char* name) {
  const char* value = std::getenv(name);
  return value != nullptr ? value : "";
}

void make_private_folder(const fs::path& folder) {
  std::error_code ignored;
  if (folder.empty() || fs::is_directory(folder, ignored)) return;
  make_private_folder(folder.parent_path());
  if (::mkdir(folder.c_str(), S_IRWXU) != 0 && errno != EEXIST) {
    throw RecordError(
        fmt::format("{}: cannot be made: {}; name another file with --file", folder.string(), std::strerror(errno)));
  }
}

}  // namespace

RecordPath record_path(const std::optional<std::string>& asked) {
  if (asked && asked->empty()) throw InputError("--file", "\"\"", "the name of a file");
  if (asked) return {*asked, "--file"};
  if (const std::string named = variable(kVariable); !named.empty()) return {named, kVariable};
  const fs::path inside = fs::path("spanloom") / "spanloom-log.sqlite";
  if (const fs::path data = variable("XDG_DATA_HOME"); data.is_absolute()) return {data / inside, ""};
  const fs::path home = variable("HOME");
  if (!home.is_absolute())
    throw InputError("--file", "nothing, and HOME names no folder", "the file of the record", "give --file");
  return {home / ".local" / "share" / inside, ""};
}

void make_folder_for(const RecordPath& path) {
  const fs::path folder = fs::absolute(path.file).parent_path();
  std::error_code ignored;
  if (fs::is_directory(folder, ignored)) return;
  if (path.named_by.empty()) return make_private_folder(folder);
  throw InputError(path.named_by, '"' + path.file.string() + '"', "a file in a folder that is there",
                   "make the folder first");
}

}  // namespace spanloom
