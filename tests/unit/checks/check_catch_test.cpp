// Verdicts over a catch report made by hand (tests/support/catch_sample.h).
#include "checks/check_catch.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "checks/catch_words.h"
#include "support/catch_sample.h"
#include "support/judged.h"

namespace spanloom {
namespace {

using fixture::catch_rig;
using fixture::catch_sample;

const std::vector<const char*> kAll = {
    "catch_held", "catch_body_main_failure", "catch_body_leash_fall", "catch_leash_strength", "catch_backup_strength_dry",
    "catch_backup_strength_wet", "catch_main_strength_dry", "catch_main_strength_wet", "catch_anchor_near",
    "catch_points_near", "catch_point_gone_near", "catch_anchor_far", "catch_points_far", "catch_point_gone_far",
    "catch_ground_main_failure", "catch_ground_leash_fall", "catch_wall", "catch_search"};

TEST(JudgeCatch, FindsAFullyStatedRigInOrder) {
  const auto checks = judge_catch(catch_rig(), catch_sample());
  ASSERT_EQ(checks.size(), kAll.size());
  for (std::size_t i = 0; i < kAll.size(); ++i) {
    EXPECT_EQ(checks[i].name, kAll[i]);
    EXPECT_EQ(checks[i].verdict, Verdict::ok) << checks[i].name << ": " << checks[i].words;
    EXPECT_TRUE(checks[i].assumed.empty()) << checks[i].name;
  }
}

TEST(JudgeCatch, KeepsNumbersFiniteAndSpeaksInSentences) {
  std::vector<CatchReport> reports(3, catch_sample());
  reports[1] = {};
  reports[2].main_failure[0].lost = true;
  for (const CatchReport& report : reports) {
    for (const bool bare : {false, true}) {
      Rig rig = catch_rig();
      if (bare) rig.near_anchor = rig.far_anchor = {}, rig.site.ground.clear();
      for (const Check& c : judge_catch(rig, report)) {
        EXPECT_TRUE(std::isfinite(c.value) && std::isfinite(c.limit)) << c.name;
        ASSERT_FALSE(c.words.empty()) << c.name;
        EXPECT_EQ(c.words.back(), '.') << c.name << ": " << c.words;
        EXPECT_FALSE(c.title.empty() || c.unit.empty()) << c.name;
      }
    }
  }
}

// 40 kN webbing keeps 85 % at sewn ends: 34 kN; the leash rope 30 kN keeps 80 %: 24 kN.
TEST(JudgeCatch, DividesStrengthByTheGreatestForceOfTheFalls) {
  const CatchReport report = catch_sample();
  const auto checks = judge_catch(catch_rig(), report);
  EXPECT_DOUBLE_EQ(named(checks, "catch_backup_strength_dry").value, 34e3 / 5200.0);
  EXPECT_DOUBLE_EQ(named(checks, "catch_backup_strength_wet").value, 0.9 * 34e3 / 5200.0);
  EXPECT_DOUBLE_EQ(named(checks, "catch_main_strength_dry").value, 34e3 / 6100.0);
  EXPECT_DOUBLE_EQ(named(checks, "catch_leash_strength").value, 24e3 / 4200.0);
  EXPECT_DOUBLE_EQ(named(checks, "catch_body_main_failure").value, 4200.0);
  EXPECT_DOUBLE_EQ(named(checks, "catch_body_leash_fall").value, 3300.0);
  EXPECT_DOUBLE_EQ(named(checks, "catch_anchor_near").value, 45e3 / norm(report.leash_fall[0].near));
  EXPECT_DOUBLE_EQ(named(checks, "catch_points_near").value, 25e3 / (0.55 * 6000.0));
  EXPECT_DOUBLE_EQ(named(checks, "catch_point_gone_far").value, 25e3 / 6000.0);
  EXPECT_DOUBLE_EQ(named(checks, "catch_ground_main_failure").value, 16.5);
  EXPECT_DOUBLE_EQ(named(checks, "catch_wall").value, 6.5);
}

// Each verdict flips where its limit passes the value, and nowhere else.
TEST(JudgeCatch, FlipsEachVerdictAtItsLimit) {
  const CatchReport report = catch_sample();
  const auto before = judge_catch(catch_rig(), report);
  using Set = std::function<void(Rig&, double)>;
  const Set ratio = [](Rig& r, double v) { r.limits.ratio.value = v; };
  const Set anchor_ratio = [](Rig& r, double v) { r.limits.anchor_ratio.value = v; };
  const Set reserve = [](Rig& r, double v) { r.limits.reserve.value = v; };
  const Set body = [](Rig& r, double v) { r.limits.body_force.value = v; };
  const std::vector<std::pair<const char*, Set>> cases = {
      {"catch_backup_strength_dry", ratio}, {"catch_backup_strength_wet", ratio}, {"catch_main_strength_dry", ratio},
      {"catch_main_strength_wet", ratio}, {"catch_leash_strength", ratio}, {"catch_anchor_near", anchor_ratio},
      {"catch_anchor_far", anchor_ratio}, {"catch_points_near", anchor_ratio}, {"catch_points_far", anchor_ratio},
      {"catch_ground_main_failure", reserve}, {"catch_ground_leash_fall", reserve},
      {"catch_wall", [](Rig& r, double v) { r.limits.wall_reserve.value = v; }},
      {"catch_body_main_failure", body}, {"catch_body_leash_fall", body},
  };
  for (const auto& [name, set] : cases) {
    const Check& was = named(before, name);
    for (const double side : {-1e-6, 1e-6}) {
      Rig rig = catch_rig();
      set(rig, was.value * (1.0 + side));
      const bool fine = was.at_most ? side > 0.0 : side < 0.0;
      EXPECT_EQ(named(judge_catch(rig, report), name).verdict, fine ? Verdict::ok : Verdict::stop) << name << " " << side;
    }
  }
}

// Change one stated input into a default: whatever rests on it is no longer ok.
TEST(JudgeCatch, NamesEachDefaultItRestsOn) {
  const std::vector<const char*> falls = {
      "catch_body_main_failure", "catch_body_leash_fall", "catch_leash_strength", "catch_backup_strength_dry",
      "catch_backup_strength_wet", "catch_main_strength_dry", "catch_main_strength_wet", "catch_anchor_near", "catch_anchor_far",
      "catch_points_near", "catch_point_gone_near", "catch_ground_main_failure", "catch_ground_leash_fall", "catch_wall"};
  const std::vector<std::pair<std::function<void(Rig&)>, std::vector<const char*>>> cases = {
      {[](Rig& r) { r.walker.leash.assumed = true; }, falls},
      {[](Rig& r) { r.walker.foot_to_hip.assumed = true; }, falls},
      {[](Rig& r) { r.walker.leash_webbing.reset(); }, falls},
      {[](Rig& r) { r.walker.leash_ring_mass.assumed = true; }, falls},
      {[](Rig& r) { r.walker.leash_ring_friction.assumed = true; }, falls},
      {[](Rig& r) { r.walker.body.assumed = true; }, falls},
      {[](Rig& r) { r.walker.leash_ring.assumed = true; }, {"catch_held", "catch_body_main_failure"}},
      {[](Rig& r) { r.walker.leash_keeps.assumed = true; }, {"catch_leash_strength"}},
      {[](Rig& r) { r.limits.body_force.assumed = true; }, {"catch_body_main_failure", "catch_body_leash_fall"}},
      {[](Rig& r) { r.limits.ratio.assumed = true; },
       {"catch_backup_strength_dry", "catch_main_strength_wet", "catch_leash_strength"}},
      {[](Rig& r) { r.limits.anchor_ratio.assumed = true; }, {"catch_anchor_near", "catch_points_far", "catch_point_gone_far"}},
      {[](Rig& r) { r.limits.reserve.assumed = true; }, {"catch_ground_main_failure", "catch_ground_leash_fall"}},
      {[](Rig& r) { r.limits.anchor_zone.assumed = true; }, {"catch_ground_main_failure", "catch_ground_leash_fall"}},
      {[](Rig& r) { r.limits.wall_reserve.assumed = true; }, {"catch_wall"}},
      {[](Rig& r) { r.far_anchor.wall.reset(); }, {"catch_wall"}},
      {[](Rig& r) { r.near_anchor.legs.assumed = true; }, {"catch_points_near", "catch_point_gone_near"}},
      {[](Rig& r) { r.near_anchor.leg_stiffness.assumed = true; }, {"catch_points_near", "catch_point_gone_near"}},
      {[](Rig& r) { r.backup.run.near_end.keeps.assumed = true; }, {"catch_backup_strength_dry", "catch_backup_strength_wet"}},
      {[](Rig& r) { r.webbings[0].wet_keeps.assumed = true; }, {"catch_main_strength_wet"}},
  };
  for (std::size_t i = 0; i < cases.size(); ++i) {
    Rig rig = catch_rig();
    cases[i].first(rig);
    const auto checks = judge_catch(rig, catch_sample());
    for (const char* name : cases[i].second) {
      EXPECT_EQ(named(checks, name).verdict, Verdict::caution) << i << " " << name;
      EXPECT_FALSE(named(checks, name).assumed.empty()) << i << " " << name;
    }
  }
}

TEST(JudgeCatch, SaysThatTheWorseOfTapesCountsWhereTheirStrengthIsNotKnown) {
  CatchReport report = catch_sample();
  report.tape_strength_known = false;
  const auto checks = judge_catch(catch_rig(), report);
  const Check& backup = named(checks, "catch_backup_strength_dry");
  EXPECT_EQ(backup.verdict, Verdict::caution);
  ASSERT_EQ(backup.assumed.size(), 1u);
  EXPECT_NE(backup.assumed[0].find("worse of tapes that hold and tapes that tear"), std::string::npos);
  EXPECT_EQ(named(checks, "catch_main_strength_dry").verdict, Verdict::ok);  // the main is whole in a leash fall
}

TEST(JudgeCatch, TakesRingFrictionIntoAccountWhereThereAreRings) {
  Rig rig = catch_rig();
  rig.backup.ring_friction = Stated<double>::by_default(0.15);
  EXPECT_EQ(named(judge_catch(rig, catch_sample()), "catch_body_main_failure").verdict, Verdict::ok);
  rig.backup.joint = Joint::ring;
  EXPECT_EQ(named(judge_catch(rig, catch_sample()), "catch_body_main_failure").verdict, Verdict::caution);
}

TEST(JudgeCatch, StopsARingAroundTheMainAloneInPlainWords) {
  Rig rig = catch_rig();
  rig.walker.leash_ring.value = LeashRing::around_main;
  const Check held = named(judge_catch(rig, catch_sample()), "catch_held");
  EXPECT_EQ(held.verdict, Verdict::stop);
  EXPECT_NE(held.words.find("the ring runs off its end and nothing holds the walker"), std::string::npos);
}

TEST(JudgeCatch, StopsWhereAnyFallIsLost) {
  for (const bool failure : {true, false}) {
    CatchReport report = catch_sample();
    (failure ? report.main_failure : report.leash_fall)[1].lost = true;
    const Check held = named(judge_catch(catch_rig(), report), "catch_held");
    EXPECT_EQ(held.verdict, Verdict::stop);
    EXPECT_EQ(held.value, 1.0);
    EXPECT_NE(held.words.find("nothing holds the walker"), std::string::npos) << held.words;
  }
}

TEST(JudgeCatch, TakesNoNumberOfTheBodyFromALostFallButForcesOnTheLine) {
  CatchReport report = catch_sample();
  for (FallResult& fall : report.main_failure) fall.lost = true;
  const auto checks = judge_catch(catch_rig(), report);
  EXPECT_FALSE(named(checks, "catch_body_main_failure").computed);
  EXPECT_FALSE(named(checks, "catch_ground_main_failure").computed);
  EXPECT_TRUE(named(checks, "catch_backup_strength_dry").computed);
  EXPECT_DOUBLE_EQ(named(checks, "catch_leash_strength").value, 24e3 / 3300.0);  // the leash falls are left
}

TEST(JudgeCatch, SaysWhereTheFigureForTheBodyComesFrom) {
  const Check body = named(judge_catch(catch_rig(), catch_sample()), "catch_body_main_failure");
  for (const char* part : {"6 kN", "EN 355", "borrowed", "no figure is published for highlines"}) {
    EXPECT_NE(body.words.find(part), std::string::npos) << part;
  }
}

TEST(JudgeCatch, StopsWhereTheOthersDoNotTakeOverFromALostPoint) {
  CatchReport report = catch_sample();
  report.near.back().without[1].reset();
  const Check gone = named(judge_catch(catch_rig(), report), "catch_point_gone_near");
  EXPECT_EQ(gone.verdict, Verdict::stop);
  EXPECT_NE(gone.words.find("right bolt gone, main failure"), std::string::npos) << gone.words;
}

// 25 kN hold 6 kN 4.17 times: more than 1, and less than a ratio of 5 asked of the whole anchor.
TEST(JudgeCatch, IsSatisfiedWithLessOfAnAnchorThatLostAPointAndSaysSo) {
  Rig rig = catch_rig();
  rig.limits.anchor_ratio.value = 5.0;
  Check gone = named(judge_catch(rig, catch_sample()), "catch_point_gone_near");
  EXPECT_EQ(gone.verdict, Verdict::caution);
  for (AnchorPoint& point : rig.near_anchor.points) point.strength = 5.9e3;
  gone = named(judge_catch(rig, catch_sample()), "catch_point_gone_near");
  EXPECT_EQ(gone.verdict, Verdict::stop);
  EXPECT_LT(gone.value, 1.0);
}

TEST(JudgeCatch, IsNotGreenOverPointsWithoutStrengthOrStatesWithoutLoads) {
  Rig rig = catch_rig();
  rig.near_anchor.points[0].strength.reset();
  Check points = named(judge_catch(rig, catch_sample()), "catch_points_near");
  EXPECT_EQ(points.verdict, Verdict::caution);
  EXPECT_NE(points.words.find("No strength given for: left bolt."), std::string::npos) << points.words;
  CatchReport report = catch_sample();
  report.near[0].legs.reset();
  report.near[0].why = "no leg pulls against the force";
  points = named(judge_catch(catch_rig(), report), "catch_points_near");
  EXPECT_EQ(points.verdict, Verdict::caution);
  EXPECT_NE(points.words.find("standing: no leg pulls"), std::string::npos) << points.words;
}

TEST(JudgeCatch, SaysOfASinglePointThatNothingTakesOver) {
  Rig rig = catch_rig();
  rig.near_anchor.points.resize(1);
  CatchReport report = catch_sample();
  for (AnchorState& state : report.near) state.without.clear(), state.legs->legs.resize(1);
  const Check gone = named(judge_catch(rig, report), "catch_point_gone_near");
  EXPECT_EQ(gone.verdict, Verdict::caution);
  EXPECT_FALSE(gone.computed);
  EXPECT_NE(gone.words.find("nothing takes over"), std::string::npos);
}

TEST(JudgeCatch, IsGreenNowhereInAQuickLookAStoppedRunOrWhereAFallGaveNoNumber) {
  std::vector<CatchReport> reports(3, catch_sample());
  reports[0].quick = true;
  reports[1].stopped = true;
  reports[2].search.failed = 2;
  for (const CatchReport& report : reports) {
    for (const Check& check : judge_catch(catch_rig(), report)) EXPECT_NE(check.verdict, Verdict::ok) << check.name;
  }
  EXPECT_EQ(named(judge_catch(catch_rig(), reports[2]), "catch_search").value, 2.0);
}

TEST(JudgeCatch, IsNotKnownWithoutFallsButNotOk) {
  for (const Check& check : judge_catch(catch_rig(), {})) EXPECT_NE(check.verdict, Verdict::ok) << check.name;
}

TEST(CatchVerdicts, AnswerWhatThePlanLeavesOpenOfTheBackup) {
  const Rig rig = catch_rig();
  const Plan plan = plan_of(rig);
  const CatchVerdicts verdicts{judge(rig, plan), judge_catch(rig, catch_sample())};
  const auto all = verdicts.all();
  const auto count = [](const std::vector<Check>& checks, const std::string& name) {
    return std::count_if(checks.begin(), checks.end(), [&](const Check& c) { return c.name == name; });
  };
  EXPECT_EQ(count(verdicts.plan, "backup_strength_dry"), 1);
  EXPECT_EQ(count(all, "backup_strength_dry"), 0);
  EXPECT_EQ(count(all, "catch_backup_strength_dry"), 1);
  EXPECT_EQ(count(all, "main_strength_dry"), 1);
  const CatchVerdicts nothing{verdicts.plan, judge_catch(rig, {})};
  EXPECT_EQ(count(nothing.all(), "backup_strength_dry"), 1);
}

TEST(EventWords, NameWhoWhereAndHow) {
  const CatchReport report = catch_sample();
  Rig rig = catch_rig();
  EXPECT_EQ(event_words(rig, report.main_failure[0], UnitSystem::metric),
            "walker at 12.00 m, main fails at the near anchor, tapes hold");
  EXPECT_EQ(event_words(rig, report.leash_fall[1], UnitSystem::metric),
            "walker at 25.00 m drops off from sitting, ring caught between tapes");
  FallResult fall = report.main_failure[1];
  fall.cut_words = "webbing", fall.cut_m = 14.5, fall.what.posture = Posture::hanging;
  EXPECT_EQ(event_words(rig, fall, UnitSystem::metric), "walker at 25.00 m hanging, main fails at 14.50 m (webbing), tapes tear");
  fall.what.tape_strength = 150.0;
  EXPECT_STREQ(tapes_word(rig, fall), "hold");
  fall.torn = 3;
  EXPECT_STREQ(tapes_word(rig, fall), "tear");
  fall = report.leash_fall[0], fall.what.step_off = StepOff::backwards;
  EXPECT_EQ(event_words(rig, fall, UnitSystem::metric),
            "walker at 12.00 m steps off backwards, towards the nearer anchor, ring runs");
}

// A rig on slider rings has no tapes between its anchors.
TEST(EventWords, SpeakOfRingsWhereThereAreNoTapes) {
  const CatchReport report = catch_sample();
  Rig rig = catch_rig();
  rig.backup.joint = Joint::ring;
  EXPECT_EQ(event_words(rig, report.main_failure[0], UnitSystem::metric),
            "walker at 12.00 m, main fails at the near anchor, backup in rings");
  EXPECT_EQ(event_words(rig, report.leash_fall[1], UnitSystem::metric),
            "walker at 25.00 m drops off from sitting, ring caught between its slider rings");
  EXPECT_STREQ(tapes_word(rig, report.main_failure[0]), "rings");
}

}  // namespace
}  // namespace spanloom
