#include "sheet/space_text.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>

#include <fmt/format.h>

#include "sheet/text_table.h"
#include "support/space_sample.h"

namespace spanloom {
namespace {

using fixture::empty_space_sample;
using fixture::space_rig;
using fixture::space_sample;
using fixture::stopped_space_sample;

std::string text_of(const SpaceReport& report, const Rig& rig = space_rig(), UnitSystem units = UnitSystem::metric) {
  return space_text(rig, report, {"rig.toml", "0.1.0", "2026-05-01", units});
}

// Line breaks and indents taken out, so that sentences are found whole.
std::string words_of(const std::string& text) {
  std::istringstream in(text);
  std::string all;
  for (std::string word; in >> word;) all += word + ' ';
  return all;
}

bool says(const std::string& text, const std::string& words) { return words_of(text).find(words) != std::string::npos; }

int count_of(const std::string& text, const std::string& words) {
  int count = 0;
  for (std::size_t at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) ++count;
  return count;
}

std::string line_with(const std::string& text, const std::string& words) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.find(words) != std::string::npos) return line;
  }
  return "";
}

TEST(SpaceText, NeverRunsWiderThanEightyColumns) {
  for (const SpaceReport& report : {space_sample(), empty_space_sample(), stopped_space_sample()}) {
    for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
      std::istringstream lines(text_of(report, space_rig(), units));
      for (std::string line; std::getline(lines, line);) EXPECT_LE(column_count(line), kTextColumns) << line;
    }
  }
}

TEST(SpaceText, StartsWithWhatItMeansThenTheTableThenTheLayout) {
  const std::string text = text_of(space_sample());
  std::size_t last = 0;
  for (const char* heading : {"space sample", "What it means", "Tapes against what comes back of a shake",
                              "The chosen layout, as one calls it out", "Tape list of the chosen layout",
                              "How exact must taping be",
                              "Common practice, no source", "The chosen layout, planned like any rig", "How good the numbers are",
                              "Notes", "Cautions"}) {
    const std::size_t at = text.find(heading);
    ASSERT_NE(at, std::string::npos) << heading;
    EXPECT_GE(at, last) << heading;
    last = at;
  }
  for (const std::string& words : space_sample().sentences) EXPECT_TRUE(says(text, words)) << words;
}

TEST(SpaceText, HasARowForEveryLayoutShownAndMarksOnlyTheChosen) {
  const std::string text = text_of(space_sample());
  EXPECT_TRUE(says(text, "the rig as it is 7 52 78 50 56 "));
  EXPECT_TRUE(says(text, "evenly taped 9 58 87 55 61 "));
  EXPECT_TRUE(says(text, "random, mean - 40 66 41 - -"));
  EXPECT_TRUE(says(text, "found 7 34 51 36 42 "));
  EXPECT_TRUE(says(text, "found 9 27 40 30 36 "));
  EXPECT_EQ(count_of(text, "<- chosen"), 1);
  EXPECT_TRUE(says(line_with(text, "<- chosen"), "found 9 27 40 30 36 "));
}

TEST(SpaceText, MovesTheMarkWithTheChoice) {
  SpaceReport report = space_sample();
  report.chosen = 0;
  EXPECT_TRUE(says(line_with(text_of(report), "<- chosen"), "found 7 34 51 36 42 "));
}

TEST(SpaceText, SaysWhatThePercentMeanAndWhichCount) {
  SpaceReport report = space_sample();
  report.points[2].moved.shakes = 9;
  report.points[2].moved.without = 1;
  const std::string text = text_of(report);
  EXPECT_TRUE(says(text, "two round trips after a sideways shake, nobody on the line. 10 shakes for each layout, 0.5 to 4 Hz."));
  EXPECT_TRUE(says(text, "the rig as it is first swings 100 mm, each on the line as another crew tapes it: arm span +-5 %"));
  EXPECT_TRUE(says(text, "one crew in twenty gets more than this."));
  EXPECT_TRUE(says(text, "8 layouts, bays drawn within the same bounds"));
  EXPECT_TRUE(says(text, "typically lie 5 points from the mean of all"));
  EXPECT_TRUE(says(text, "found, 11 tapes: 1 of 10 full-size shakes gave no number."));
}

