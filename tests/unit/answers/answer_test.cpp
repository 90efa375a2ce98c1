#include "answers/answer.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <random>
#include <utility>

#include "base/version.h"
#include "checks/verdicts.h"
#include "files/results_json.h"
#include "files/rig_file.h"
#include "sheet/sheet.h"

namespace spanloom {
namespace {

using nlohmann::json;

const std::string kPracticeLine = SPANLOOM_SOURCE_DIR "/examples/practice-line/rig.toml";
const std::string kHeronGorge = SPANLOOM_SOURCE_DIR "/examples/heron-gorge/rig.toml";

json files_of(const std::string& path) {
  const RigSources sources = read_rig_sources(path);
  json sides = json::array();
  for (const auto& side : sources.side_files) sides.push_back({{"name", side.name}, {"text", side.text}});
  return {{"name", "rig.toml"}, {"text", sources.text}, {"sides", sides}};
}

const Tell kDeaf = [](std::size_t, std::size_t) {};

json answered(const std::string& method, const json& args, Kept& kept, const Tell& tell = kDeaf) {
  return json::parse(answer_to(method, args.dump(), tell, kept));
}

json answered(const std::string& method, const json& args) {
  Kept kept;
  return answered(method, args, kept);
}

json value_of(const json& answer) {
  EXPECT_EQ(answer.at("ok"), true) << answer.dump().substr(0, 500);
  return answer.at("value");
}

json plan_args(const json& files, bool whole = true) { return {{"files", files}, {"units", "metric"}, {"whole", whole}}; }

json edited(json files, const json& edit, Kept& kept) {
  files["text"] = value_of(answered("edit", {{"files", files}, {"edit", edit}}, kept));
  return files;
}

TEST(PlanAnswer, IsTheDocumentOfTheCommand) {
  for (const std::string& path : {kPracticeLine, kHeronGorge}) {
    const Rig rig = read_rig_file(path).rig;
    const Plan plan = *make_plan(rig).plan;
    const json document = value_of(answered("plan", plan_args(files_of(path)))).at("document");
    EXPECT_EQ(document, json::parse(plan_json(rig, plan, judge(rig, plan))));
  }
}

TEST(PlanAnswer, PictureHasALoopABayBetweenTheTapes) {
  const json value = value_of(answered("plan", plan_args(files_of(kPracticeLine))));
  const json& picture = value.at("picture");
  EXPECT_EQ(value.at("whole"), true);
  EXPECT_EQ(picture.at("loops").size(), 9u);
  EXPECT_EQ(picture.at("tapes").size(), 2u * 10u);
  EXPECT_EQ(picture.at("ground").size(), 2u * 8u);
  EXPECT_EQ(picture.at("gap_m"), 16.0);
  for (std::size_t k = 0; k < 9; ++k) {
    EXPECT_EQ(picture["loops"][k][0], picture["tapes"][2 * k]);
    EXPECT_NEAR(picture["loops"][k].back().get<double>(), picture["tapes"][2 * k + 3].get<double>(), 1e-9);
  }
}

TEST(PlanAnswer, OfAHandThatDragsHasNoChecksAndTheSameBays) {
  const json quick = value_of(answered("plan", plan_args(files_of(kHeronGorge), false)));
  const json whole = value_of(answered("plan", plan_args(files_of(kHeronGorge))));
  EXPECT_EQ(quick.at("whole"), false);
  EXPECT_TRUE(quick["document"]["plan"]["checks"].empty());
  EXPECT_EQ(quick["document"]["plan"]["bays"], whole["document"]["plan"]["bays"]);
}

TEST(Answer, SaysWhereAFileIsWrong) {
  json files = files_of(kPracticeLine);
  std::string text = files["text"];
  text.replace(text.find("tension = \"2.5 kN\""), 18, "tension = \"2.5\"");
  files["text"] = text;
  const json answer = answered("plan", plan_args(files));
  EXPECT_EQ(answer.at("ok"), false);
  EXPECT_EQ(answer.at("why"), "file");
  const json& fault = answer.at("faults").at(0);
  EXPECT_EQ(fault.at("line"), std::count(text.begin(), text.begin() + long(text.find("tension = \"2.5\"")), '\n') + 1);
  EXPECT_EQ(fault.at("column"), 11);
  EXPECT_EQ(fault.at("key"), "main.tension");
  EXPECT_EQ(fault.at("file"), "rig.toml");
}

TEST(Answer, NamesASideFileThatIsNotThere) {
  json files = files_of(kHeronGorge);
  files["sides"] = json::array();
  const json answer = answered("plan", plan_args(files));
  EXPECT_EQ(answer.at("why"), "file");
  EXPECT_NE(answer.at("words").get<std::string>().find("ground.csv"), std::string::npos);
}

TEST(Answer, FaultsOfTheEngineHavePlacesToo) {
  json files = files_of(kPracticeLine);
  std::string text = files["text"];
  text.replace(text.find("even = \"1.7 m\""), 14, "at = [\"3 m\", \"99 m\"]");
  files["text"] = text;
  const json answer = answered("plan", plan_args(files));
  EXPECT_EQ(answer.at("why"), "file");
  EXPECT_GT(answer.at("faults").at(0).at("line"), 80);
}

TEST(WalkerAnswer, FollowsTheHand) {
  const json files = files_of(kPracticeLine);
  const json near = value_of(answered("walker", {{"files", files}, {"at_m", 2.0}}));
  const json middle = value_of(answered("walker", {{"files", files}, {"at_m", 8.0}}));
  EXPECT_NEAR(middle["place"]["position_m"].get<double>(), 8.0, 1e-3);
  EXPECT_GT(middle["place"]["sag_m"], near["place"]["sag_m"]);
  EXPECT_EQ(middle["loops"].size(), 9u);
  EXPECT_EQ(middle["main"].size() % 2, 0u);
}

TEST(EditAnswer, TakesATapeOutAndLeavesTheBackupAsItWasCut) {
  Kept kept;
  const json files = files_of(kPracticeLine);
  const json before = value_of(answered("plan", plan_args(files)))["document"]["plan"];
  const json after = value_of(answered("plan", plan_args(edited(files, {{"kind", "take out"}, {"tape", 4}}, kept))))["document"]["plan"];
  EXPECT_EQ(after["bays"].size(), 8u);
  const double was = before["standing"]["backup_natural_length_m"], is = after["standing"]["backup_natural_length_m"];
  EXPECT_NEAR(is, was, 1e-5);   // written to the micrometre, nine pieces
  const double joined = after["bays"][3]["backup_natural_m"];
  EXPECT_NEAR(joined, before["bays"][3]["backup_natural_m"].get<double>() + before["bays"][4]["backup_natural_m"].get<double>(), 2e-6);
}

TEST(EditAnswer, DraggingAsksForTheFileAsItWasAndIsKept) {
  Kept kept;
  const json files = files_of(kHeronGorge);
  std::string last;
  for (const double to : {6.2, 6.3, 6.4}) {
    const json moved = edited(files, {{"kind", "move"}, {"tape", 3}, {"to_natural_m", to}}, kept);
    EXPECT_NE(moved["text"], last);
    last = moved["text"];
  }
  EXPECT_EQ(kept.taping_of, files.dump());
}

TEST(EditAnswer, RefusesATapeOverItsNeighbourInWords) {
  const json answer = answered("edit", {{"files", files_of(kPracticeLine)},
                                        {"edit", {{"kind", "move"}, {"tape", 4}, {"to_natural_m", 1.0}}}});
  EXPECT_EQ(answer.at("ok"), false);
  EXPECT_FALSE(answer.at("words").get<std::string>().empty());
}

TEST(EditAnswer, WritesAValueAndKeepsComments) {
  Kept kept;
  const json files = edited(files_of(kPracticeLine), {{"kind", "value"}, {"key", "main.tension"}, {"toml", "\"3 kN\""}}, kept);
  EXPECT_NE(files["text"].get<std::string>().find("# every loop alike"), std::string::npos);
  EXPECT_NEAR(value_of(answered("plan", plan_args(files)))["document"]["plan"]["standing"]["tension_near_N"].get<double>(), 3000.0, 1e-3);
}

TEST(SheetAnswer, IsTheSheetOfTheCommand) {
  const json pages = value_of(answered("sheet", {{"files", files_of(kPracticeLine)}, {"units", "us"}, {"date", "2026-05-01"}}));
  const Rig rig = read_rig_file(kPracticeLine).rig;
  const Plan plan = *make_plan(rig, {.units = UnitSystem::us}).plan;
  const SheetInfo info{"rig.toml", version(), "2026-05-01", UnitSystem::us};
  EXPECT_EQ(pages.get<std::vector<std::string>>(), draw_sheet(rig, plan, judge(rig, plan, UnitSystem::us), info));
}

TEST(ShakeAnswer, OneTapeOutReturnsLessThanTheEvenLine) {
  Kept kept;
  const json even = files_of(kPracticeLine), uneven = edited(even, {{"kind", "take out"}, {"tape", 4}}, kept);
  double of_even = 0.0, of_uneven = 0.0;
  for (const double frequency : {1.0, 1.6, 2.5, 4.0}) {
    const json shake = {{"line", "rig"}, {"frequency_Hz", frequency}, {"place", 0.35}, {"direction", "sideways"}};
    of_even += value_of(answered("shake", {{"files", even}, {"shake", shake}})).at("return_").get<double>();
    of_uneven += value_of(answered("shake", {{"files", uneven}, {"shake", shake}})).at("return_").get<double>();
  }
  EXPECT_LT(of_uneven, of_even);
}

TEST(ShakeFilmAnswer, HasColumnsForEveryFrame) {
  Kept kept;
  std::size_t told = 0;
  const json args = {{"files", files_of(kPracticeLine)},
                     {"shake", {{"line", "even"}, {"frequency_Hz", 2.0}, {"place", 0.5}, {"direction", "sideways"}}},
                     {"seconds", 1.0},
                     {"frame_s", 0.02}};
  const json film = value_of(answered("shake_film", args, kept, [&](std::size_t done, std::size_t) { told = done; }));
  const std::size_t frames = film.at("frames"), main = film.at("main_nodes"), backup = film.at("backup_nodes");
  EXPECT_GE(frames, 51u);   // it goes on to the end of the window of the return
  EXPECT_EQ(told, 51u);
  EXPECT_EQ(kept.films.at("main").size(), 3 * main * frames);
  EXPECT_EQ(kept.films.at("backup").size(), 3 * backup * frames);
  EXPECT_EQ(kept.films.at("swing_m").size(), frames);
  EXPECT_EQ(kept.films.at("energy").size(), frames);
}

TEST(FallFilmAnswer, PlaysAMainFailure) {
  Kept kept;
  const json fall = {{"kind", "main failure"}, {"walker_m", 8.0}, {"cut_m", 0.0}, {"tapes", "hold"}, {"step_off", "sideways"}, {"seconds", 3.0}};
  const json film = value_of(answered("fall_film", {{"files", files_of(kPracticeLine)}, {"units", "metric"}, {"fall", fall}}, kept));
  const std::size_t frames = film.at("frames");
  EXPECT_GT(frames, 60u);
  EXPECT_EQ(film.at("cut_after").size(), frames);
  EXPECT_EQ(kept.films.at("body").size(), 6 * frames);
  const std::vector<float>& leash = kept.films.at("leash_N");
  ASSERT_EQ(leash.size(), frames);
  EXPECT_EQ(film["numbers"]["lost"], false);
  EXPECT_GT(film["numbers"]["fall_m"], 0.3);
  const double lowest = film["numbers"]["lowest_time_s"];
  EXPECT_LT(lowest, double(frames) * film["frame_s"].get<double>());
}

/// The least of what this fall leaves of the backup: strength over tension [-], and the verdict on it.
std::pair<double, std::string> backup_in_a_fall(const json& files) {
  const json fall = {{"kind", "main failure"}, {"walker_m", 8.0}, {"cut_m", 0.0}, {"tapes", "hold"}, {"step_off", "sideways"}, {"seconds", 3.0}};
  const json checks = value_of(answered("fall_film", {{"files", files}, {"units", "metric"}, {"fall", fall}})).at("checks");
  std::pair<double, std::string> least{INFINITY, "none"};
  for (const json& check : checks) {
    const double value = check.at("value").get<double>();
    if (!check.at("name").get<std::string>().starts_with("catch_backup") || !(value < least.first)) continue;
    least = {value, check.at("verdict").get<std::string>()};
  }
  return least;
}

TEST(FallFilmAnswer, StopsWhereThisFallBreaksTheBackup) {
  json files = files_of(kPracticeLine);
  const double whole = backup_in_a_fall(files).first;
  EXPECT_TRUE(whole > 1.0 && std::isfinite(whole)) << whole;
  std::string text = files["text"];
  text.replace(text.find("strength = \"22 kN\""), 18, "strength = \"8 kN\" ");
  files["text"] = text;
  const auto [left, verdict] = backup_in_a_fall(files);
  EXPECT_LT(left, 1.0);
  EXPECT_EQ(verdict, "stop");
}

TEST(Answer, UnknownMethodsAndArgumentsAreFaultsOfTheCaller) {
  Kept kept;
  EXPECT_THROW((void)answer_to("sing", "{}", kDeaf, kept), std::exception);
  EXPECT_THROW((void)answer_to("plan", "{", kDeaf, kept), std::exception);
  EXPECT_THROW((void)answer_to("plan", "{}", kDeaf, kept), std::exception);
}

// Whatever text a hand types: an answer in JSON, or nothing at all.
TEST(Answer, TornTextsAreAnsweredToo) {
  std::mt19937_64 random(6);
  const json whole = files_of(kPracticeLine);
  const std::string text = whole["text"];
  for (int i = 0; i < 150; ++i) {
    json files = whole;
    std::string torn = text;
    const std::size_t at = random() % torn.size();
    torn.replace(at, random() % 9, std::string(random() % 3, char(' ' + random() % 94)));
    files["text"] = torn;
    const json answer = answered("plan", plan_args(files, false));
    if (answer.at("ok") == false) {
      EXPECT_FALSE(answer.at("words").get<std::string>().empty());
    }
  }
}

}  // namespace
}  // namespace spanloom
