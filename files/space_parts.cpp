#include "files/space_parts.h"

#include <algorithm>
#include <cstdint>
#include <map>
#include <numeric>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "base/utf8.h"
#include "files/file_error.h"
#include "files/limits.h"

namespace spanloom {
namespace {

/// Grows when a key changes its meaning.
constexpr int kPartFormat = 1;
constexpr const char* kSearchFormat = "spanloom-space-part";
constexpr const char* kTapingFormat = "spanloom-taping-part";

// More than any search finds: what is beyond was not written by one.
constexpr std::size_t kLargestPart = 32'000'000;   // [bytes]
constexpr double kGreatest = 1e9;                  // return, limits broken
constexpr std::uint64_t kMostCounted = 1'000'000'000'000'000;
constexpr std::uint64_t kLongestBay = 5000;        // [steps]
constexpr double kMostSlack = 2.0;                 // [-]

constexpr const char* kRunAgain = "run this part again";

// Keeps keys sorted: many keys cost no more than their text.
using ReadJson = nlohmann::json;

const char* name_of(BayStep step) { return step == BayStep::centimetre ? "centimetre" : "half_arm_span"; }
const char* name_of(CountedFrom from) { return from == CountedFrom::both_anchors ? "both_anchors" : "near_anchor"; }

struct PartHead {
  std::string fingerprint;
  Part part;
};

[[noreturn]] void refuse(const std::string& file, Place place, Problem problem) {
  throw FileError({{file, place, std::move(problem)}});
}

/// A value of a part file and its key, for complaints. Places of values are not known, their keys tell where they are.
class PartValue {
 public:
  PartValue(const ReadJson& value, std::string key, const std::string& file)
      : value_(value), key_(std::move(key)), file_(file) {}

  PartValue at(const char* name) const {
    if (!value_.is_object()) refuse_as("a table of keys and values");
    const std::string key = key_.empty() ? name : key_ + '.' + name;
    const auto found = value_.find(name);
    if (found == value_.end()) refuse(file_, {}, {key, "nothing", "a value", kRunAgain});
    return {*found, key, file_};
  }

  std::vector<PartValue> entries() const {
    if (!value_.is_array() || value_.size() > kMostEntries) refuse_as(fmt::format("a list of at most {} entries", kMostEntries));
    std::vector<PartValue> out;
    for (std::size_t i = 0; i < value_.size(); ++i) out.push_back({value_[i], fmt::format("{}[{}]", key_, i), file_});
    return out;
  }

  bool is_null() const { return value_.is_null(); }

  bool flag() const {
    if (!value_.is_boolean()) refuse_as("true or false");
    return value_.get<bool>();
  }

  std::string text() const {
    if (!value_.is_string()) refuse_as("a text");
    return value_.get<std::string>();
  }

  std::uint64_t whole(std::uint64_t least, std::uint64_t most) const {
    const std::string wanted = fmt::format("a whole number from {} to {}", least, most);
    if (!value_.is_number_unsigned()) refuse_as(wanted);
    const auto value = value_.get<std::uint64_t>();
    if (value < least || value > most) refuse_as(wanted);
    return value;
  }

  double number(double least, double most) const {
    const double value = value_.is_number() ? value_.get<double>() : -1.0;
    if (!(value >= least && value <= most)) refuse_as(fmt::format("a number from {:g} to {:g}", least, most));
    return value;
  }

  template <class Choice>
  Choice one_of(Choice first, Choice second) const {
    const std::string read = text();
    if (read == name_of(first)) return first;
    if (read != name_of(second)) refuse_as(fmt::format("{} or {}", name_of(first), name_of(second)));
    return second;
  }

  [[noreturn]] void refuse_as(const std::string& expected, const std::string& cure = kRunAgain) const {
    refuse(file_, {}, {key_, shown(), expected, cure});
  }

 private:
  std::string shown() const {
    if (value_.is_string()) return in_quotes(value_.get<std::string>());
    if (value_.is_structured()) return value_.is_array() ? fmt::format("a list of {}", value_.size()) : "a table";
    return value_.dump();
  }

