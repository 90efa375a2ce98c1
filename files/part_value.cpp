#include "files/part_value.h"

#include <algorithm>
#include <utility>

namespace spanloom {
namespace {

// More than any search finds: what is beyond was not written by one.
constexpr std::size_t kLargestPart = 32'000'000;   // [bytes]

/// @param at  byte, from 0; may be behind the end
Place place_of(std::string_view text, std::size_t at) {
  const std::string_view before = text.substr(0, at);
  const std::size_t line = before.rfind('\n') + 1;  // npos + 1: the first line
  return {1 + int(std::count(before.begin(), before.end(), '\n')), 1 + int(utf8_length(before.substr(line)))};
}

}  // namespace

const char* name_of(BayStep step) { return step == BayStep::centimetre ? "centimetre" : "half_arm_span"; }
const char* name_of(CountedFrom from) { return from == CountedFrom::both_anchors ? "both_anchors" : "near_anchor"; }

[[noreturn]] void refuse(const std::string& file, Place place, Problem problem) {
  throw FileError({{file, place, std::move(problem)}});
}

ReadJson parsed(const PartFile& file) {
  if (file.text.size() > kLargestPart) {
    refuse(file.name, {}, {"", fmt::format("{} bytes", file.text.size()),
                           fmt::format("a part file of at most {} bytes", kLargestPart), ""});
  }
  constexpr const char* kWanted = "the JSON of a part, as it was written";
  const std::string cure = std::string("it is damaged, cut short or another file: ") + kRunAgain;
  try {
    return ReadJson::parse(file.text);
  } catch (const ReadJson::parse_error& error) {
    const std::string_view text = file.text;
    const std::size_t at = error.byte > 0 ? error.byte - 1 : 0;
    refuse(file.name, place_of(text, at),
           {"", at < text.size() ? in_quotes(text.substr(at, 20)) : "the end of the file", kWanted, cure});
  } catch (const ReadJson::out_of_range&) {
    refuse(file.name, {}, {"", "a number too great to be one", kWanted, cure});
  }
}

}  // namespace spanloom
