#include "command_run.h"

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <set>
#include <stdexcept>

namespace spanloom::fixture {
namespace fs = std::filesystem;

Ran run_spanloom(const fs::path& folder, const std::string& arguments, const std::string& before) {
  const TemporaryFolder streams;
  const fs::path out = streams.path() / "out", err = streams.path() / "err";
  // Without the sanitizers this variable means nothing.
  const std::string leaks =
      "LSAN_OPTIONS='suppressions=" SPANLOOM_SOURCE_DIR "/tests/cli/leaks_of_libraries.supp:print_suppressions=0' ";
  const std::string command = "cd '" + folder.string() + "' && " + leaks + before + " '" SPANLOOM_COMMAND "' " + arguments +
                              " >'" + out.string() + "' 2>'" + err.string() + "'";
  const int status = std::system(command.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, bytes_of(out), bytes_of(err)};
}

std::string bytes_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

void put_file(const fs::path& file, const std::string& bytes) {
  std::ofstream(file, std::ios::binary) << bytes;
}

TemporaryFolder::TemporaryFolder() {
  std::string name = (fs::temp_directory_path() / "spanloom-test-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
  path_ = name;
}

TemporaryFolder::~TemporaryFolder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

std::string TemporaryFolder::listing() const {
  std::set<std::string> names;
  for (const auto& entry : fs::recursive_directory_iterator(path_)) {
    names.insert(fs::relative(entry.path(), path_).string());
  }
  std::string all;
  for (const std::string& name : names) all += (all.empty() ? "" : " ") + name;
  return all;
}

}  // namespace spanloom::fixture
