// A small valid rig file for tests, and what comes of changing it.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "files/rig_toml.h"

namespace spanloom::test {

/// Short, so that tests can name lines of it.
inline std::string small_rig() {
  return R"(title = "Test gap"
[site]
gap = "20 m"
rise = "1 m"
[webbing.reed]
mass = "60 g/m"
strength = "30 kN"
stretch = [["2 kN", "2 %"], ["10 kN", "7 %"]]
[main]
webbing = "reed"
tension = "3 kN"
[backup]
webbing = "reed"
slack = "2 %"
[spacing]
even = "2 m"
[walker]
mass = "70 kg"
)";
}

/// The text with one piece replaced; the piece must be there.
inline std::string with(std::string text, std::string_view piece, std::string_view other) {
  const std::size_t at = text.find(piece);
  if (at == text.npos) throw std::logic_error("no such piece: " + std::string(piece));
  return text.replace(at, piece.size(), other);
}

inline SideFile no_side_files(const std::string&) { return {std::nullopt, "there is no such file"}; }

inline Rig rig_of(const std::string& text, const SideFileLoader& load = no_side_files) {
  return read_rig(text, "rig.toml", load).rig;
}

inline std::vector<FileProblem> problems_of(const std::string& text,
                                            const SideFileLoader& load = no_side_files) {
  try {
    read_rig(text, "rig.toml", load);
  } catch (const FileError& error) {
    return error.problems();
  }
  return {};
}

/// All problems, one a line.
inline std::string complaints(const std::string& text, const SideFileLoader& load = no_side_files) {
  std::string all;
  for (const FileProblem& problem : problems_of(text, load)) all += to_text(problem) + '\n';
  return all;
}

}  // namespace spanloom::test
