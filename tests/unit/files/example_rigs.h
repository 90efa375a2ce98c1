// The rig files of the examples and of the documentation, for tests that edit them.
#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "files/rig_toml.h"
#include "statics/plan.h"

namespace spanloom::test {

inline std::filesystem::path example(const char* name) {
  return std::filesystem::path(SPANLOOM_SOURCE_DIR) / "examples" / name;
}

inline std::string text_of(const std::filesystem::path& path) {
  std::ifstream stream(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

/// A rig whose side files lie beside an example.
inline Rig rig_beside(const std::filesystem::path& folder, const std::string& text) {
  return read_rig(text, "rig.toml", [&](const std::string& name) { return SideFile{text_of(folder / name), ""}; }).rig;
}

/// On a coarse mesh.
inline Plan plan_of(const Rig& rig) { return make_plan(rig, {.main_bars = 4, .loop_bars = 8}).plan.value(); }

/// With the line ends and the byte order mark that some editors write.
inline std::string windows(std::string text) {
  for (std::size_t at = 0; (at = text.find('\n', at)) != text.npos; at += 2) text.insert(at, 1, '\r');
  return "\xEF\xBB\xBF" + text;
}

/// A rig file, and where the files that it names lie.
struct Example {
  std::filesystem::path folder;
  std::string text;
};

/// Both examples, and every whole rig file that the documentation shows.
inline std::vector<Example> examples() {
  namespace fs = std::filesystem;
  std::vector<Example> all;
  for (const char* name : {"heron-gorge", "practice-line"}) all.push_back({example(name), text_of(example(name) / "rig.toml")});
  for (const fs::directory_entry& page : fs::directory_iterator(fs::path(SPANLOOM_SOURCE_DIR) / "docs")) {
    const std::string text = page.path().extension() == ".md" ? text_of(page.path()) : "";
    const std::string fence = "```toml\n";
    for (std::size_t at = 0; (at = text.find(fence, at)) != text.npos;) {
      at += fence.size();
      const std::string block = text.substr(at, text.find("```", at) - at);
      if (block.starts_with("title")) all.push_back({page.path().parent_path(), block});
    }
  }
  return all;
}

}  // namespace spanloom::test
