#include "files/page_template.h"

#include <fstream>
#include <iterator>
#include <string_view>
#include <utility>

#include "base/input_error.h"
#include "files/json_values.h"
#include "files/toml_prescan.h"

namespace spanloom {
namespace {

constexpr std::string_view kOpens = "<script type=\"application/json\" id=\"rig\">";
constexpr std::string_view kCloses = "</script>";
constexpr const char* kCure = "./try builds it";

struct Span {
  std::size_t from;
  std::size_t length;
};

[[noreturn]] void refuse(const PageTemplate& page, const std::string& read) {
  throw FileError({{page.name, {}, {"", read, "a page that Spanloom was built with, with one place for a rig", kCure}}});
}

/// What stands between the tags now.
Span place_of_rig(const PageTemplate& page) {
  const std::string_view text = page.text;
  const std::size_t opens = text.find(kOpens);
  if (opens == text.npos) refuse(page, "no place for a rig");
  if (text.find(kOpens, opens + 1) != text.npos) refuse(page, "more than one place for a rig");
  const std::size_t from = opens + kOpens.size();
  const std::size_t to = text.find(kCloses, from);
  if (to == text.npos) refuse(page, "a place for a rig that does not end");
  return {from, to - from};
}

/// No text in it can end the element that holds it, nor begin another: "<" stands only in strings, and is written
/// as JSON may write any character there.
std::string fit_for_a_page(const Json& document) {
  std::string out;
  for (const char c : document.dump()) {
    if (c == '<') {
      out += "\\u003c";
    } else {
      out += c;
    }
  }
  return out;
}

Json json_of(const RigSources& sources, const std::string& rig_name) {
  if (const auto broken = find_broken_utf8(rig_name)) {
    throw InputError("RIG.toml", "a name that is not UTF-8", "a file with a name that a browser can show", "give the file another name");
  }
  Json sides = Json::array();
  for (const RigSources::Side& side : sources.side_files) {
    // The rig file itself was read as UTF-8; of a CSV file only the numbers were.
    if (const auto broken = find_broken_utf8(side.text)) throw FileError({{side.name, broken->place, broken->problem}});
    sides.push_back({{"name", side.name}, {"text", side.text}});
  }
  return {{"name", rig_name}, {"text", sources.text}, {"sides", std::move(sides)}};
}

}  // namespace

PageTemplate read_page_template(const std::filesystem::path& path) {
  std::error_code fault;
  std::ifstream stream(path, std::ios::binary);
  if (!std::filesystem::is_regular_file(path, fault) || !stream) {
    throw InputError("--template", "no file " + path.string(), "the page that a rig goes into", kCure);
  }
  std::string text{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
  if (stream.bad()) throw InputError("--template", path.string(), "a page that can be read", kCure);
  return {path.string(), std::move(text)};
}

std::string page_with_rig(const PageTemplate& page, const RigSources& sources, const std::string& rig_name) {
  const Span place = place_of_rig(page);
  std::string out = page.text;
  return out.replace(place.from, place.length, fit_for_a_page(json_of(sources, rig_name)));
}

}  // namespace spanloom
