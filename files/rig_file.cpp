#include "files/rig_file.h"

#include <algorithm>
#include <fstream>
#include <string>
#include <system_error>

namespace spanloom {

SideFile load_file(const std::filesystem::path& path, std::size_t most_bytes) {
  std::error_code fault;
  const std::filesystem::file_status status = std::filesystem::status(path, fault);
  if (!std::filesystem::exists(status)) return {std::nullopt, "there is no file " + path.string()};
  if (std::filesystem::is_directory(status)) return {std::nullopt, path.string() + " is a folder"};
  std::ifstream stream(path, std::ios::binary);
  std::string text(most_bytes + 1, '\0');
  stream.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (stream.bad() || (stream.fail() && !stream.eof())) {
    return {std::nullopt, path.string() + " cannot be read"};
  }
  text.resize(static_cast<std::size_t>(stream.gcount()));
  return {std::move(text), ""};
}

RigFile read_rig_file(const std::filesystem::path& path) { return read_rig_sources(path).file; }

RigSources read_rig_sources(const std::filesystem::path& path) {
  SideFile rig = load_file(path);
  if (!rig.text) throw FileError({{path.string(), {}, {"", "nothing", "a rig file", rig.why_not}}});
  const std::filesystem::path folder = path.parent_path();
  std::vector<RigSources::Side> sides;
  const auto take = [&](const std::string& name) {
    SideFile side = load_file(folder / name);
    const auto same = [&](const RigSources::Side& other) { return other.name == name; };
    const bool is_new = std::none_of(sides.begin(), sides.end(), same);
    if (side.text && is_new) sides.push_back({name, *side.text});
    return side;
  };
  RigFile file = read_rig(*rig.text, path.string(), take);
  return {std::move(file), std::move(*rig.text), std::move(sides)};
}

}  // namespace spanloom
