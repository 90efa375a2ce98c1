#include "sheet/catch_text.h"

#include <gtest/gtest.h>

#include <sstream>

#include "plan_fixture.h"
#include "sheet/text_table.h"
#include "support/catch_sample.h"

namespace spanloom {
namespace {

using fixture::catch_rig;
using fixture::catch_sample;

std::string text_of(const CatchReport& report, const Rig& rig = catch_rig(), UnitSystem units = UnitSystem::metric) {
  const CatchVerdicts verdicts{fixture::sample().checks, judge_catch(rig, report, units)};
  return catch_text(rig, report, verdicts, {"rig.toml", "0.1.0", "2026-05-01", units});
}

bool says(const std::string& text, const std::string& words) {
  std::istringstream in(text);
  std::string all;
  for (std::string word; in >> word;) all += word + ' ';
  return all.find(words) != std::string::npos;
}

TEST(CatchText, NeverRunsWiderThanEightyColumns) {
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
    std::istringstream lines(text_of(catch_sample(), catch_rig(), units));
    for (std::string line; std::getline(lines, line);) EXPECT_LE(column_count(line), kTextColumns) << line;
  }
}

TEST(CatchText, StartsWithWhatItMeans) {
  const std::string text = text_of(catch_sample());
  EXPECT_LT(text.find("What it means"), text.find("The worst main failures"));
  EXPECT_TRUE(says(text, "When the main fails, the walker drops up to 8.40 m (walker at 25.00 m, main fails at the near anchor, "
                         "tapes tear). The body feels up to 4.20 kN (walker at 12.00 m,"));
  EXPECT_TRUE(says(text, "In a leash fall the walker drops up to 3.60 m"));
  EXPECT_TRUE(says(text, "The backup carries up to 5.20 kN"));
  EXPECT_TRUE(says(text, "The near anchor carries up to 6.07 kN, in a leash fall."));
  EXPECT_TRUE(says(text, "Clear height needed: 10.40 m below the standing main with nobody on it, the reserve of 2.00 m included"));
}

TEST(CatchText, HasARowForEveryFallTold) {
  const std::string text = text_of(catch_sample());
  EXPECT_TRUE(says(text, "at the near anchor 12.00 hold 7.10 4.20 5.20 5.18 5.35 18.00"));
  EXPECT_TRUE(says(text, "at the near anchor 25.00 tear 8.40 3.90 5.20 5.18 5.35 16.50"));
  EXPECT_TRUE(says(text, "sideways 12.00 runs 3.20 3.30 0.90 6.07 6.14 24.00"));
  EXPECT_TRUE(says(text, "from sitting 25.00 caught 3.60 2.90 0.90 6.07 6.14 23.50"));
}

TEST(CatchText, SaysOfALostWalkerThatNothingHoldsAndGivesNoFall) {
  CatchReport report = catch_sample();
  report.main_failure[0].lost = true;
  report.worst_failure = {1, 1, 1, 1, 1, 1, 1};
  const std::string text = text_of(report);
  EXPECT_TRUE(says(text, "NOTHING HOLDS THE WALKER"));
  EXPECT_TRUE(says(text, "at the near anchor 12.00 hold lost lost 5.20 5.18 5.35 -"));
  EXPECT_FALSE(says(text, "7.10 4.20"));
}

TEST(CatchText, TellsOnlyTheForcesOfWalkersWhoStartInAnAnchorZone) {
  CatchReport report = catch_sample();
  report.main_failure[0].in_anchor_zone = true;
  report.main_failure[0].clearance.reset();
  const std::string text = text_of(report);
  EXPECT_TRUE(says(text, "at the near anchor 12.00 hold - 4.20 5.20 5.18 5.35 -"));
  EXPECT_TRUE(says(text, "Of walkers who start in an anchor zone only the forces are told"));
}

TEST(CatchText, SaysThatTheGroundIsHit) {
  CatchReport report = catch_sample();
  EXPECT_FALSE(says(text_of(report), "THE WALKER HITS THE GROUND"));
  report.main_failure[1].clearance = -0.3;
  EXPECT_TRUE(says(text_of(report), "THE WALKER HITS THE GROUND in a main failure: walker at 25.00 m"));
}

TEST(CatchText, SaysWhatBreaksFirstAndThatTheRestHoldsOnlyIfNothingDoes) {
  Rig rig = catch_rig();
  rig.webbings[2].strength = 5000.0;  // 4 kN of the leash are left
  const std::string text = text_of(catch_sample(), rig);
  EXPECT_TRUE(says(text, "THE LEASH BREAKS: leash rope: 4.00 kN left of 5.00 kN against 4.20 kN"));
  EXPECT_LT(text.find("THE LEASH BREAKS"), text.find("When the main fails, the walker drops"));
  EXPECT_TRUE(says(text, "10.40 m below the standing main with nobody on it, the reserve of 2.00 m included; the most is needed "
                         "with the walker at 25.00 m. This holds only if nothing breaks, and something does: see above."));
  EXPECT_FALSE(says(text_of(catch_sample()), "only if nothing breaks"));
}

TEST(CatchText, GivesNoClearHeightAndSaysWhereHeldAtAllWhereAnyWalkerIsLost) {
  CatchReport report = catch_sample();
  report.search.lost = 5;
  const std::string text = text_of(report);
  EXPECT_TRUE(says(text, "NOTHING HOLDS THE WALKER in 5 of the falls"));
  EXPECT_TRUE(says(text, "Clear height needed: none is enough"));
  EXPECT_FALSE(says(text, "10.40 m"));
  EXPECT_TRUE(says(text, "the walker drops up to 8.40 m, where the walker is held at all"));
  EXPECT_TRUE(says(text, "where this rig is worst, where the walker is held at all;"));
  EXPECT_TRUE(says(text, "In a leash fall the walker drops up to 3.60 m ("));
}

TEST(CatchText, WarnsEvenWhenStopped) {
  CatchReport report = catch_sample();
  report.stopped = true;
  report.search.lost = 1;
  report.main_failure[1].clearance = -0.3;
  Rig rig = catch_rig();
  rig.near_anchor.strength = 1000.0;
  const std::string text = text_of(report, rig);
  for (const char* words : {"NOTHING HOLDS THE WALKER", "THE NEAR ANCHOR BREAKS", "THE WALKER HITS THE GROUND"}) {
    EXPECT_TRUE(says(text, words)) << words;
  }
  EXPECT_EQ(text.find("What it means"), std::string::npos);
  EXPECT_FALSE(says(text, "10.40 m"));
}

TEST(CatchText, SpeaksOfRingsWhereTheBackupRunsInRings) {
  Rig rig = catch_rig();
  rig.backup.joint = Joint::ring;
  const std::string text = text_of(catch_sample(), rig);
  EXPECT_FALSE(says(text, "tapes hold"));
  EXPECT_FALSE(says(text, "between tapes"));
  EXPECT_FALSE(says(text, "two tapes"));
  EXPECT_TRUE(says(text, "at the near anchor 12.00 rings 7.10"));
  EXPECT_TRUE(says(text, "caught between two slider rings"));
}

TEST(CatchText, SaysWhatTheTableOfCostsLeavesOutAndWhereChanceIsInIt) {
  CatchReport report = catch_sample();
  EXPECT_TRUE(says(text_of(report), "clear: the clear height, without the reserve"));
  EXPECT_FALSE(says(text_of(report), "by chance"));
  report.main_failure[0].body = 5300.0;  // the backup carries 5.2 kN
  EXPECT_TRUE(says(text_of(report), "may jump from row to row by chance"));
}

TEST(CatchText, GivesNoMarginToACountThatHasToBeNone) {
  const std::string text = text_of(catch_sample());
  EXPECT_TRUE(says(text, "Falls in which nothing holds the walker: 0 falls The leash ring"));
  EXPECT_FALSE(says(text, "margin +0"));
}

TEST(CatchText, SaysOfFallsWithoutANumberWhy) {
  CatchReport report = catch_sample();
  report.search.failed = 2;
  EXPECT_TRUE(says(text_of(report), "2 of them gave no number (no proven rest, or energy that does not add up)."));
}

TEST(CatchText, MarksWalkersWhoSitOrHang) {
  CatchReport report = catch_sample();
  report.main_failure[1].what.posture = Posture::hanging;
  EXPECT_TRUE(says(text_of(report), "at the near anchor h 25.00 tear"));
}

TEST(CatchText, ListsLegsAndWhatTheyCarryWithOneGone) {
  const std::string text = text_of(catch_sample());
  EXPECT_TRUE(says(text, "leash fall 6.00 3.30 3.30"));
  EXPECT_TRUE(says(text, "1: left bolt, holds 25.00 kN"));
  EXPECT_TRUE(says(text, "One point gone, leash fall:"));
  EXPECT_TRUE(says(text, "left bolt gone 6.00"));
  CatchReport report = catch_sample();
  report.near[2].without[0].reset();
  EXPECT_TRUE(says(text_of(report), "left bolt - - - not held"));
}

TEST(CatchText, PricesOtherSlackAndSaysWhatCouldNotBeRigged) {
  const std::string text = text_of(catch_sample());
  EXPECT_TRUE(says(text, "0.50 x, 0.6 % 55 5 440 6.50 4.45 8.00 47.5"));
  EXPECT_TRUE(says(text, "own, 1.2 % 110 30 220 7.00 4.30 8.50 45.0"));
  EXPECT_TRUE(says(text, "2.00 x: not computed, the loops would not fit their bays."));
  CatchReport report = catch_sample();
  report.costs.clear();
  EXPECT_FALSE(says(text_of(report), "What other backup slack would cost"));
}

TEST(CatchText, SaysHowTheWorstWasLookedForAndHowGoodItIs) {
  const std::string text = text_of(catch_sample());
  EXPECT_TRUE(says(text, "Walkers at every tape and bay middle"));
  EXPECT_TRUE(says(text, "184 falls computed to find the worst; the energy adds up in every one of them."));
  EXPECT_TRUE(says(text, "changed the greatest force on the body by +2.1 % and the deepest fall by -0.4 %"));
}

TEST(CatchText, CarriesBothVerdictsEveryCheckNoteAndCaution) {
  const CatchReport report = catch_sample();
  const std::string text = text_of(report);
  EXPECT_TRUE(says(text, "Verdict of the falls: ok"));
  EXPECT_TRUE(says(text, "Verdict of the plan: STOP"));
  for (const Check& check : judge_catch(catch_rig(), report)) EXPECT_TRUE(says(text, check.words)) << check.words;
  for (const std::string& words : report.notes) EXPECT_TRUE(says(text, words)) << words;
  for (const std::string& words : cautions(Falls::computed)) EXPECT_TRUE(says(text, words)) << words;
}

TEST(CatchText, CountsManyDefaultsAtEachCheckAndListsThemOnce) {
  Rig rig = catch_rig();
  rig.walker.leash.assumed = rig.walker.foot_to_hip.assumed = rig.walker.leash_ring_mass.assumed = true;
  rig.walker.leash_ring_friction.assumed = rig.walker.body.assumed = true;
  const std::string text = text_of(catch_sample(), rig);
  EXPECT_TRUE(says(text, "Rests on 5 of our defaults; they are listed below."));
  EXPECT_TRUE(says(text, "Our defaults, not stated in the rig file"));
  EXPECT_EQ(text.find("walker.leash_ring_mass"), text.rfind("walker.leash_ring_mass"));
}

TEST(CatchText, DrawsNoConclusionFromAPart) {
  CatchReport report = catch_sample();
  report.stopped = true;
  const std::string text = text_of(report);
  EXPECT_TRUE(says(text, "STOPPED BEFORE THE END"));
  EXPECT_EQ(text.find("What it means"), std::string::npos);
  EXPECT_NE(text.find("The worst main failures"), std::string::npos);
}

TEST(CatchText, NamesAQuickLook) {
  CatchReport report = catch_sample();
  EXPECT_EQ(text_of(report).find("QUICK LOOK"), std::string::npos);
  report.quick = true;
  EXPECT_NE(text_of(report).find("QUICK LOOK"), std::string::npos);
}

TEST(CatchText, HoldsWithNothingDoneAtAll) {
  CatchReport report;
  report.stopped = true;
  EXPECT_TRUE(says(text_of(report), "STOPPED BEFORE THE END"));
}

}  // namespace
}  // namespace spanloom
