// What a search found is planned like any rig before it is shown.
#include "spacing/layout_proof.h"

#include <gtest/gtest.h>

#include "support/judged.h"
#include "support/planned.h"
#include "support/short_rig.h"

namespace spanloom {
namespace {

std::vector<Check> checks_of(const Planned& line) { return judge(line.rig, line.plan, UnitSystem::metric); }

std::optional<ProvenLayout> prove(const Planned& line, const Layout& layout, double most_backup_tension = 1e6) {
  return prove_layout(line.rig, layout, checks_of(line), most_backup_tension, UnitSystem::metric);
}

bool tells_of(const ProvenLayout& proven, const std::string& check) {
  const std::string title = named(proven.checks, check).title;
  for (const std::string& sentence : proven.breaks) {
    if (sentence.rfind(title, 0) == 0) return true;
  }
  return false;
}

TEST(ProvenLayout, OfTheRigAsItIsBreaksNothing) {
  const Planned line = planned(short_rig());
  const auto proven = prove(line, layout_of(line.plan));
  ASSERT_TRUE(proven);
  EXPECT_TRUE(proven->breaks.empty()) << proven->breaks.front();
  ASSERT_EQ(proven->plan.bays.size(), line.plan.bays.size());
  for (std::size_t k = 0; k < line.plan.bays.size(); ++k) EXPECT_NEAR(proven->plan.bays[k].drop, line.plan.bays[k].drop, 1e-4);
}

TEST(ProvenLayout, SaysWhichLimitOfTheRigItBreaks) {
  const Planned line = planned(short_rig());
  Layout shallow = layout_of(line.plan);
  shallow.slack[4] = 0.001;  // a drop of 35 mm
  const auto proven = prove(line, shallow);
  ASSERT_TRUE(proven);
  EXPECT_TRUE(tells_of(*proven, "least_drop"));
  EXPECT_TRUE(tells_of(*proven, "ankle_margin"));
}

TEST(ProvenLayout, HoldsToTheBackupTensionThatIsAskedForWhereItIsLess) {
  Rig rig = short_rig();
  rig.limits.backup_tension.value = 400.0;  // 321 N in the plan
  const Planned line = planned(rig);
  const Layout own = layout_of(line.plan);
  const auto loose = prove(line, own), tight = prove(line, own, 300.0);
  ASSERT_TRUE(loose && tight);
  EXPECT_FALSE(tells_of(*loose, "backup_tension"));
  EXPECT_TRUE(tells_of(*tight, "backup_tension"));
  EXPECT_EQ(tight->rig.limits.backup_tension.value, line.rig.limits.backup_tension.value);
}

// Least drop of 0.5 m: the rig stops at it already.
TEST(ProvenLayout, IsNotHeldToALimitThatTheRigItselfBreaksUnlessItIsFurtherFromIt) {
  Rig rig = short_rig();
  rig.limits.least_drop.value = 0.5;
  const Planned line = planned(rig);
  ASSERT_EQ(named(checks_of(line), "least_drop").verdict, Verdict::stop);
  Layout layout = layout_of(line.plan);
  const auto same = prove(line, layout);
  ASSERT_TRUE(same);
  EXPECT_FALSE(tells_of(*same, "least_drop"));
  for (double& slack : layout.slack) slack *= 1.5;
  EXPECT_FALSE(tells_of(*prove(line, layout), "least_drop"));
  layout.slack[3] *= 0.5;
  EXPECT_TRUE(tells_of(*prove(line, layout), "least_drop"));
}

TEST(ProvenLayout, IsNoneWhereTheRigTapedSoHasNoPlan) {
  const Planned line = planned(short_rig());
  Layout layout = layout_of(line.plan);
  layout.bays[0] += 2.0;  // the last tape beyond the main
  EXPECT_FALSE(prove(line, layout));
}

}  // namespace
}  // namespace spanloom