TEST(SpaceText, CallsTheLayoutOutAndKeepsCloseBays) {
  const SpaceReport report = space_sample();
  Rig rig = space_rig();
  EXPECT_TRUE(says(text_of(report, rig), "Bays: " + bays_in_words(*report.points[1].phrase, UnitSystem::metric)));
  EXPECT_TRUE(says(text_of(report, rig), "Slack: " + slacks_in_words(*report.points[1].phrase)));
  EXPECT_FALSE(says(text_of(report, rig), "Close bays:"));
  rig.spacing.arm_span.value = 1.75;
  rig.spacing.close = CloseBays{10.0, 3.5, 0.5};   // four of 0.875 m about 10 m
  EXPECT_TRUE(says(text_of(report, rig), "Close bays: kept as they are: 4 of 0.88 m, from 8.25 to 11.75 m"));
}

TEST(SpaceText, ListsEveryBayWithTheNumbersOfThePlan) {
  const SpaceReport report = space_sample();
  const std::string text = text_of(report);
  const std::string list = text.substr(text.find("Tape list of the chosen layout"));
  for (const PlanBay& bay : report.proven->plan.bays) {
    const auto length = [](double si) { return number_text(si, Measure::length, UnitSystem::metric); };
    EXPECT_TRUE(says(list, std::to_string(bay.number) + ' ' + length(bay.tape_s) + ' ' + length(bay.main_natural))) << bay.number;
    EXPECT_TRUE(says(list, length(bay.backup_natural))) << bay.number;
  }
}

// A foot is 0.3048 m and an inch 25.4 mm exactly: a first swing of 100 mm is 3.9 in, 10 mm are 0.4 in.
TEST(SpaceText, SpeaksInUsUnits) {
  Rig rig = space_rig();
  rig.shake.swing.value = 0.1;
  const SpaceReport report = space_sample();
  const std::string text = text_of(report, rig, UnitSystem::us);
  EXPECT_TRUE(says(text, "first swings 3.9 in"));
  EXPECT_TRUE(says(text, "Where 0.4 in of backup too much in one bay does most"));
  EXPECT_TRUE(says(text, "bay tape at ft main ft spans backup ft extra in slack % drop in ankle in"));
  EXPECT_TRUE(says(text, fmt::format(" {:.2f} ", report.proven->plan.bays[0].tape_s / 0.3048)));
  for (const char* metric : {" mm", " kN", " m,"}) {
    const std::string own = text.substr(text.find("Tapes against"), text.find("Common practice") - text.find("Tapes against"));
    EXPECT_EQ(own.find(metric), std::string::npos) << metric;
  }
}

TEST(SpaceText, SaysWhatCrewsGetInFullSizeAndSmallShakes) {
  SpaceReport report = space_sample();
  JudgedLayout& chosen = report.points[1];
  chosen.moved_as_taped = ReturnAsTaped{.mean = 0.28, .p95 = 0.33, .samples = 20};
  chosen.small_as_taped = {.mean = 0.32, .p95 = 0.36, .samples = 40};
  report.own.moved_as_taped = ReturnAsTaped{.mean = 0.5, .p95 = 0.56, .samples = 20, .taut = 1};
  const std::string text = text_of(report);
  EXPECT_TRUE(says(text, "chosen, full-size shakes from 1.25 Hz up: 26 % as planned, 28 % in the mean as taped, more than 33 % with "
                         "one crew in twenty (20 crews)."));
  EXPECT_TRUE(says(text, "chosen, small shakes: 30 % as planned, 32 % in the mean as taped, more than 36 % with one crew in "
                         "twenty"));
  EXPECT_TRUE(says(text, "the rig as it is, full-size shakes from 1.25 Hz up: 50 % as planned, 50 % in the mean as taped, more "
                         "than 56 % with one crew in twenty (20 crews; 1 more gave no number)."));
}

