#include "files/space_parts.h"

#include <algorithm>
#include <cstdint>
#include <map>
#include <numeric>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "base/input_error.h"
#include "files/part_value.h"

namespace spanloom {
namespace {

/// Grows when a key changes its meaning.
constexpr int kPartFormat = 1;
constexpr const char* kSearchFormat = "spanloom-space-part";
constexpr const char* kTapingFormat = "spanloom-taping-part";

// More than any search finds: what is beyond was not written by one.
constexpr double kGreatest = 1e9;                  // return, limits broken
constexpr std::uint64_t kMostCounted = 1'000'000'000'000'000;
constexpr std::uint64_t kLongestBay = 5000;        // [steps]
constexpr double kMostSlack = 2.0;                 // [-]

struct PartHead {
  std::string fingerprint;
  Part part;
};

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
  const double main_length = main_length_of(plan);
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
