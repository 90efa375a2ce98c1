#include "page.h"

#include <CLI/CLI.hpp>

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "base/input_error.h"
#include "files/atomic_write.h"
#include "files/page_template.h"
#include "files/rig_file.h"
#include "report_options.h"

namespace spanloom {
namespace {

namespace fs = std::filesystem;

constexpr const char* kBuiltPage = "spanloom.html";

struct PageOptions {
  std::string rig;
  std::string out;
  std::string page;  ///< empty: the one beside this program
};

/// Where the build puts the page, or else where an installation does.
fs::path page_of_this_program() {
  std::error_code fault;
  const fs::path command = fs::read_symlink("/proc/self/exe", fault);
  if (fault) throw InputError("--template", "nothing", "the page, since this program cannot tell where it lies", fault.message());
  const fs::path beside = command.parent_path() / kBuiltPage;
  const fs::path installed = command.parent_path().parent_path() / "share" / "spanloom" / kBuiltPage;
  return !fs::exists(beside, fault) && fs::exists(installed, fault) ? installed : beside;
}

/// @throws InputError where the page would be written over what it is made from
void demand_free(const fs::path& out, const fs::path& rig, const fs::path& page, const RigSources& sources) {
  std::vector<fs::path> read = {rig, page};
  for (const auto& side : sources.side_files) read.push_back(rig.parent_path() / side.name);
  for (const fs::path& one : read) {
    std::error_code fault;  // one of the two need not be there
    if (!fs::equivalent(out, one, fault) || fault) continue;
    throw InputError("--out", out.string(), "a file of its own", "the page would be written over what it is made from");
  }
}

Exit run(const PageOptions& options) {
  const RigSources sources = read_rig_sources(options.rig);
  const fs::path built = options.page.empty() ? page_of_this_program() : fs::path(options.page);
  const PageTemplate page = read_page_template(built);
  const fs::path out = options.out;
  demand_free(out, options.rig, built, sources);
  const std::string text = page_with_rig(page, sources, fs::path(options.rig).filename().string());
  write_files(out.has_parent_path() ? out.parent_path() : fs::path("."), {{out.filename().string(), text}});
  print_result(out.string() + "\n");
  return Exit::ok;
}

}  // namespace

Command add_page_command(CLI::App& app) {
  const auto options = std::make_shared<PageOptions>();
  CLI::App* command = app.add_subcommand(
      "page", "Put a rig into the page: one file that plans, shows and shakes it in a browser, on a phone too,\n"
              "without a network. Prints where it is.\n"
              "Exit code 0; 2 bad file or argument.");
  command->add_option("RIG.toml", options->rig, "The rig file; the files that it names go into the page too")->required();
  command->add_option("-o,--out", options->out, "The file to write, such as my-rig.html")->required()->type_name("FILE.html");
  command->add_option("--template", options->page, "The page to put it into; if not given, spanloom.html beside this program "
                                                       "or in ../share/spanloom seen from there")->type_name("FILE.html");
  return {command, [options] { return run(*options); }};
}

}  // namespace spanloom