TEST(SpaceText, CallsTheMostOfFewCrewsTheMost) {
  SpaceReport report = space_sample();
  report.points[1].moved_as_taped = ReturnAsTaped{.mean = 0.28, .p95 = 0.33, .samples = 12};
  EXPECT_TRUE(says(text_of(report), "26 % as planned, 28 % in the mean as taped, at most 33 % (12 crews)."));
  report.points[1].moved_as_taped = ReturnAsTaped{.taut = 12};
  EXPECT_TRUE(says(text_of(report), "26 % as planned, no number as taped: none of the lines gave one."));
}

TEST(SpaceText, NamesTheTouchiestBaysOfTheChosenAndOneOfEachOther) {
  SpaceReport report = space_sample();
  std::vector<BayTouch>& touch = report.points[1].touch;
  touch.assign(touch.size(), {0.010, 0.009, 0.0001});
  touch[6] = {0.031, 0.029, 0.0};
  touch[2] = {0.025, 0.024, 0.0};
  touch[4] = {0.020, 0.019, -0.0120};
  report.own.touch.assign(report.own.touch.size(), {0.010, 0.009, 0.0});
  report.own.touch[3] = {0.040, 0.036, 0.004};
  report.points[0].touch.clear();
  const std::string text = text_of(report);
  EXPECT_TRUE(says(text, "- chosen, drop: bay 7 (+31 mm, ankle margin +29 mm), bay 3 (+25 mm, ankle margin +24 mm), bay 5 (+20 "
                         "mm, ankle margin +19 mm). - chosen, small %: bay 5 (-1.2 points), "));
  EXPECT_TRUE(says(text, "- the rig as it is, drop: bay 4 (+40 mm, ankle margin +36 mm); small %: bay 4 (+0.4 points)."));
  EXPECT_TRUE(says(text, "found, 7 tapes: no number, so much less pulls a loop taut."));
}

TEST(SpaceText, SaysWhetherTheLayoutKeepsToCommonPractice) {
  SpaceReport report = space_sample();
  report.practice = {"1 to 3 arm spans under 100.00 m", true, {}};
  EXPECT_TRUE(says(text_of(report), "Bays of 1 to 3 arm spans under 100.00 m. The chosen layout keeps to it."));
  report.practice = {"1 to 3 arm spans under 100.00 m", false, {2, 5}};
  EXPECT_TRUE(says(text_of(report), "The chosen layout departs from it in bays 2, 5."));
}

TEST(SpaceText, TellsTheVerdictAndOnlyChecksThatAreNotOk) {
  SpaceReport report = space_sample();
  const auto check = [](const char* title, Verdict verdict, const char* words) {
    return Check{"name", title, 0.03, 0.02, "m", true, verdict, words, {}};
  };
  report.proven->checks = {check("Ankle", Verdict::ok, "The foot is clear."), check("Drop", Verdict::caution, "Drops are small.")};
  std::string text = text_of(report);
  EXPECT_TRUE(says(text, "Verdict: caution (0 stop, 1 caution, 1 ok)"));
  EXPECT_TRUE(says(text, "Drops are small."));
  EXPECT_FALSE(says(text, "The foot is clear."));
  EXPECT_FALSE(says(text, "every one of these stops"));
  report.proven->checks.push_back(check("Ground", Verdict::stop, "The ground is near."));
  text = text_of(report);
  EXPECT_TRUE(says(text, "Verdict of the plan of the chosen layout: STOP (1 stop, 1 caution, 1 ok)"));
  EXPECT_TRUE(says(text, "The rig as it is gets every one of these stops too"));
  report.proven->breaks = {"Ground: The ground is near."};
  text = text_of(report);
  EXPECT_TRUE(says(text, "breaks a limit: Ground: The ground is near."));
  EXPECT_FALSE(says(text, "every one of these stops"));
}

