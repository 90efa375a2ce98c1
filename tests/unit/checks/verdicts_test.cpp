#include "checks/verdicts.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "support/judged.h"
#include "support/plain_rig.h"

namespace spanloom {
namespace {

/// Every length of hardware present, everything stated: nothing is left to assume.
Rig full_rig() {
  Rig rig = plain_rig();
  // Deep enough at the anchors too for a body on the leash.
  rig.site.ground = {{0.0, -4.0}, {2.0, -4.0}, {2.0, -30.0}, {48.0, -30.0}, {48.0, -4.0}, {50.0, -4.0}};
  rig.main.run.near_hardware = {"pulleys", 2.0, 0.6, 60e3};
  rig.main.run.far_hardware = {"shackle", 0.4, 0.1, 60e3};
  rig.backup.run.near_hardware = {"sling", 0.4, 0.5, 60e3};
  rig.wind = Wind{6.0};
  return rig;
}

TEST(Judge, FindsAFullyStatedRigInOrder) {
  const Rig rig = full_rig();
  for (const Check& c : judge(rig, plan_of(rig))) {
    // The backup's strength is judged while the main holds only, so it is never in order by itself.
    const bool open = c.name == "backup_strength_dry" || c.name == "backup_strength_wet" || c.name == "backup_links";
    EXPECT_EQ(c.verdict, open ? Verdict::caution : Verdict::ok) << c.name << ": " << c.words;
    EXPECT_TRUE(c.assumed.empty()) << c.name;
  }
}

TEST(Judge, NeverSaysOkOverADefaultOrAMissingInput) {
  Rig rig = rig_with_defaults();
  const Rig full = plain_rig();
  rig.title = full.title, rig.site = full.site, rig.webbings = full.webbings;
  for (Webbing& w : rig.webbings) w.wet_keeps = Stated<double>::by_default(0.85);
  rig.main.run.segments = full.main.run.segments, rig.main.tension = full.main.tension;
  rig.backup.run.segments = full.backup.run.segments, rig.backup.amount = full.backup.amount;
  rig.spacing.pattern = full.spacing.pattern;
  rig.walker.mass = 80.0;
  for (const Check& c : judge(rig, plan_of(rig))) {
    EXPECT_NE(c.verdict, Verdict::ok) << c.name;
  }
}

// Change one stated input of a rig that is all in order into a default: whatever rests on it is no longer ok.
TEST(Judge, NamesEachDefaultItRestsOn) {
  const Rig full = full_rig();
  const Plan plan = plan_of(full);
  const std::vector<std::pair<std::function<void(Rig&)>, std::vector<const char*>>> cases = {
      {[](Rig& r) { r.limits.ratio.assumed = true; },
       {"main_strength_dry", "main_strength_wet", "backup_strength_dry", "backup_strength_wet", "main_links", "backup_links"}},
      {[](Rig& r) { r.limits.anchor_ratio.assumed = true; }, {"anchor_near", "anchor_far"}},
      {[](Rig& r) { r.limits.least_drop.assumed = true; }, {"least_drop"}},
      {[](Rig& r) { r.limits.least_ankle_margin.assumed = true; }, {"ankle_margin"}},
      {[](Rig& r) { r.limits.reserve.assumed = true; }, {"line_clearance", "foot_clearance", "hang_clearance"}},
      {[](Rig& r) { r.limits.anchor_zone.assumed = true; },
       {"line_clearance", "foot_clearance", "hang_clearance", "zone_hang", "edge_distance"}},
      {[](Rig& r) { r.limits.edge_distance.assumed = true; }, {"edge_distance"}},
      {[](Rig& r) { r.limits.backup_tension.assumed = true; }, {"backup_tension"}},
      {[](Rig& r) { r.walker.leash.assumed = true; }, {"hang_clearance", "zone_hang"}},
      {[](Rig& r) { r.walker.foot_to_hip.assumed = true; }, {"hang_clearance", "zone_hang"}},
      {[](Rig& r) { r.main.run.near_end.keeps = Stated<double>::by_default(0.5); }, {"main_strength_dry", "main_strength_wet"}},
      {[](Rig& r) { r.webbings[0].wet_keeps.assumed = true; }, {"main_strength_wet"}},
      {[](Rig& r) { r.spacing.arm_span.assumed = true; }, {"spacing"}},
  };
  for (const auto& [forget, names] : cases) {
    Rig rig = full;
    forget(rig);
    const auto checks = judge(rig, plan);
    for (const char* name : names) {
      EXPECT_NE(named(checks, name).verdict, Verdict::ok) << name;
      EXPECT_FALSE(named(checks, name).assumed.empty()) << name;
    }
  }
}

// The stated end is the weaker one: were the true value of the other lower than our default, it would be that one.
TEST(Strength, IsNotGreenOverADefaultThatAStatedValueHappensToUndercut) {
  const Plan plan = plan_of(full_rig());
  Rig rig = full_rig();
  rig.main.run.near_end.keeps = Stated<double>::by_default(0.9);
  Check dry = named(judge(rig, plan), "main_strength_dry");
  EXPECT_EQ(dry.verdict, Verdict::caution);
  EXPECT_EQ(dry.assumed, std::vector<std::string>{"main.near_end keeps = 90 %"});
  rig = full_rig();
  rig.main.run.far_end.keeps = Stated<double>::by_default(0.9);
  dry = named(judge(rig, plan), "main_strength_dry");
  EXPECT_EQ(dry.assumed, std::vector<std::string>{"main.far_end keeps = 90 %"});
}

/// A main of two webbings, of which the second is the stronger and has a wet strength of ours.
Rig joined_rig() {
  Rig rig = full_rig();
  rig.webbings.push_back(plain_webbing("bank", 0.060, 120e3));
  rig.webbings.back().strength = 80e3;
  rig.main.run.segments = {{0, 20.0}, {2, std::nullopt}};
  rig.main.run.connectors = {{"soft link", 0.1, 0.1, 60e3}};
  return rig;
}

TEST(Strength, CollectsTheWetDefaultsOfEverySegment) {
  Rig rig = joined_rig();
  rig.webbings.back().wet_keeps = Stated<double>::by_default(0.95);
  const auto checks = judge(rig, plan_of(rig));
  const auto has = [&](const char* name) {
    const auto& assumed = named(checks, name).assumed;
    return std::find(assumed.begin(), assumed.end(), "webbing.bank.wet_keeps = 95 %") != assumed.end();
  };
  EXPECT_TRUE(has("main_strength_wet"));
  EXPECT_FALSE(has("main_strength_dry"));
}

TEST(Strength, IsNeverGreenOverJointsThatNobodyGaveAStrength) {
  const Rig rig = joined_rig();
  const auto checks = judge(rig, plan_of(rig));
  for (const char* name : {"main_strength_dry", "main_strength_wet"}) {
    const Check& check = named(checks, name);
    EXPECT_EQ(check.verdict, Verdict::caution) << name;
    EXPECT_EQ(check.assumed, std::vector<std::string>{"main.joints keeps = 50 %"}) << name;
    EXPECT_NE(check.words.find("knot at the joint"), std::string::npos) << check.words;
  }
}

TEST(Strength, IsGreenOverJointsThatWereGivenOne) {
  Rig rig = joined_rig();
  rig.main.run.joint_end = {Stated<EndKind>::given(EndKind::sewn), Stated<double>::given(0.8)};
  const Check check = named(judge(rig, plan_of(rig)), "main_strength_dry");
  EXPECT_EQ(check.verdict, Verdict::ok) << check.words;
  rig.main.run.joint_end.keeps.value = 0.2;
  EXPECT_EQ(named(judge(rig, plan_of(rig)), "main_strength_dry").verdict, Verdict::stop);
}

// A slack backup carries a few newtons: its ratio is in the thousands and says nothing of a main failure.
TEST(Strength, OfAHangingBackupIsNoNumberUnlessItIsTooLow) {
  Rig rig = full_rig();
  const Plan plan = plan_of(rig);
  for (const char* name : {"backup_strength_dry", "backup_strength_wet", "backup_links"}) {
    rig.limits.ratio.value = 3.0;
    const Check open = named(judge(rig, plan), name);
    EXPECT_FALSE(open.computed) << name;
    EXPECT_EQ(open.value, 0.0) << name;
    EXPECT_EQ(open.verdict, Verdict::caution) << name;
    for (const char* part : {" kN", " N ", "while the main holds", "main failure, which `spanloom catch` or the page computes"}) {
      EXPECT_NE(open.words.find(part), std::string::npos) << part << ": " << open.words;
    }
    rig.limits.ratio.value = 1e6;  // more than any backup has
    const Check low = named(judge(rig, plan), name);
    EXPECT_TRUE(low.computed) << name;
    EXPECT_GT(low.value, 100.0) << name;
    EXPECT_EQ(low.verdict, Verdict::stop) << name;
    for (const double side : {-1e-6, 1e-6}) {
      rig.limits.ratio.value = low.value * (1.0 + side);
      EXPECT_EQ(named(judge(rig, plan), name).verdict, side < 0.0 ? Verdict::caution : Verdict::stop) << name;
    }
  }
}

TEST(Judge, IsNotGreenOverASecondPersonOfAssumedWeight) {
  // The rescue loads anchors and webbing most: with its weight assumed, none of these may be ok.
  Rig rig = full_rig();
  rig.walker.rescuer_mass.assumed = true;
  const auto checks = judge(rig, plan_of(rig));
  for (const char* name : {"main_strength_dry", "main_strength_wet", "main_links", "anchor_near", "anchor_far"}) {
    EXPECT_NE(named(checks, name).verdict, Verdict::ok) << name;
  }
}

TEST(Judge, LeavesChecksOpenWhereAnInputIsMissing) {
  Rig rig = full_rig();
  rig.near_anchor.strength.reset();
  rig.main.run.near_hardware.strength.reset();
  rig.site.ground.clear();
  const auto checks = judge(rig, plan_of(rig));
  for (const char* name : {"anchor_near", "line_clearance", "foot_clearance", "hang_clearance", "zone_hang", "edge_distance"}) {
    EXPECT_FALSE(named(checks, name).computed) << name;
    EXPECT_EQ(named(checks, name).verdict, Verdict::caution) << name;
  }
  EXPECT_EQ(named(checks, "main_links").verdict, Verdict::caution);
}

TEST(Judge, KeepsNumbersFiniteAndSpeaksInSentences) {
  for (const bool stated : {true, false}) {
    Rig rig = full_rig();
    if (!stated) {
      rig.site.ground.clear();
      rig.near_anchor = rig.far_anchor = {};
      rig.main.run.near_hardware.strength.reset();
      rig.main.run.far_hardware.strength.reset();
    }
    for (const Check& c : judge(rig, plan_of(rig))) {
      EXPECT_TRUE(std::isfinite(c.value) && std::isfinite(c.limit)) << c.name;
      ASSERT_FALSE(c.words.empty()) << c.name;
      EXPECT_EQ(c.words.back(), '.') << c.name << ": " << c.words;
      EXPECT_FALSE(c.title.empty() || c.unit.empty()) << c.name;
    }
  }
}

// Each verdict flips where its limit passes the value, and nowhere else.
TEST(Judge, FlipsEachVerdictAtItsLimit) {
  const Rig full = full_rig();
  const Plan plan = plan_of(full);
  const auto before = judge(full, plan);
  using Set = std::function<void(Rig&, double)>;
  const Set ratio = [](Rig& r, double v) { r.limits.ratio.value = v; };
  const Set anchor_ratio = [](Rig& r, double v) { r.limits.anchor_ratio.value = v; };
  const Set reserve = [](Rig& r, double v) { r.limits.reserve.value = v; };
  const std::vector<std::pair<const char*, Set>> cases = {
      {"main_strength_dry", ratio}, {"main_strength_wet", ratio}, {"main_links", ratio},
      {"anchor_near", anchor_ratio}, {"anchor_far", anchor_ratio},
      {"line_clearance", reserve}, {"foot_clearance", reserve}, {"hang_clearance", reserve},
      {"least_drop", [](Rig& r, double v) { r.limits.least_drop.value = v; }},
      {"ankle_margin", [](Rig& r, double v) { r.limits.least_ankle_margin.value = v; }},
      {"edge_distance", [](Rig& r, double v) { r.limits.edge_distance.value = v; }},
      {"backup_tension", [](Rig& r, double v) { r.limits.backup_tension.value = v; }},
  };
  for (const auto& [name, set] : cases) {
    const double value = named(before, name).value;
    const bool most = std::string(name) == "backup_tension";
    for (const double side : {-1e-6, 1e-6}) {
      Rig rig = full;
      set(rig, value + side * std::abs(value));
      const bool fine = most ? side > 0.0 : side < 0.0;
      EXPECT_EQ(named(judge(rig, plan), name).verdict, fine ? Verdict::ok : Verdict::stop) << name << " " << side;
    }
  }
}

TEST(Strength, IsWhatTheWeakerEndLeavesOverTheGreatestTension) {
  Rig rig = full_rig();
  rig.main.run.far_end.keeps.value = 0.6;
  const Plan plan = plan_of(rig);
  double greatest = 0.0;
  for (const PieceForce& f : plan.forces) {
    if (!f.on_backup && f.kind == Piece::Kind::webbing) greatest = std::max(greatest, f.tension);
  }
  const auto checks = judge(rig, plan);
  EXPECT_NEAR(named(checks, "main_strength_dry").value, 40e3 * 0.6 / greatest, 1e-9);
  EXPECT_NEAR(named(checks, "main_strength_wet").value, 40e3 * 0.6 * 0.9 / greatest, 1e-9);
  EXPECT_NEAR(named(checks, "main_links").value, 60e3 / greatest, 0.03);  // hardware meets a little less than the steepest webbing
}

TEST(Strength, OfAConnectorCountsThoughItHasNoLength) {
  Rig rig = full_rig();
  rig.main.run.segments = {{0, 20.0}, {0, std::nullopt}};
  rig.main.run.connectors = {{"weak link", 0.1, 0.0, 5e3}};
  const auto checks = judge(rig, plan_of(rig));
  EXPECT_EQ(named(checks, "main_links").verdict, Verdict::stop) << named(checks, "main_links").words;
}

TEST(Anchors, AreJudgedByMainAndBackupTogether) {
  const Rig rig = full_rig();
  const Plan plan = plan_of(rig);
  double greatest = 0.0;
  for (const auto* places : {&plan.walker, &plan.rescue}) {
    for (const WalkerPlace& p : *places) greatest = std::max(greatest, norm(p.near.total()));
  }
  EXPECT_NEAR(named(judge(rig, plan), "anchor_near").value, 45e3 / greatest, 0.002);
}

TEST(MeasuredCurve, WarnsBeyondItsLastPoint) {
  Rig rig = full_rig();
  rig.webbings[0].curve = StretchCurve::from_points({{4500.0, 4500.0 / 120e3}});
  const Check check = named(judge(rig, plan_of(rig)), "measured_curve");
  EXPECT_EQ(check.verdict, Verdict::caution);
  EXPECT_GT(check.value, 1.0);
}

TEST(SpacingPractice, IsSaidToHaveNoSource) {
  Rig rig = full_rig();
  EXPECT_NE(named(judge(rig, plan_of(rig)), "spacing").words.find("no source"), std::string::npos);
  rig.spacing.pattern = EvenBays{10.0};  // 5.7 arm spans
  const Check wide = named(judge(rig, plan_of(rig)), "spacing");
  EXPECT_EQ(wide.verdict, Verdict::caution);
  EXPECT_DOUBLE_EQ(wide.value, 5.0);
}

TEST(Rings, AreReportedFreeAgainstLocked) {
  Rig rig = full_rig();
  rig.backup.joint = Joint::ring;
  EXPECT_EQ(named(judge(rig, plan_of(rig)), "rings").verdict, Verdict::caution);
}

TEST(Worst, IsTheWorstOfAll) {
  std::vector<Check> checks(3);
  EXPECT_EQ(worst(checks), Verdict::ok);
  checks[1].verdict = Verdict::stop;
  checks[2].verdict = Verdict::caution;
  EXPECT_EQ(worst(checks), Verdict::stop);
  EXPECT_EQ(worst({}), Verdict::ok);
}

TEST(Cautions, SayWhereFallsAreComputedUnlessTheReportTellsOfThem) {
  const auto says = [](Falls falls, const char* words) {
    const auto& all = cautions(falls);
    return std::any_of(all.begin(), all.end(), [&](const std::string& one) { return one.find(words) != std::string::npos; });
  };
  EXPECT_TRUE(says(Falls::left_out, "not in this report; `spanloom catch` or the page computes them"));
  EXPECT_FALSE(says(Falls::computed, "spanloom catch"));
  for (const char* open : {"lutter and twist of the webbing", "body hitting the line", "parts a walker from the leash"}) {
    EXPECT_TRUE(says(Falls::computed, open)) << open;
  }
}

TEST(Cautions, SayWhatThisIsNot) {
  ASSERT_GE(cautions().size(), 5u);
  EXPECT_NE(cautions()[0].find("not a certificate"), std::string::npos);
  bool rigger = false, rules = false, gear = false;
  for (const std::string& words : cautions()) {
    EXPECT_EQ(words.back(), '.');
    rigger = rigger || words.find("competent rigger") != std::string::npos;
    rules = rules || words.find("local rules") != std::string::npos;
    gear = gear || words.find("rating") != std::string::npos;
  }
  EXPECT_TRUE(rigger && rules && gear);
}

}  // namespace
}  // namespace spanloom
