#include "files/suggest.h"

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <vector>

namespace spanloom {
namespace {

constexpr std::size_t kLongestWord = 64;  // longer words are not slips of a key

std::string folded(std::string_view word) {
  std::string out(word);
  for (char& c : out) {
    c = c == '-' ? '_' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return out;
}

std::size_t edits_between(const std::string& a, const std::string& b) {
  std::vector<std::size_t> before_last(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replace = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, replace});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
    before_last.swap(last);
    last.swap(row);
  }
  return last[b.size()];
}

}  // namespace

std::string nearest_word(std::string_view word, std::span<const std::string> known) {
  if (word.size() > kLongestWord) return "";
  const std::string wanted = folded(word);
  std::string nearest;
  std::size_t fewest = kLongestWord;
  for (const std::string& candidate : known) {
    if (candidate.size() > kLongestWord) continue;
    const std::size_t edits = edits_between(wanted, folded(candidate));
    const std::size_t allowed = (std::max(word.size(), candidate.size()) + 2) / 3;
    if (edits <= allowed && edits < fewest) {
      fewest = edits;
      nearest = candidate;
    }
  }
  return nearest;
}

}  // namespace spanloom