TEST(SpaceText, SaysWhoBreaksALimitAndWhereLoopsSwingOver) {
  SpaceReport report = space_sample();
  report.points[1].moved.over = {2, 3, 4, 8};
  report.own.over_in_gust = {6};
  report.own.breaks = {"The loop of bay 8 comes within 17 mm of the feet."};
  const std::string text = text_of(report);
  EXPECT_TRUE(says(text, "the rig as it is breaks a limit: The loop of bay 8 comes within 17 mm of the feet."));
  EXPECT_TRUE(says(text, "loops fly over the main in bays 2 to 4, 8"));
  EXPECT_TRUE(says(text, "the rig as it is: in a gust or a walker's bounce loops swing over the main in bay 6."));
}

TEST(SpaceText, SaysHowMuchWasLookedAtAndThatItIsNoProof) {
  const std::string text = text_of(space_sample());
  EXPECT_TRUE(says(text, "6000 layouts judged by small motion, 96 of them in full-size shakes while searching, 13 shaken again"));
  EXPECT_TRUE(says(text, "A search is no proof that nothing is better: another seed (this one: 7) may find another layout."));
  EXPECT_TRUE(says(text, "whose energy adds up to within 3 % of what was put in"));
}

TEST(SpaceText, SaysPlainlyThatNothingWasFound) {
  const SpaceReport report = empty_space_sample();
  const std::string text = text_of(report);
  EXPECT_TRUE(says(text, "NOTHING WAS FOUND THAT KEEPS EVERY LIMIT. Looked for: bays of "));
  EXPECT_TRUE(says(text, "no proof that there is nothing"));
  EXPECT_TRUE(says(text, report.why_no_even));
  for (const std::string& words : report.notes) EXPECT_TRUE(says(text, words)) << words;
  for (const char* heading : {"The chosen layout", "Tape list", "Common practice", "<- chosen"}) {
    EXPECT_EQ(text.find(heading), std::string::npos) << heading;
  }
  EXPECT_FALSE(says(text_of(space_sample()), "NOTHING WAS FOUND"));
}

TEST(SpaceText, PrintsADashForWhatAStoppedRunDidNotShake) {
  const SpaceReport report = stopped_space_sample();
  const std::string text = text_of(report);
  EXPECT_TRUE(says(text, "STOPPED BEFORE THE END"));
  EXPECT_TRUE(says(text, "found 9 - - 30 36 "));
  EXPECT_TRUE(says(text, "\"-\": not shaken in full size, it was stopped before."));
  EXPECT_FALSE(says(text, "full-size shakes from 1.25 Hz up"));
  EXPECT_FALSE(says(text_of(space_sample()), "STOPPED"));
}

TEST(SpaceText, SaysThatNoneIsChosen) {
  SpaceReport report = space_sample();
  report.chosen.reset();
  report.proven.reset();
  const std::string text = text_of(report);
  EXPECT_TRUE(says(text, "None of the layouts found is chosen."));
  EXPECT_EQ(text.find("<- chosen"), std::string::npos);
  EXPECT_EQ(text.find("Tape list"), std::string::npos);
}

TEST(SpaceText, GivesALayoutWithoutAPlanNoAnkleMargin) {
  SpaceReport report = space_sample();
  report.even->ankle_margin.clear();
  EXPECT_TRUE(says(text_of(report), "evenly taped 9 58 87 55 61 - "));
}

TEST(SpaceText, CarriesEveryNoteAndCaution) {
  const std::string text = text_of(space_sample());
  for (const std::string& words : space_sample().notes) EXPECT_TRUE(says(text, words)) << words;
  for (const std::string& words : cautions()) EXPECT_TRUE(says(text, words)) << words;
}

}  // namespace
}  // namespace spanloom
