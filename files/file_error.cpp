#include "files/file_error.h"

#include <algorithm>
#include <utility>

#include "base/utf8.h"

namespace spanloom {
namespace {

constexpr std::size_t kShownProblems = 100;
constexpr std::size_t kMostCharactersOfAText = 60;
constexpr std::size_t kMostCharactersOfALine = 1000;

std::string summary(const std::vector<FileProblem>& problems) {
  std::string text;
  const std::size_t shown = std::min(problems.size(), kShownProblems);
  for (std::size_t i = 0; i < shown; ++i) {
    if (i > 0) text += '\n';
    text += to_text(problems[i]);
  }
  if (problems.size() > shown) {
    text += "\n... and " + std::to_string(problems.size() - shown) + " more problems";
  }
  return text;
}

/// The text with '?' for control characters and broken bytes, cut with "..." if it is too long.
std::string printable(std::string_view text, std::size_t most_characters) {
  std::string out;
  std::size_t characters = 0;
  for (std::size_t at = 0; at < text.size();) {
    if (characters++ == most_characters) return out + "...";
    const std::size_t size = utf8_character_size(text, at);
    const auto byte = static_cast<unsigned char>(text[at]);
    const bool broken = size == 0 || byte < 0x20 || byte == 0x7f;
    if (broken) {
      out += '?';
    } else {
      out += text.substr(at, size);
    }
    at += std::max<std::size_t>(size, 1);
  }
  return out;
}

}  // namespace

std::string to_text(const FileProblem& p) {
  std::string text = p.file + ':' + std::to_string(p.place.line) + ':' +
                     std::to_string(p.place.column) + ": ";
  if (!p.problem.key.empty()) text += p.problem.key + ": ";
  text += "read " + p.problem.read + ", expected " + p.problem.expected;
  if (!p.problem.cure.empty()) text += " (" + p.problem.cure + ')';
  return printable(text, kMostCharactersOfALine);  // keys may hold anything
}

FileError::FileError(std::vector<FileProblem> problems)
    : std::runtime_error(summary(problems)), problems_(std::move(problems)) {}

std::string in_quotes(std::string_view text) { return '"' + printable(text, kMostCharactersOfAText) + '"'; }

void Findings::add(std::string file, Place place, Problem problem) {
  keys_.insert(problem.key);
  problems_.push_back({std::move(file), place, std::move(problem)});
}

bool Findings::touches(std::string_view key) const {
  const std::string wanted(key);
  if (keys_.contains(wanted)) return true;
  for (std::size_t cut = 0; (cut = wanted.find_first_of(".[", cut)) != std::string::npos; ++cut) {
    if (keys_.contains(wanted.substr(0, cut))) return true;
  }
  for (const char inside : {'.', '['}) {
    const auto next = keys_.lower_bound(wanted + inside);
    if (next != keys_.end() && next->starts_with(wanted + inside)) return true;
  }
  return false;
}

std::vector<FileProblem> Findings::in_reading_order() const {
  std::vector<std::string> files;
  for (const FileProblem& p : problems_) {
    if (std::find(files.begin(), files.end(), p.file) == files.end()) files.push_back(p.file);
  }
  const auto rank = [&files](const FileProblem& p) {
    return std::find(files.begin(), files.end(), p.file) - files.begin();
  };
  std::vector<FileProblem> sorted = problems_;
  std::stable_sort(sorted.begin(), sorted.end(), [&rank](const FileProblem& a, const FileProblem& b) {
    return std::pair(rank(a), a.place) < std::pair(rank(b), b.place);
  });
  return sorted;
}

}  // namespace spanloom
