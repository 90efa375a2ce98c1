#include "parts.h"

#include <CLI/CLI.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <system_error>

#include "base/input_error.h"
#include "base/version.h"

namespace spanloom {
namespace {

constexpr std::size_t kMostParts = 100000;

std::optional<std::size_t> number_in(std::string_view text) {
  std::size_t number = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (fault != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return number;
}

std::optional<Part> part_asked(const PartOptions& options, const std::optional<std::string>& folder) {
  if (options.part.empty()) return std::nullopt;
  if (!options.join.empty()) throw InputError("--part", "--join too", "one of them: parts are made first, then joined");
  if (!folder) throw InputError("--part", "no folder to write it into", "-o FOLDER too");
  const std::size_t slash = options.part.find('/');
  const auto number = number_in(std::string_view(options.part).substr(0, slash));
  const auto of = slash == std::string::npos ? std::nullopt : number_in(std::string_view(options.part).substr(slash + 1));
  if (!number || !of || *number < 1 || *number > *of || *of > kMostParts) {
    throw InputError("--part", '"' + options.part + '"', "which part of how many, such as 3/40");
  }
  return Part{*number, *of};
}

}  // namespace

void add_part_options(CLI::App& command, PartOptions& options, const std::string& work) {
  command.add_option("--part", options.part, "Do part K of N of " + work + " and write it into the folder of -o, such as 3/40")->type_name("K/N");
  command.add_option("--join", options.join, "Take the parts in this folder together, with the options that they were made with")
      ->type_name("FOLDER");
}

std::string part_name(const std::string& kind, const Part& part) {
  const std::size_t digits = std::to_string(part.of).size();
  return fmt::format("{}-{:0{}}-of-{}.json", kind, part.number, digits, part.of);
}

std::vector<PartFile> read_parts(const std::string& folder, const std::string& kind) {
  namespace fs = std::filesystem;
  std::error_code fault;
  std::vector<fs::path> paths;
  for (fs::directory_iterator at(folder, fault), end; !fault && at != end; at.increment(fault)) {
    const std::string name = at->path().filename().string();
    if (name.starts_with(kind + "-") && name.ends_with(".json")) paths.push_back(at->path());
  }
  if (fault) throw InputError("--join", '"' + folder + '"', "a folder of parts", fault.message());
  std::sort(paths.begin(), paths.end());
  std::vector<PartFile> files;
  for (const fs::path& path : paths) {
    std::ifstream stream(path, std::ios::binary);
    std::ostringstream text;
    if (!(text << stream.rdbuf())) throw InputError("--join", '"' + path.string() + '"', "a part that can be read");
    files.push_back({path.string(), std::move(text).str()});
  }
  return files;
}

std::string fingerprint_of(const RigSources& sources, const std::string& options) {
  std::string all = fmt::format("{}\n{}\n{}\n", version(), options, sources.text);
  for (const RigSources::Side& side : sources.side_files) all += fmt::format("{}\n{}\n", side.name, side.text);
  return fingerprint_of(all);
}

std::optional<PlannedRig> planned_rig(const ReportOptions& asked, const PartOptions& parts) {
  RigSources sources = read_rig_sources(asked.file);
  if (asked.folder) make_sure_of(*asked.folder);
  const std::optional<Part> part = part_asked(parts, asked.folder);
  PlanOutcome outcome = plan_of(sources.file, asked.unit_system());
  if (!outcome.plan) {
    print_no_plan(asked, outcome);
    return std::nullopt;
  }
  return PlannedRig{std::move(sources), part, std::move(*outcome.plan)};
}

}  // namespace spanloom
