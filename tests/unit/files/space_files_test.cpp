// JSON and CSV of a report on spacing, and the part files of a search that was cut.
#include <gtest/gtest.h>

#include <bit>
#include <cstdint>
#include <nlohmann/json.hpp>

#include "files/file_error.h"
#include "files/layouts_csv.h"
#include "files/space_json.h"
#include "files/space_parts.h"
#include "support/csv_cells.h"
#include "support/space_sample.h"

namespace spanloom {
namespace {

using fixture::kSpaceChosen;
using fixture::space_plan;
using fixture::space_rig;
using fixture::space_sample;
using nlohmann::json;

json space_of(const SpaceReport& report) { return json::parse(space_json(space_rig(), report)).at("space"); }

TEST(SpaceJson, StartsWithFormatVersionAndTitle) {
  const json document = json::parse(space_json(space_rig(), space_sample()));
  EXPECT_EQ(document.at("format").at("name"), "spanloom-space");
  EXPECT_EQ(document.at("format").at("number"), 1);
  EXPECT_TRUE(document.at("version").is_string());
  EXPECT_EQ(document.at("title"), "space sample");
  EXPECT_FALSE(document.at("cautions").empty());
}

TEST(SpaceJson, PutsTheChosenLayoutFirstAndTheOthersByRisingTapes) {
  SpaceReport report = space_sample();
  const json space = space_of(report);
  EXPECT_EQ(space.at("chosen"), 0);
  ASSERT_EQ(space.at("layouts").size(), 3u);
  EXPECT_EQ(space.at("layouts")[0].at("tapes"), 9);
  EXPECT_EQ(space.at("layouts")[1].at("tapes"), 7);
  EXPECT_EQ(space.at("layouts")[2].at("tapes"), 11);
  report.chosen.reset();
  EXPECT_TRUE(space_of(report).at("chosen").is_null());
  EXPECT_EQ(space_of(report).at("layouts")[0].at("tapes"), 7);
}

TEST(SpaceJson, HoldsALayoutInMetresAndShares) {
  const JudgedLayout chosen = space_sample().points[kSpaceChosen];
  const json layout = space_of(space_sample()).at("layouts")[0];
  EXPECT_EQ(layout.at("bays_m"), chosen.layout.bays);
  EXPECT_EQ(layout.at("slack"), chosen.layout.slack);
  EXPECT_EQ(layout.at("drop_m"), chosen.drop);
  EXPECT_EQ(layout.at("ankle_margin_m"), chosen.ankle_margin);
  EXPECT_EQ(layout.at("least_ankle_margin_m"), chosen.least_ankle_margin);
  EXPECT_EQ(layout.at("backup_tension_N"), 201.0);
  EXPECT_EQ(layout.at("small"),
            (json{{"mean", 0.3}, {"worst", 1.6 * 0.3}, {"taped_mean", 0.3 + 0.02}, {"taped_p95", 0.3 + 0.06}}));
  ASSERT_EQ(layout.at("touch").size(), chosen.touch.size());
  const BayTouch third = chosen.touch[2];
  EXPECT_EQ(layout.at("touch")[2],
            (json{{"bay", 3}, {"drop_m", third.drop}, {"ankle_margin_m", third.ankle_margin}, {"return", 0.001}}));
}

TEST(SpaceJson, HoldsThePhraseAndNullForALineWithoutOne) {
  const json space = space_of(space_sample());
  EXPECT_EQ(space.at("layouts")[0].at("phrase"),
            (json{{"bays", {2, 3, 2, 2}},
                  {"step", "half_arm_span"},
                  {"slack", {0.016, 0.014, 0.022}},
                  {"from", "near_anchor"}}));
  EXPECT_EQ(space.at("layouts")[1].at("phrase").at("from"), "both_anchors");
  EXPECT_TRUE(space.at("own").at("phrase").is_null());
  EXPECT_TRUE(space.at("even").at("phrase").is_null());
}

TEST(SpaceJson, GivesReturnsOfFullSizeShakesAndTheLoopsThatSwungOver) {
  const json space = space_of(space_sample());
  const json chosen = space.at("layouts")[0], most = space.at("layouts")[2];
  EXPECT_EQ(chosen.at("return_mean"), 0.27);
  EXPECT_EQ(chosen.at("return_worst"), 1.5 * 0.27);
  EXPECT_EQ(chosen.at("return_p95"), 0.33);
  EXPECT_EQ(chosen.at("return_taped_mean"), 0.28);
  EXPECT_EQ(chosen.at("return_glance"), 0.26);
  EXPECT_EQ(most.at("loops_over"), json({3}));
  EXPECT_EQ(most.at("shakes"), 9);
  EXPECT_EQ(most.at("shakes_left_out"), 1);
  ASSERT_EQ(most.at("return_of_shakes").size(), 10u);
  EXPECT_EQ(most.at("return_of_shakes")[0], 0.5 * 0.25);
  EXPECT_TRUE(most.at("return_of_shakes")[9].is_null());
  EXPECT_EQ(space.at("own").at("breaks").size(), 1u);
  EXPECT_EQ(space.at("own").at("loops_over"), json({2, 7}));
  EXPECT_EQ(space.at("own").at("loops_over_in_gust"), json({1, 2, 7, 8}));
}

TEST(SpaceJson, GivesNullForWhatWasNotShakenOrNotTaped) {
  SpaceReport report = space_sample();
  JudgedLayout& chosen = report.points[kSpaceChosen];
  chosen.moved = {};
  chosen.moved_as_taped = ReturnAsTaped{.samples = 0, .taut = 20};  // all pulled taut
  chosen.moved_glance.reset();
  chosen.small_as_taped = {};
  chosen.touch.clear();
  const json layout = space_of(report).at("layouts")[0];
  for (const char* key : {"return_mean", "return_worst", "return_p95", "return_taped_mean", "return_glance"}) {
    EXPECT_TRUE(layout.at(key).is_null()) << key;
  }
  EXPECT_TRUE(layout.at("small").at("taped_mean").is_null());
  EXPECT_TRUE(layout.at("small").at("taped_p95").is_null());
  EXPECT_EQ(layout.at("small").at("mean"), 0.3);
  EXPECT_TRUE(layout.at("touch").empty());
  EXPECT_TRUE(space_of(space_sample()).at("layouts")[1].at("return_p95").is_null());
}

TEST(SpaceJson, GivesBoundsInMetresAndNewtons) {
  SpaceReport report = space_sample();
  report.bounds = LayoutBounds();
  report.bounds.shortest = 2;
  report.bounds.longest = 5;
  report.bounds.most_tapes = 12;
  report.bounds.most_drop = 0.4;
  report.bounds.most_backup_tension = 250.0;
  const json bounds = space_of(report).at("bounds");  // arm spans of 1.75 m
  EXPECT_EQ(bounds.at("step_m"), 0.875);
  EXPECT_EQ(bounds.at("shortest_m"), 1.75);
  EXPECT_EQ(bounds.at("longest_m"), 4.375);
  EXPECT_EQ(bounds.at("most_tapes"), 12);
  EXPECT_EQ(bounds.at("most_drop_m"), 0.4);
  EXPECT_EQ(bounds.at("most_backup_tension_N"), 250.0);
}

TEST(SpaceJson, HoldsCountsPracticeWordsAndTheChecksOfTheChosen) {
  const SpaceReport report = space_sample();
  const json space = space_of(report);
  EXPECT_EQ(space.at("complete"), true);
  EXPECT_EQ(space.at("seed"), 7);
  EXPECT_EQ(space.at("judged"), 6000);
  EXPECT_EQ(space.at("glanced"), 96);
  EXPECT_EQ(space.at("shaken"), 13);
  EXPECT_EQ(space.at("random").at("count"), 8);
  EXPECT_EQ(space.at("random").at("return_mean"), 0.4);
  EXPECT_EQ(space.at("random").at("return_spread"), 0.05);
  EXPECT_EQ(space.at("practice").at("agrees"), true);
  EXPECT_EQ(space.at("sentences"), report.sentences);
  EXPECT_EQ(space.at("notes"), report.notes);
  ASSERT_EQ(space.at("checks").size(), report.proven->checks.size());
  EXPECT_EQ(space.at("checks")[0].at("name"), report.proven->checks[0].name);
}

TEST(SpaceJson, SaysThatNothingWasFoundAndWhyThereIsNoEvenLine) {
  SpaceReport report = fixture::empty_space_sample();
  report.stopped = true;
  const json space = space_of(report);
  EXPECT_EQ(space.at("complete"), false);
  EXPECT_TRUE(space.at("layouts").empty());
  for (const char* key : {"chosen", "even", "random", "checks"}) EXPECT_TRUE(space.at(key).is_null()) << key;
  EXPECT_EQ(space.at("why_no_even"), report.why_no_even);
  EXPECT_TRUE(space_of(space_sample()).at("why_no_even").is_null());
}

TEST(LayoutsCsv, HasOneRowABayOfEveryLineShownAndUnitsInTheHead) {
  SpaceReport report = space_sample();
  report.even->touch.clear();
  const auto rows = cells_of(layouts_csv(report));
  ASSERT_EQ(rows.size(), 1u + 8 + 10 + 8 + 10 + 12);
  EXPECT_EQ(rows[0][2], "main [m]");
  EXPECT_EQ(rows[0][4], "drop [mm]");
  EXPECT_EQ(rows[1][0], "as it is");
  EXPECT_EQ(rows[9][0], "even");
  EXPECT_EQ(rows[19][0], "7 tapes");
  EXPECT_EQ(rows[27][0], "9 tapes (chosen)");
  for (std::size_t column = 6; column < rows[9].size(); ++column) EXPECT_EQ(rows[9][column], "");
  const JudgedLayout& chosen = report.points[kSpaceChosen];
  for (std::size_t k = 0; k < chosen.layout.bays.size(); ++k) {
    const std::vector<std::string>& row = rows[27 + k];
    ASSERT_EQ(row.size(), rows[0].size());
    EXPECT_EQ(row[1], std::to_string(k + 1));
    EXPECT_NEAR(std::stod(row[2]), chosen.layout.bays[k], 5.01e-4);
    EXPECT_NEAR(std::stod(row[3]), 100.0 * chosen.layout.slack[k], 5.01e-4);
    EXPECT_NEAR(std::stod(row[4]), 1e3 * chosen.drop[k], 5.01e-2);
    EXPECT_NEAR(std::stod(row[5]), 1e3 * chosen.ankle_margin[k], 5.01e-2);
    EXPECT_NEAR(std::stod(row[6]), 1e3 * chosen.touch[k].drop, 5.01e-2);
    EXPECT_NEAR(std::stod(row[7]), 1e3 * chosen.touch[k].ankle_margin, 5.01e-2);
    EXPECT_NEAR(std::stod(row[8]), chosen.touch[k].returned, 5.01e-5);
  }
}

// Test vectors of FNV-1a with 64 bits: draft-eastlake-fnv, appendix of test values; from memory.
TEST(Fingerprint, IsThatOfFowlerNollAndVo) {
  EXPECT_EQ(fingerprint_of(""), "cbf29ce484222325");
  EXPECT_EQ(fingerprint_of("a"), "af63dc4c8601ec8c");
  EXPECT_EQ(fingerprint_of("foobar"), "85944171f73967e8");
}

// ---- parts ----

const std::string kPrint = "0123456789abcdef";

std::vector<std::uint64_t> bits_of(const FoundLayout& found) {
  std::vector<double> values = {found.small.mean, found.small.worst, found.broken, found.cost};
  if (found.glanced) values.insert(values.end(), {found.glanced->mean, found.glanced->worst});
  for (const auto* list : {&found.layout.bays, &found.layout.slack, &found.phrase.slack}) {
    values.insert(values.end(), list->begin(), list->end());
  }
  std::vector<std::uint64_t> bits;
  for (const double value : values) bits.push_back(std::bit_cast<std::uint64_t>(value));
  return bits;
}

void expect_same_pool(const LayoutPool& a, const LayoutPool& b) {
  ASSERT_EQ(a.size(), b.size());
  const auto in_a = a.all(), in_b = b.all();
  for (std::size_t i = 0; i < in_a.size(); ++i) {
    EXPECT_EQ(in_a[i]->phrase, in_b[i]->phrase);
    EXPECT_EQ(in_a[i]->glanced.has_value(), in_b[i]->glanced.has_value());
    EXPECT_EQ(bits_of(*in_a[i]), bits_of(*in_b[i]));
  }
}

SearchResult search_of(const Part& part) {
  SearchOptions options;
  options.island.bounds = usual_bounds(space_rig(), space_plan());
  options.island.judgements = 60;
  options.islands = 5;
  options.part = part;
  return search_layouts(space_rig(), space_plan(), nullptr, options);
}

PartFile search_file(const Part& part, const SearchResult& found, const std::string& print = kPrint) {
  return {"part-" + std::to_string(part.number) + ".json", search_part_json(space_rig(), print, part, found)};
}

SearchResult join(const std::vector<PartFile>& files) { return join_search_parts(files, kPrint, space_rig(), space_plan()); }

TEST(SearchParts, JoinToWhatOneRunFinds) {
  const SearchResult whole = search_of({1, 1});
  ASSERT_GT(whole.pool.size(), 8u);
  std::vector<PartFile> files;
  for (const std::size_t number : {3u, 1u, 2u}) files.push_back(search_file({number, 3}, search_of({number, 3})));
  const SearchResult joined = join(files);
  expect_same_pool(joined.pool, whole.pool);
  EXPECT_EQ(joined.judged, whole.judged);
  EXPECT_FALSE(joined.stopped);
}

/// A layout with numbers that are hard to write.
SearchResult awkward_search() {
  const JudgedLayout point = fixture::sample_points().front();
  const ReturnOver glanced{0x1.fffffffffffffp-2, 2.0 / 3.0};
  FoundLayout found{*point.phrase, point.layout, {1.0 / 3.0, 0.1 + 0.2}, glanced, 5e-324, 0.0};
  found.phrase.slack = {0.1 / 7.0, 0.012 + 3e-18, 0.03 - 1e-17};
  found.layout = layout_of(found.phrase, space_rig().spacing, fixture::space_main_length()).value();
  found.cost = cost_of(found);
  SearchResult search;
  search.pool.take(found);
  search.judged = 1250;
  search.glanced = 24;
  return search;
}

TEST(SearchParts, KeepEveryNumberBitByBit) {
  const SearchResult search = awkward_search();
  const SearchResult read = join({search_file({1, 1}, search)});
  expect_same_pool(read.pool, search.pool);
  EXPECT_EQ(read.judged, 1250u);
  EXPECT_EQ(read.glanced, 24u);
  ASSERT_TRUE(read.pool.best()->glanced);
}

TEST(SearchParts, AreStoppedTogetherWhereOneWasStopped) {
  SearchResult stopped = awkward_search();
  stopped.stopped = true;
  EXPECT_TRUE(join({search_file({1, 2}, awkward_search()), search_file({2, 2}, stopped)}).stopped);
}

TEST(SearchParts, MayHaveFoundNothing) {
  const SearchResult read = join({search_file({1, 2}, awkward_search()), search_file({2, 2}, {})});
  EXPECT_EQ(read.pool.size(), 1u);
}

/// The problem that joining these files tells of; all of it in one line.
template <class Join>
std::string told_by(Join join_files) {
  try {
    join_files();
  } catch (const FileError& error) {
    return error.what();
  } catch (const InputError& error) {
    return error.what();
  }
  return "no error";
}

void expect_told(const std::vector<PartFile>& files, const std::vector<std::string>& words) {
  const std::string told = told_by([&] { (void)join(files); });
  for (const std::string& word : words) EXPECT_NE(told.find(word), told.npos) << "no <" << word << "> in <" << told << '>';
}

TEST(SearchParts, TellWhichPartsAreMissing) {
  const SearchResult found = awkward_search();
  expect_told({search_file({2, 4}, found), search_file({3, 4}, found)},
              {"part-2.json:1:1: part:", "no file of part 1, 4", "run what is missing"});
  expect_told({search_file({2, 20'000}, found)}, {"no file of part 1, 3, 4, 5, 6 and 19994 more"});
  expect_told({}, {"parts", "no file"});
}

TEST(SearchParts, TellOfAPartThatIsThereTwice) {
  PartFile again = search_file({1, 2}, awkward_search());
  again.name = "copy.json";
  expect_told({search_file({1, 2}, awkward_search()), again, search_file({2, 2}, awkward_search())},
              {"copy.json:1:1: part.number: read 1", "\"part-1.json\" holds it too", "leave one of the two out"});
}

TEST(SearchParts, TellOfPartsOfAnotherCut) {
  expect_told({search_file({1, 2}, awkward_search()), search_file({2, 3}, awkward_search())},
              {"part-2.json:1:1: part.of: read 3, expected 2, as in \"part-1.json\""});
}

TEST(SearchParts, TellOfPartsMadeFromSomethingElse) {
  expect_told({search_file({1, 1}, awkward_search(), "fedcba9876543210")},
              {"part-1.json:1:1: fingerprint:", "\"fedcba9876543210\"", kPrint, "another rig file or with other options"});
  expect_told({{"rig.json", R"({"format": {"name": "spanloom-shake", "number": 1}})"}},
              {"rig.json:1:1: format.name:", "\"spanloom-space-part\""});
}

TEST(SearchParts, TellOfEveryBadFileAtOnce) {
  expect_told({{"a.json", ""}, {"b.json", "{"}, search_file({1, 1}, awkward_search(), "x")},
              {"a.json:1:1:", "b.json:1:", "part-1.json:1:1:"});
}

TEST(SearchParts, TellWhereATextIsNoJson) {
  expect_told({{"a.json", "{\n  \"format\": nan}"}}, {"a.json:2:14:", "run this part again"});
  expect_told({{"a.json", "[1e999]"}}, {"a.json:1:1:", "too great"});
  expect_told({{"a.json", "\xff\xfe{}"}}, {"a.json:1:1:"});
  expect_told({{"a.json", std::string(1'000'000, '[')}}, {"a.json:1:1000001:", "the end of the file"});
  expect_told({{"a.json", "7"}}, {"a.json:1:1:", "a table of keys"});
}

TEST(SearchParts, AreNeverReadWhenCutShort) {
  const std::string whole = search_file({1, 1}, awkward_search()).text;
  for (std::size_t size = 0; size + 2 < whole.size(); ++size) {  // the last bytes are the brace and the line end
    EXPECT_THROW((void)join({{"cut.json", whole.substr(0, size)}}), FileError) << size;
  }
}

/// The part with one value written over, and what is told of it.
void expect_refused(const char* pointer, const json& value, const std::string& words) {
  json document = json::parse(search_file({1, 1}, awkward_search()).text);
  document[json::json_pointer(pointer)] = value;
  expect_told({{"part.json", document.dump()}}, {"part.json:1:1: " + words});
}

TEST(SearchParts, TellOfAValueThatCannotBe) {
  const std::string layout = "search.layouts[0]";
  expect_refused("/format/number", 2, "format.number: read 2, expected 1");
  expect_refused("/part/number", 0, "part.number: read 0, expected a whole number from 1 to 1");
  expect_refused("/part/of", 1'000'000'000'000u, "part.of: read 1000000000000");
  expect_refused("/search", json::array(), "search: read a list of 0, expected a table");
  expect_refused("/search/judged", -1, "search.judged: read -1");
  expect_refused("/search/glanced", 1e300, "search.glanced: read 1e+300");
  expect_refused("/search/stopped", "no", "search.stopped: read \"no\", expected true or false");
  expect_refused("/search/layouts", std::vector<int>(20'001), "search.layouts: read a list of 20001");
  expect_refused("/search/layouts/0", nullptr, layout + ": read null");
  expect_refused("/search/layouts/0/small/mean", nullptr, layout + ".small.mean: read null, expected a number");
  expect_refused("/search/layouts/0/small/worst", -0.1, layout + ".small.worst: read -0.1");
  expect_refused("/search/layouts/0/glanced/mean", 1e300, layout + ".glanced.mean: read 1e+300");
  expect_refused("/search/layouts/0/broken", "0", layout + ".broken: read \"0\"");
  expect_refused("/search/layouts/0/tapes", 3, layout + ".tapes: read 3");
  expect_refused("/search/layouts/0/phrase/bays", json::array(), layout + ".phrase: read a table, expected a phrase that fits");
  expect_refused("/search/layouts/0/phrase/bays/1", 0, layout + ".phrase.bays[1]: read 0");
  expect_refused("/search/layouts/0/phrase/bays", {5000}, layout + ".phrase: read a table, expected a phrase that fits");
  expect_refused("/search/layouts/0/phrase/slack/0", 3.0, layout + ".phrase.slack[0]: read 3");
  expect_refused("/search/layouts/0/phrase/step", "foot",
                 layout + ".phrase.step: read \"foot\", expected half_arm_span or centimetre");
  expect_refused("/search/layouts/0/phrase/from", "middle", layout + ".phrase.from: read \"middle\"");
}

TEST(SearchParts, TellOfAValueThatIsNotThere) {
  json document = json::parse(search_file({1, 1}, awkward_search()).text);
  document["search"]["layouts"][0].erase("broken");
  expect_told({{"part.json", document.dump()}}, {"part.json:1:1: search.layouts[0].broken: read nothing"});
}

// ---- taping errors ----

/// @param crews  in all
TapingStudy study_of(const Part& part, std::size_t crews) {
  TapingStudy study;
  for (std::size_t crew = part.number - 1; crew < crews; crew += part.of) {
    study.crews.push_back({crew, {}, {}});
    if (crew == 3) continue;  // taut
    study.crews.back().small = 1.0 / (3.0 + double(crew));
    if (crew != 4) study.crews.back().glanced = 0.1 + 0.2 * double(crew);
  }
  return study;
}

PartFile taping_file(const Part& part, const TapingStudy& study) {
  return {"part-" + std::to_string(part.number) + ".json", taping_part_json(space_rig(), kPrint, part, study)};
}

TEST(TapingParts, JoinToAllCrewsInOrder) {
  std::vector<PartFile> files;
  for (const std::size_t number : {3u, 1u, 2u}) files.push_back(taping_file({number, 3}, study_of({number, 3}, 8)));
  const TapingStudy joined = join_taping_parts(files, kPrint), whole = study_of({1, 1}, 8);
  ASSERT_EQ(joined.crews.size(), 8u);
  for (std::size_t i = 0; i < 8; ++i) {
    EXPECT_EQ(joined.crews[i].crew, i);
    EXPECT_EQ(joined.crews[i].small, whole.crews[i].small);
    EXPECT_EQ(joined.crews[i].glanced, whole.crews[i].glanced);
  }
  EXPECT_FALSE(joined.stopped);
}

TEST(TapingParts, MayBeMoreThanThereAreCrews) {
  std::vector<PartFile> files;
  for (std::size_t number = 1; number <= 4; ++number) files.push_back(taping_file({number, 4}, study_of({number, 4}, 2)));
  EXPECT_EQ(join_taping_parts(files, kPrint).crews.size(), 2u);
}

void expect_taping_told(const std::vector<PartFile>& files, const std::string& words) {
  const std::string told = told_by([&] { (void)join_taping_parts(files, kPrint); });
  EXPECT_NE(told.find(words), told.npos) << told;
}

TEST(TapingParts, TellOfMissingCrewsAndParts) {
  TapingStudy second = study_of({2, 2}, 8);
  expect_taping_told({taping_file({2, 2}, second)}, "no file of part 1");
  second.crews.pop_back();
  second.crews.pop_back();
  expect_taping_told({taping_file({1, 2}, study_of({1, 2}, 8)), taping_file({2, 2}, second)},
                     "part-2.json:1:1: taping.crews: read 2 crews, expected 3, as the other parts hold");
  TapingStudy first = study_of({1, 2}, 8);
  first.crews.erase(first.crews.begin() + 1);
  expect_taping_told({taping_file({1, 2}, first), taping_file({2, 2}, study_of({2, 2}, 8))},
                     "part-1.json:1:1: taping.crews[1].crew: read 4, expected 2");
}

TEST(TapingParts, TellOfAPartThatWasStoppedOrIsOfASearch) {
  TapingStudy stopped = study_of({1, 1}, 3);
  stopped.stopped = true;
  expect_taping_told({taping_file({1, 1}, stopped)},
                     "part-1.json:1:1: taping.stopped: read true, expected a part that was run to its end");
  expect_taping_told({search_file({1, 1}, awkward_search())},
                     "part-1.json:1:1: format.name: read \"spanloom-space-part\", expected \"spanloom-taping-part\"");
}

}  // namespace
}  // namespace spanloom
