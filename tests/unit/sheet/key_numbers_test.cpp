#include "sheet/key_numbers.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "plan_fixture.h"

namespace spanloom {
namespace {

KeyNumber find(const std::vector<KeyNumber>& numbers, const std::string& label) {
  const auto at = std::find_if(numbers.begin(), numbers.end(),
                               [&](const KeyNumber& n) { return n.label == label; });
  return at == numbers.end() ? KeyNumber{} : *at;
}

TEST(KeyNumbers, HoldEverythingTheFrontPageOwes) {
  const auto [rig, plan, checks] = fixture::sample();
  const std::vector<KeyNumber> numbers = key_numbers(rig, plan, UnitSystem::metric);
  for (const char* label :
       {"Gap", "Standing tension", "Pull through from hand-tight", "Main, end to end", "Backup, end to end",
        "Sag, standing", "Sag, with the walker", "Most tension, one walker", "Near anchor load", "Far anchor load",
        "Least ground clearance", "Least ankle margin"}) {
    EXPECT_FALSE(find(numbers, label).value.empty()) << label;
  }
  EXPECT_EQ(find(numbers, "Gap").value, "62.00 m");
  EXPECT_EQ(find(numbers, "Gap").note, "far anchor 1.50 m lower");
  EXPECT_EQ(find(numbers, "Standing tension").value, "4.50 kN");
}

TEST(KeyNumbers, DoNotInventAClearanceWithoutAGround) {
  const auto [rig, plan, checks] = fixture::sample({.ground_depth = 0.0});
  EXPECT_EQ(find(key_numbers(rig, plan, UnitSystem::metric), "Least ground clearance").value, "not known");
}

TEST(KeyNumbers, SayWhyThereIsNothingToPullThrough) {
  auto [rig, plan, checks] = fixture::sample();
  plan.pull_through.reset();
  const auto note = [&] { return find(key_numbers(rig, plan, UnitSystem::metric), "Pull through from hand-tight").note; };
  EXPECT_EQ(note(), "no such state was found, see the notes");
  rig.main.tension.reset();
  EXPECT_EQ(note(), "the file gives the main's lengths");
}

TEST(KeyNumbers, SayAHardlyVisibleSagInSmallUnits) {
  auto [rig, plan, checks] = fixture::sample();
  plan.standing.sag = 0.012;
  EXPECT_EQ(find(key_numbers(rig, plan, UnitSystem::metric), "Sag, standing").value, "12 mm");
}

TEST(KeyNumbers, PutTwoPeopleBesideTheTensionOfOne) {
  auto [rig, plan, checks] = fixture::sample();
  plan.rescue[3].tension_max = 9123.0;
  const KeyNumber tension = find(key_numbers(rig, plan, UnitSystem::metric), "Most tension, one walker");
  EXPECT_NE(tension.value, "9.12 kN");
  EXPECT_NE(tension.note.find("two people 9.12 kN"), std::string::npos) << tension.note;
}

TEST(KeyNumbers, SayThatTheLengthOfSegmentsIsWhatIsCut) {
  const auto [rig, plan, checks] = fixture::sample({.main_segments = 2});
  const std::string note = find(key_numbers(rig, plan, UnitSystem::metric), "Main, end to end").note;
  EXPECT_EQ(note.find("unloaded; 2 segments, cut "), 0u) << note;
}

TEST(KeyNumbers, CountTheLockedRingsIntoTheGreatestTension) {
  auto [rig, plan, checks] = fixture::sample({.joint = Joint::ring});
  plan.walker_other_joint = {plan.walker.front()};
  plan.walker_other_joint[0].tension_max = 9e3;
  const Peak peak = greatest_walker_tension(plan, UnitSystem::metric);
  EXPECT_EQ(peak.value, 9e3);
  EXPECT_NE(peak.state.find("rings locked"), std::string::npos);
}

TEST(KeyNumbers, LeaveBodiesInTheAnchorZonesOutOfTheClearance) {
  auto [rig, plan, checks] = fixture::sample();
  for (auto* places : {&plan.walker, &plan.rescue}) {
    for (WalkerPlace& place : *places) place.line_clearance.reset();
  }
  rig.site.ground.clear();  // so that only the places themselves count
  const auto least = least_ground_clearance(rig, plan, UnitSystem::metric);
  ASSERT_TRUE(least);
  double expected = *plan.standing.ground_clearance;
  for (const WalkerPlace& place : plan.walker) {
    if (!place.in_anchor_zone) expected = std::min(expected, *place.hang_clearance);
  }
  EXPECT_EQ(least->value, expected);
}

TEST(VerdictCounts, CountEachVerdict) {
  EXPECT_EQ(verdict_counts(fixture::sample().checks), "1 stop, 2 caution, 1 ok");
}

}  // namespace
}  // namespace spanloom