  const ReadJson& value_;
  std::string key_;
  const std::string& file_;
};

/// @param at  byte, from 0; may be behind the end
Place place_of(std::string_view text, std::size_t at) {
  const std::string_view before = text.substr(0, at);
  const std::size_t line = before.rfind('\n') + 1;  // npos + 1: the first line
  return {1 + int(std::count(before.begin(), before.end(), '\n')), 1 + int(utf8_length(before.substr(line)))};
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

PartHead head_of(const PartValue& document, const char* format, const std::string& fingerprint) {
  const PartValue name = document.at("format").at("name");
  if (name.text() != format) name.refuse_as(in_quotes(format), "name the part files alone");
  const PartValue number = document.at("format").at("number");
  if (number.whole(0, kMostCounted) != kPartFormat) {
    number.refuse_as(std::to_string(kPartFormat), std::string("another version of the program wrote it: ") + kRunAgain);
  }
  const PartValue print = document.at("fingerprint");
  if (print.text() != fingerprint) {
    print.refuse_as(in_quotes(fingerprint), std::string("it was made from another rig file or with other options: ") + kRunAgain);
  }
  const PartValue part = document.at("part");
  const std::uint64_t of = part.at("of").whole(1, kMostEntries);
  return {fingerprint, {part.at("number").whole(1, of), of}};
}

template <class Found>
struct ReadPart {
  PartHead head;
  Found found;
  const std::string* file;
};

/// All parts in order of their numbers. @param read  what one document found
template <class Found, class Read>
std::vector<ReadPart<Found>> read_parts(const std::vector<PartFile>& files, const char* format, const std::string& fingerprint,
                                        Read read) {
  if (files.empty()) throw InputError("parts", "no file", "the files of all parts");
  Findings findings;
  std::map<std::size_t, ReadPart<Found>> parts;
  for (const PartFile& file : files) {
    try {
      const ReadJson json = parsed(file);
      const PartValue document(json, "", file.name);
      const PartHead head = head_of(document, format, fingerprint);
      const auto [number, of] = head.part;
      if (!parts.empty() && parts.begin()->second.head.part.of != of) {
        const ReadPart<Found>& first = parts.begin()->second;
        document.at("part").at("of").refuse_as(fmt::format("{}, as in {}", first.head.part.of, in_quotes(*first.file)),
                                               "name the parts of one cut alone");
      }
      if (const auto other = parts.find(number); other != parts.end()) {
        document.at("part").at("number").refuse_as(
            fmt::format("each part once; {} holds it too", in_quotes(*other->second.file)), "leave one of the two out");
      }
      parts.emplace(number, ReadPart<Found>{head, read(document), &file.name});
    } catch (const FileError& error) {
      for (const FileProblem& problem : error.problems()) findings.add(problem.file, problem.place, problem.problem);
    }
  }
  if (!findings.empty()) throw FileError(findings.in_reading_order());
  std::vector<ReadPart<Found>> in_order;
  for (auto& [number, part] : parts) in_order.push_back(std::move(part));
  return in_order;
}

/// @param parts  in order, each once
template <class Found>
void demand_all(const std::vector<ReadPart<Found>>& parts) {
  constexpr std::size_t kNamed = 5;
  const std::size_t of = parts.front().head.part.of;
  if (parts.size() == of) return;
  std::string missing;
  std::size_t named = 0, at = 0;
  for (std::size_t number = 1; number <= of; ++number) {
    if (at < parts.size() && parts[at].head.part.number == number) {
      ++at;
    } else if (named++ < kNamed) {
      missing += fmt::format("{}{}", missing.empty() ? "" : ", ", number);
    }
  }
  if (named > kNamed) missing += fmt::format(" and {} more", named - kNamed);
  refuse(*parts.front().file, {},
         {"part", fmt::format("a part of {}, and no file of part {}", of, missing), "the files of all parts",
          "run what is missing and name its files too"});
}

ReturnOver return_over(const PartValue& value) {
  return {value.at("mean").number(0.0, kGreatest), value.at("worst").number(0.0, kGreatest)};
}

Json return_json(const ReturnOver& of) { return {{"mean", finite(of.mean)}, {"worst", finite(of.worst)}}; }

Phrase phrase_of(const PartValue& value) {
  Phrase phrase;
  for (const PartValue& bay : value.at("bays").entries()) phrase.bays.push_back(int(bay.whole(1, kLongestBay)));
  for (const PartValue& slack : value.at("slack").entries()) phrase.slack.push_back(slack.number(0.0, kMostSlack));
  phrase.step = value.at("step").one_of(BayStep::half_arm_span, BayStep::centimetre);
  phrase.from = value.at("from").one_of(CountedFrom::near_anchor, CountedFrom::both_anchors);
  return phrase;
}

FoundLayout found_layout(const PartValue& value, const Spacing& spacing, double main_length) {
  FoundLayout found;
  found.phrase = phrase_of(value.at("phrase"));
  std::optional<Layout> layout = layout_of(found.phrase, spacing, main_length);
  if (!layout) value.at("phrase").refuse_as("a phrase that fits this line");
  found.layout = std::move(*layout);
  const PartValue tapes = value.at("tapes");
  if (tapes.whole(1, kMostEntries) != found.tapes()) {
    tapes.refuse_as(fmt::format("{}, as the phrase has on this line", found.tapes()));
  }
  found.small = return_over(value.at("small"));
  if (const PartValue glanced = value.at("glanced"); !glanced.is_null()) found.glanced = return_over(glanced);
  found.broken = value.at("broken").number(0.0, kGreatest);
  found.cost = cost_of(found);
  return found;
}

std::optional<double> return_or_null(const PartValue& value) {
  return value.is_null() ? std::nullopt : std::optional(value.number(0.0, kGreatest));
}

TapingStudy taping_study(const PartValue& value) {
  TapingStudy study;
  const PartValue stopped = value.at("stopped");
  if (stopped.flag()) stopped.refuse_as("a part that was run to its end");
  for (const PartValue& crew : value.at("crews").entries()) {
    const auto small = return_or_null(crew.at("small")), glanced = return_or_null(crew.at("glanced"));
    study.crews.push_back({crew.at("crew").whole(0, kMostCounted), small, glanced});
  }
  return study;
}

/// Each part holds every `of`th crew from its own number on; together they hold all.
void demand_all_crews(const std::vector<ReadPart<TapingStudy>>& parts) {
  std::size_t all = 0;
  for (const auto& part : parts) all += part.found.crews.size();
  for (const auto& part : parts) {
    const auto [number, of] = part.head.part;
    const std::vector<CrewReturn>& crews = part.found.crews;
    for (std::size_t k = 0; k < crews.size(); ++k) {
      const std::size_t due = number - 1 + k * of;
      if (crews[k].crew == due) continue;
      refuse(*part.file, {},
             {fmt::format("taping.crews[{}].crew", k), std::to_string(crews[k].crew), std::to_string(due), kRunAgain});
    }
    const std::size_t due = (all + of - number) / of;
    if (crews.size() < due) {
      refuse(*part.file, {}, {"taping.crews", fmt::format("{} crews", crews.size()),
                              fmt::format("{}, as the other parts hold", due), kRunAgain});
    }
  }
}

Json part_document(const Rig& rig, const char* format, const std::string& fingerprint, const Part& part) {
  Json document = document_head(format, kPartFormat, rig.title);
  document["fingerprint"] = fingerprint;
  document["part"] = {{"number", part.number}, {"of", part.of}};
  return document;
}

}  // namespace

std::string fingerprint_of(std::string_view text) {
  std::uint64_t hash = 0xcbf29ce484222325u;
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3u;
  return fmt::format("{:016x}", hash);
}

Json phrase_json(const Phrase& phrase) {
  Json slack = Json::array();
  for (const double value : phrase.slack) slack.push_back(finite(value));
  return {{"bays", phrase.bays},
          {"step", name_of(phrase.step)},
          {"slack", std::move(slack)},
          {"from", name_of(phrase.from)}};
}

std::string search_part_json(const Rig& rig, const std::string& fingerprint, const Part& part, const SearchResult& found) {
  Json document = part_document(rig, kSearchFormat, fingerprint, part);
  Json layouts = Json::array();
  for (const auto& [tapes, kept] : found.pool.by_tapes()) {
    for (const FoundLayout& layout : kept) {
      layouts.push_back({{"tapes", tapes},
                         {"phrase", phrase_json(layout.phrase)},
                         {"small", return_json(layout.small)},
                         {"glanced", layout.glanced ? return_json(*layout.glanced) : Json(nullptr)},
                         {"broken", finite(layout.broken)}});
    }
  }
  document["search"] = {{"stopped", found.stopped},
                        {"judged", found.judged},
                        {"glanced", found.glanced},
                        {"layouts", std::move(layouts)}};
  return text_of(document);
}

SearchResult join_search_parts(const std::vector<PartFile>& files, const std::string& fingerprint, const Rig& rig,
                               const Plan& plan) {
  // Added up as the search adds it: layouts are the same to the last bit.
  const double main_length = std::accumulate(plan.bays.begin(), plan.bays.end(), 0.0,
                                             [](double sum, const PlanBay& bay) { return sum + bay.main_natural; });
  const auto parts = read_parts<SearchResult>(files, kSearchFormat, fingerprint, [&](const PartValue& document) {
    const PartValue search = document.at("search");
    SearchResult found;
    found.stopped = search.at("stopped").flag();
    found.judged = search.at("judged").whole(0, kMostCounted);
    found.glanced = search.at("glanced").whole(0, kMostCounted);
    for (const PartValue& layout : search.at("layouts").entries()) {
      found.pool.take(found_layout(layout, rig.spacing, main_length));
    }
    return found;
  });
  demand_all(parts);
  SearchResult joined;
  for (const auto& part : parts) {
    joined.pool.join(part.found.pool);
    joined.judged += part.found.judged;
    joined.glanced += part.found.glanced;
    joined.stopped |= part.found.stopped;
  }
  return joined;
}

std::string taping_part_json(const Rig& rig, const std::string& fingerprint, const Part& part, const TapingStudy& study) {
  Json document = part_document(rig, kTapingFormat, fingerprint, part);
  Json crews = Json::array();
  for (const CrewReturn& crew : study.crews) {
    crews.push_back({{"crew", crew.crew}, {"small", optional(crew.small)}, {"glanced", optional(crew.glanced)}});
  }
  document["taping"] = {{"stopped", study.stopped}, {"crews", std::move(crews)}};
  return text_of(document);
}

TapingStudy join_taping_parts(const std::vector<PartFile>& files, const std::string& fingerprint) {
  const auto parts = read_parts<TapingStudy>(files, kTapingFormat, fingerprint,
                                             [](const PartValue& document) { return taping_study(document.at("taping")); });
  demand_all(parts);
  demand_all_crews(parts);
  TapingStudy joined;
  for (const auto& part : parts) {
    joined.crews.insert(joined.crews.end(), part.found.crews.begin(), part.found.crews.end());
  }
  std::sort(joined.crews.begin(), joined.crews.end(),
            [](const CrewReturn& a, const CrewReturn& b) { return a.crew < b.crew; });
  return joined;
}

}  // namespace spanloom
