// The error for a bad file: every problem of it, each with its place and cure.
#pragma once

#include <cstddef>
#include <set>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "base/input_error.h"

namespace spanloom {

/// Where something stands in a text file, both counted from 1; columns count characters, not bytes.
struct Place {
  int line = 1;
  int column = 1;
  auto operator<=>(const Place&) const = default;
};

/// A problem with its place. `problem.read` is ready to print: texts of the file in quotes.
struct FileProblem {
  std::string file;
  Place place;
  Problem problem;
};

/// One line fit for a terminal: `rig.toml:12:11: main.tension: read "4.5", expected a force with its unit, such as
/// "4.5 kN" (cure)`.
std::string to_text(const FileProblem& problem);

/// A file that cannot be used. Nothing was written when this is thrown.
class FileError : public std::runtime_error {
 public:
  /// @param problems  at least one; what() shows the first 100, one a line, and counts the rest
  explicit FileError(std::vector<FileProblem> problems);
  const std::vector<FileProblem>& problems() const { return problems_; }

 private:
  std::vector<FileProblem> problems_;
};

/// Text of a file in quotes, fit for one line of a terminal: control characters and bytes that are
/// not UTF-8 become '?', long texts are cut with "...".
std::string in_quotes(std::string_view text);

/// Collects the problems of the files of one rig, so that all are told at once.
class Findings {
 public:
  void add(std::string file, Place place, Problem problem);
  bool empty() const { return problems_.empty(); }
  /// True if a problem was found at this key, inside it or at something that holds it.
  bool touches(std::string_view key) const;
  /// The problems found so far: files in the order they were first complained about, then by place.
  std::vector<FileProblem> in_reading_order() const;

 private:
  std::vector<FileProblem> problems_;
  std::set<std::string> keys_;
};

}  // namespace spanloom
