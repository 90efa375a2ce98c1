#include "files/rig_file.h"

#include <algorithm>
#include <fstream>
#include <string>
#include <system_error>

#include "files/limits.h"

namespace spanloom {
namespace {

/// Reads a file up to one byte more than may be, so that the readers see that it is too large.
SideFile load(const std::filesystem::path& path) {
  std::error_code fault;
  const std::filesystem::file_status status = std::filesystem::status(path, fault);
  if (!std::filesystem::exists(status)) return {std::nullopt, "there is no file " + path.string()};
  if (std::filesystem::is_directory(status)) return {std::nullopt, path.string() + " is a folder"};
  std::ifstream stream(path, std::ios::binary);
  std::string text(kLargestFile + 1, '\0');
  stream.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (stream.bad() || (stream.fail() && !stream.eof())) {
    return {std::nullopt, path.string() + " cannot be read"};
  }
  text.resize(static_cast<std::size_t>(stream.gcount()));
  return {std::move(text), ""};
}

std::string text_of_rig(const std::filesystem::path& path) {
  SideFile rig = load(path);
  if (!rig.text) throw FileError({{path.string(), {}, {"", "nothing", "a rig file", rig.why_not}}});
  return std::move(*rig.text);
}

}  // namespace

RigFile read_rig_file(const std::filesystem::path& path) {
  const std::filesystem::path folder = path.parent_path();
  return read_rig(text_of_rig(path), path.string(), [&folder](const std::string& name) { return load(folder / name); });
}

RigSources read_rig_sources(const std::filesystem::path& path) {
  const std::filesystem::path folder = path.parent_path();
  RigSources sources{text_of_rig(path), {}};
  const auto take = [&](const std::string& name) {
    SideFile side = load(folder / name);
    const auto same = [&](const RigSources::Side& other) { return other.name == name; };
    const bool is_new = std::none_of(sources.side_files.begin(), sources.side_files.end(), same);
    if (side.text && is_new) sources.side_files.push_back({name, *side.text});
    return side;
  };
  read_rig(sources.text, path.string(), take);
  return sources;
}

}  // namespace spanloom
