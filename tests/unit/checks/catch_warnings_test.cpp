// What a catch report must say before anything else, and checks that say it, over a report made by hand (tests/support/catch_sample.h).
#include "checks/catch_warnings.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>

#include "checks/catch_words.h"
#include "checks/check_catch.h"
#include "support/catch_sample.h"
#include "support/judged.h"

namespace spanloom {
namespace {

using fixture::catch_rig;
using fixture::catch_sample;

bool says(const std::vector<std::string>& warnings, const std::string& words) {
  return std::any_of(warnings.begin(), warnings.end(),
                     [&](const std::string& warning) { return warning.find(words) != std::string::npos; });
}

std::vector<std::string> warnings_of(const Rig& rig, const CatchReport& report) {
  return catch_warnings(rig, report, judge_catch(rig, report), UnitSystem::metric);
}

// Each strength is set just below and just above the force on it (24 kN of the leash rope are 80 % of 30 kN, 34 kN of the
// webbing 85 % of 40 kN).
TEST(CatchWarnings, SayInCapitalsWhatBreaksAndNothingElse) {
  const CatchReport report = catch_sample();
  EXPECT_TRUE(warnings_of(catch_rig(), report).empty());
  EXPECT_FALSE(any_breaks(judge_catch(catch_rig(), report)));
  const double anchor = norm(report.leash_fall[0].near);
  using Set = std::function<void(Rig&, double)>;
  struct Case { const char* words; double force; Set set; };
  const std::vector<Case> cases = {
      {"THE LEASH BREAKS: leash rope", 4200.0 / 0.8, [](Rig& r, double v) { r.webbings[2].strength = v; }},
      {"THE BACKUP BREAKS: ", 5200.0 / 0.85, [](Rig& r, double v) { r.webbings[r.backup.run.segments[0].webbing].strength = v; }},
      {"THE BACKUP BREAKS WHEN WET: ", 5200.0 / 0.85 / 0.9,
       [](Rig& r, double v) { r.webbings[r.backup.run.segments[0].webbing].strength = v; }},
      {"THE MAIN BREAKS: ", 6100.0 / 0.85, [](Rig& r, double v) { r.webbings[r.main.run.segments[0].webbing].strength = v; }},
      {"THE NEAR ANCHOR BREAKS: ", anchor, [](Rig& r, double v) { r.near_anchor.strength = v; }},
      {"A POINT OF THE FAR ANCHOR BREAKS: right bolt", 0.55 * 6000.0, [](Rig& r, double v) { r.far_anchor.points[1].strength = v; }},
      {"A POINT OF THE NEAR ANCHOR BREAKS ONCE ANOTHER IS GONE: right bolt", 6000.0,
       [](Rig& r, double v) { r.near_anchor.points[1].strength = v; }},
  };
  for (const Case& c : cases) {
    for (const double side : {-1e-6, 1e-6}) {
      Rig rig = catch_rig();
      c.set(rig, c.force * (1.0 + side));
      EXPECT_EQ(says(warnings_of(rig, report), c.words), side < 0.0) << c.words;
      if (side < 0.0) {
        EXPECT_TRUE(any_breaks(judge_catch(rig, report))) << c.words;
      }
    }
  }
}

TEST(CatchWarnings, SayOfHardwareThatItBreaks) {
  Rig rig = catch_rig();
  rig.main.run.far_hardware.strength = 6000.0;
  EXPECT_TRUE(says(warnings_of(rig, catch_sample()), "HARDWARE OF THE MAIN BREAKS: "));
  rig.main.run.far_hardware.strength = 6200.0;
  EXPECT_FALSE(says(warnings_of(rig, catch_sample()), "HARDWARE OF THE MAIN BREAKS: "));
}

TEST(JudgeCatch, SaysInItsWordsThatSomethingBreaks) {
  Rig rig = catch_rig();
  rig.webbings[2].strength = 5000.0;
  const Check leash = named(judge_catch(rig, catch_sample()), "catch_leash_strength");
  EXPECT_EQ(leash.verdict, Verdict::stop);
  EXPECT_NE(leash.words.find("It breaks"), std::string::npos) << leash.words;
  EXPECT_EQ(named(judge_catch(catch_rig(), catch_sample()), "catch_leash_strength").words.find("It breaks"), std::string::npos);
}

TEST(JudgeCatch, StopsBothChecksOfPointsWithoutANumberWhereLegsCannotHold) {
  CatchReport report = catch_sample();
  report.near[2].legs.reset();
  report.near[2].cannot_hold = true;
  report.near[2].why = "no leg pulls against the force";
  const auto checks = judge_catch(catch_rig(), report);
  for (const char* name : {"catch_points_near", "catch_point_gone_near"}) {
    EXPECT_EQ(named(checks, name).verdict, Verdict::stop) << name;
    EXPECT_FALSE(named(checks, name).computed) << name;
    EXPECT_NE(named(checks, name).words.find("leash fall (no leg pulls against the force)"), std::string::npos);
  }
  EXPECT_EQ(named(checks, "catch_points_far").verdict, Verdict::ok);
  EXPECT_TRUE(says(warnings_of(catch_rig(), report), "THE LEGS OF THE NEAR ANCHOR CANNOT HOLD: "));
  EXPECT_TRUE(any_breaks(checks));
}

TEST(JudgeCatch, CountsLostWalkersOfTheWholeSearch) {
  CatchReport report = catch_sample();
  report.search.lost = 7;
  report.main_failure[1].lost = true;
  EXPECT_EQ(named(judge_catch(catch_rig(), report), "catch_held").value, 7.0);
  report.main_failure[1].lost = false;  // not one of those that are told
  const Check held = named(judge_catch(catch_rig(), report), "catch_held");
  EXPECT_EQ(held.value, 7.0);
  EXPECT_EQ(held.verdict, Verdict::stop);
  EXPECT_TRUE(says(warnings_of(catch_rig(), report), "NOTHING HOLDS THE WALKER in 7 of the falls"));
  EXPECT_FALSE(clear_height_told(report).has_value());
}

TEST(JudgeCatch, SaysWhyNoHeightOverTheGroundIsKnown) {
  const auto words = [](const Rig& rig, const CatchReport& report) {
    return named(judge_catch(rig, report), "catch_ground_main_failure").words;
  };
  Rig bare = catch_rig();
  bare.site.ground.clear();
  CatchReport none = catch_sample();
  for (FallResult& fall : none.main_failure) fall.clearance.reset();
  EXPECT_NE(words(bare, none).find("no ground is given"), std::string::npos);
  CatchReport zones = none;
  for (FallResult& fall : zones.main_failure) fall.in_anchor_zone = true;
  EXPECT_NE(words(catch_rig(), zones).find("started in an anchor zone"), std::string::npos);
  CatchReport lost = catch_sample();
  for (FallResult& fall : lost.main_failure) fall.lost = true;
  EXPECT_NE(words(catch_rig(), lost).find("nothing holds the walker"), std::string::npos);
}

TEST(JudgeCatch, SaysThatNumbersGoOnAfterTheGroundIsHit) {
  CatchReport report = catch_sample();
  report.main_failure[1].clearance = -0.3;
  EXPECT_NE(named(judge_catch(catch_rig(), report), "catch_ground_main_failure").words.find("go on as if there were none"),
            std::string::npos);
  EXPECT_TRUE(says(warnings_of(catch_rig(), report), "THE WALKER HITS THE GROUND in a main failure: walker at 25.00 m"));
}

TEST(JudgeCatch, SaysOfAWallAndAGroundThatAreMetInOneFallThatTheyAreTheSame) {
  CatchReport report = catch_sample();
  report.main_failure[1].clearance = -0.3;
  report.main_failure[1].wall = 0.0;
  Check wall = named(judge_catch(catch_rig(), report), "catch_wall");
  EXPECT_EQ(wall.verdict, Verdict::stop);
  EXPECT_NE(wall.words.find("It is the ground that the feet of this fall hit"), std::string::npos) << wall.words;
  report.main_failure[1].clearance = 3.0;
  wall = named(judge_catch(catch_rig(), report), "catch_wall");
  EXPECT_EQ(wall.words.find("It is the ground"), std::string::npos) << wall.words;
  EXPECT_NE(wall.words.find("swings into it"), std::string::npos) << wall.words;
}

TEST(JudgeCatch, DoesNotSayOfABodyThatStaysClearOfAWallThatItHits) {
  CatchReport report = catch_sample();
  report.leash_fall[0].wall = 0.4;  // 1 m is asked
  const Check wall = named(judge_catch(catch_rig(), report), "catch_wall");
  EXPECT_EQ(wall.verdict, Verdict::stop);
  EXPECT_EQ(wall.words.find("hits"), std::string::npos) << wall.words;
  EXPECT_EQ(wall.words.find("swings into"), std::string::npos) << wall.words;
  EXPECT_NE(wall.words.find("half a body's width is not in it"), std::string::npos) << wall.words;
  EXPECT_NE(wall.words.find("A shorter leash"), std::string::npos) << wall.words;
}

TEST(JudgeCatch, CuresAMainThatTugsAtTheRingByTyingItBack) {
  CatchReport report = catch_sample();
  report.main_failure[0].body = 6500.0;  // the backup carries 5.2 kN
  const auto words = [&] { return named(judge_catch(catch_rig(), report), "catch_body_main_failure").words; };
  EXPECT_NE(words().find("Tie the hardware of the main back"), std::string::npos) << words();
  EXPECT_EQ(words().find("stretches more"), std::string::npos) << words();
  report.main_failure[0].backup = 7000.0;
  EXPECT_EQ(words().find("Tie the hardware"), std::string::npos) << words();
  EXPECT_NE(words().find("stretches more"), std::string::npos) << words();
}

TEST(JudgeCatch, PointsToTheTableOfCostsOnlyWhereThereIsOne) {
  Rig rig = catch_rig();
  rig.limits.ratio.value = 20.0;
  CatchReport report = catch_sample();
  const auto words = [&] { return named(judge_catch(rig, report), "catch_backup_strength_dry").words; };
  EXPECT_NE(words().find("table of costs"), std::string::npos) << words();
  report.quick = true, report.costs.clear();
  EXPECT_EQ(words().find("table of costs"), std::string::npos) << words();
}

}  // namespace
}  // namespace spanloom
