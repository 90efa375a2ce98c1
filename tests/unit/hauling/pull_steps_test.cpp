#include "hauling/pull_steps.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "base/input_error.h"
#include "base/units.h"
#include "support/hauling_sample.h"
#include "support/planned.h"

namespace spanloom {
namespace {

using fixture::hauled;

StandingRig stand(const Rig& rig) {
  StandingOutcome out = find_natural_lengths(rig, {});
  if (!out.rig) throw std::runtime_error(out.why.words);
  return std::move(*out.rig);
}

TEST(PullingTensions, AreRoundOnesBetweenTheEnds) {
  EXPECT_EQ(pulling_tensions(400.0, 4500.0, std::nullopt, UnitSystem::metric),
            (std::vector<double>{400, 500, 1000, 1500, 2000, 2500, 3000, 3500, 4000, 4500}));
  EXPECT_EQ(pulling_tensions(300.0, 2500.0, 500.0, UnitSystem::metric),
            (std::vector<double>{300, 500, 1000, 1500, 2000, 2500}));
}

TEST(PullingTensions, AreRoundPoundsForThoseWhoAskForThem) {
  const std::vector<double> out = pulling_tensions(300.0, 2500.0, std::nullopt, UnitSystem::us);
  for (std::size_t i = 1; i + 1 < out.size(); ++i) {
    EXPECT_NEAR(std::remainder(out[i] / units::kPoundForce, 50.0), 0.0, 1e-9) << out[i];
  }
}

TEST(PullingTensions, RiseForAnyPairOfEnds) {
  for (const double from : {1.0, 299.9, 300.0, 5000.0}) {
    for (const double more : {0.01, 1.0, 333.0, 20e3}) {
      const std::vector<double> out = pulling_tensions(from, from + more, std::nullopt, UnitSystem::metric);
      EXPECT_EQ(out.front(), from);
      EXPECT_EQ(out.back(), from + more);
      EXPECT_LE(out.size(), 13u);
      for (std::size_t i = 1; i < out.size(); ++i) EXPECT_GT(out[i], out[i - 1]);
    }
  }
}

TEST(PullingTensions, RefuseStepsThatAreNoneOrTooMany) {
  EXPECT_THROW(pulling_tensions(300.0, 2500.0, 0.0, UnitSystem::metric), InputError);
  EXPECT_THROW(pulling_tensions(300.0, 2500.0, 1.0, UnitSystem::metric), InputError);
}

TEST(PullSteps, EndWhereThePlanSays) {
  for (const Rig& rig : {plain_rig(), short_rig()}) {
    const Plan plan = planned(rig).plan;
    const HaulingReport report = hauled(rig);
    ASSERT_TRUE(plan.pull_through);
    EXPECT_EQ(report.steps.back().pulled, plan.pull_through->length);
    EXPECT_NEAR(report.steps.back().tension_near, plan.standing.tension_near, 1e-6);
    EXPECT_NEAR(report.steps.back().tension_far, plan.standing.tension_far, 1e-6);
    ASSERT_TRUE(plan.standing.ground_clearance);
    EXPECT_NEAR(*report.steps.back().ground_clearance, *plan.standing.ground_clearance, 1e-9);
    EXPECT_NEAR(report.steps.back().sag, plan.standing.sag, 2e-3);  // greatest there, at the middle here
  }
}

TEST(PullSteps, RiseInLengthAndFallInSag) {
  const HaulingReport report = hauled(plain_rig());
  EXPECT_EQ(report.steps.front().pulled, 0.0);
  EXPECT_EQ(report.steps.front().travel, 0.0);
  for (std::size_t i = 1; i < report.steps.size(); ++i) {
    EXPECT_GT(report.steps[i].pulled, report.steps[i - 1].pulled);
    EXPECT_LT(report.steps[i].sag, report.steps[i - 1].sag);
    EXPECT_GT(*report.steps[i].ground_clearance, *report.steps[i - 1].ground_clearance);
    EXPECT_GT(report.steps[i].travel, report.steps[i].pulled);  // it is stretched
  }
}

TEST(PullSteps, DoNotDependOnHowManyThereAre) {
  const HaulingReport few = hauled(plain_rig()), many = hauled(plain_rig(), {.step = 50.0});
  EXPECT_EQ(few.steps.back().pulled, many.steps.back().pulled);
  const double stretch = many.steps.back().travel - many.steps.back().pulled;
  EXPECT_NEAR(few.steps.back().travel - few.steps.back().pulled, stretch, 0.02 * stretch);
}

TEST(PullSteps, StartFromWhatTheLengthsGive) {
  const Planned as_asked = planned(plain_rig());
  Rig rig = plain_rig();
  rig.main.run.segments[0].natural_length = as_asked.plan.rigged.main_segment_length[0];
  rig.main.tension.reset();
  const HaulingReport report = hauled(rig);
  EXPECT_NEAR(report.standing, 4000.0, 0.5);
  EXPECT_NEAR(report.steps.back().pulled, as_asked.plan.pull_through->length, 1e-3);
}

TEST(PullSteps, AreEmptyWhereNoLineHangs) {
  const StandingRig standing = stand(plain_rig());
  EXPECT_FALSE(pull_steps(plain_rig(), standing, {1.0, 4000.0}));
}

TEST(SagAtMiddle, IsCountedFromTheSlopingLineBetweenTheAnchors) {
  Rig rig = plain_rig();
  rig.site.gap = 10.0;
  rig.site.rise = 2.0;
  Shape shape;
  shape.main = {{{0, 0, 0}, {4, 0, 0.0}}, {{4, 0, 0.0}, {8, 0, 1.0}, {10, 0, 2.0}}};
  EXPECT_NEAR(sag_at_middle(rig, shape), 1.0 - 0.25, 1e-12);
}

}  // namespace
}  // namespace spanloom
