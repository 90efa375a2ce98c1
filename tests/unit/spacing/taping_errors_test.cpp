#include "spacing/taping_errors.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "base/input_error.h"
#include "support/planned.h"
#include "support/short_rig.h"

namespace spanloom {
namespace {

struct Line {
  Planned line = planned(short_rig());
  LayoutJudge judge{line.rig, line.plan};
  Layout layout = layout_of(line.plan);
  std::vector<double> loops = *judge.loop_lengths(layout);
};

double sum(const std::vector<double>& lengths) { return std::accumulate(lengths.begin(), lengths.end(), 0.0); }

TEST(TapedBy, WithoutErrorsIsTheLineAsPlanned) {
  const Line line;
  const TapedLine taped = taped_by(3, line.layout, line.loops, {0.0, 0.0}, 1);
  ASSERT_EQ(taped.bays.size(), line.layout.bays.size());
  for (std::size_t k = 0; k < taped.bays.size(); ++k) {
    EXPECT_NEAR(taped.bays[k], line.layout.bays[k], 1e-9);
    EXPECT_NEAR(taped.loops[k], line.loops[k], 2e-5);  // bays at the anchors stretch a hair more
  }
}

TEST(TapedBy, TapesTheWholeMainWithinTheErrors) {
  const Line line;
  const TapingErrors errors{0.05, 0.01};
  std::size_t fewer = 0, more = 0;
  for (std::size_t crew = 0; crew < 200; ++crew) {
    const TapedLine taped = taped_by(crew, line.layout, line.loops, errors, 9);
    ASSERT_EQ(taped.bays.size(), taped.loops.size());
    EXPECT_NEAR(sum(taped.bays), sum(line.layout.bays), 1e-9);
    const double span = taped.bays.front() / line.layout.bays.front();
    EXPECT_NEAR(span, 1.0, 0.05 + 1e-12);
    const std::size_t n = taped.bays.size();
    for (std::size_t k = 0; k + 1 < n; ++k) EXPECT_NEAR(taped.bays[k], span * line.layout.bays[std::min<std::size_t>(k, 7)], 1e-9);
    EXPECT_GT(taped.bays.back(), 0.4 * line.layout.bays.back());
    EXPECT_LT(taped.bays.back(), 1.6 * line.layout.bays.back());
    for (std::size_t k = 0; k < n; ++k) {
      const double per_metre = taped.loops[k] / taped.bays[k] / (line.loops[4] / line.layout.bays[4]);
      EXPECT_NEAR(per_metre, 1.0, 0.0105) << crew << " " << k;
    }
    fewer += n < line.layout.bays.size() ? 1 : 0;
    more += n > line.layout.bays.size() ? 1 : 0;
  }
  // Nine bays of 5 % are less than half a bay: most crews tape as many as planned.
  EXPECT_LT(fewer + more, 100u);
}

// Twenty bays and an arm span 5 % short: a whole bay is left over, and the crew tapes it.
TEST(TapedBy, PutsATapeMoreInWhereArmSpansFallShort) {
  const Layout layout{std::vector<double>(20, 1.5), std::vector<double>(20, 0.01)};
  const std::vector<double> loops(20, 1.5 * 1.03);
  std::size_t fewer = 0, more = 0;
  for (std::size_t crew = 0; crew < 200; ++crew) {
    const TapedLine taped = taped_by(crew, layout, loops, {}, 2);
    const double span = taped.bays.front() / 1.5;
    if (span > 1.03) { EXPECT_LE(taped.bays.size(), 20u); }
    if (span < 0.97) { EXPECT_GE(taped.bays.size(), 20u); }
    fewer += taped.bays.size() < 20 ? 1 : 0;
    more += taped.bays.size() > 20 ? 1 : 0;
  }
  EXPECT_GT(fewer, 0u);
  EXPECT_GT(more, 0u);
}

TEST(TapedBy, DrawsTheSameForACrewWhoeverAsksAndAnotherForAnother) {
  const Line line;
  const TapedLine once = taped_by(5, line.layout, line.loops, {}, 1);
  (void)taped_by(6, line.layout, line.loops, {}, 1);
  EXPECT_EQ(once.bays, taped_by(5, line.layout, line.loops, {}, 1).bays);
  EXPECT_EQ(once.loops, taped_by(5, line.layout, line.loops, {}, 1).loops);
  EXPECT_NE(once.loops, taped_by(6, line.layout, line.loops, {}, 1).loops);
  EXPECT_NE(once.loops, taped_by(5, line.layout, line.loops, {}, 2).loops);
}

TEST(ReturnAsTaped, WithoutErrorsIsTheReturnOfTheLayout) {
  Line line;
  const double own = line.judge.judge(line.layout)->return_mean;
  const auto taped = return_as_taped(line.judge, line.layout, {0.0, 0.0}, 3, 1);
  ASSERT_TRUE(taped);
  EXPECT_EQ(taped->samples, 3u);
  EXPECT_NEAR(taped->mean, own, 1e-3);
  EXPECT_NEAR(taped->p95, own, 1e-3);
}

TEST(ReturnAsTaped, IsTheSameForTheSameSeedAndMostlyBelowItsNinetyFifthPart) {
  Line line;
  const auto a = return_as_taped(line.judge, line.layout, {}, 40, 7), b = return_as_taped(line.judge, line.layout, {}, 40, 7);
  ASSERT_TRUE(a && b);
  EXPECT_EQ(a->mean, b->mean);
  EXPECT_EQ(a->p95, b->p95);
  EXPECT_GE(a->p95, a->mean);
  EXPECT_EQ(a->samples + a->taut, 40u);
  EXPECT_THROW((void)return_as_taped(line.judge, line.layout, {}, 0, 7), InputError);
}

TEST(ReturnAsTaped, OfAnEvenLineIsLowerThanPlannedSinceErrorsMakeItsDropsDiffer) {
  Line line;  // even bays, equal drops: 1 % of a loop is nearly its slack, so its drop goes from a third to one and a half
  const double own = line.judge.judge(line.layout)->return_mean;
  const auto taped = return_as_taped(line.judge, line.layout, {0.0, 0.008}, 40, 3);
  ASSERT_TRUE(taped);
  EXPECT_LT(taped->mean, own);
}

TEST(AsTaped, CountsTautLinesApartAndPutsOneInTwentyAboveTheNinetyFifthPart) {
  std::vector<std::optional<double>> crews;
  for (int i = 20; i >= 1; --i) crews.push_back(0.01 * i);
  crews.insert(crews.begin() + 7, 3, std::nullopt);
  const ReturnAsTaped taped = as_taped(crews);
  EXPECT_EQ(taped.samples, 20u);
  EXPECT_EQ(taped.taut, 3u);
  EXPECT_NEAR(taped.mean, 0.105, 1e-12);
  EXPECT_NEAR(taped.p95, 0.19, 1e-12);
  EXPECT_EQ(as_taped({std::nullopt}).samples, 0u);
}

// Shallow loop: extra length 8 d^2 / (3 l), so a length more makes the drop grow by 3 l / (16 d).
TEST(TouchOfBays, DeepensALoopAsTheShallowRuleSays) {
  Line line;
  const auto touches = touch_of_bays(line.judge, line.layout);
  ASSERT_TRUE(touches);
  const std::vector<PlanBay>& bays = line.line.plan.bays;
  for (std::size_t k = 1; k + 1 < bays.size(); ++k) {
    const double by_rule = 3.0 * bays[k].main_standing / (16.0 * bays[k].drop) * kTouch;
    EXPECT_NEAR((*touches)[k].drop, by_rule, 0.15 * by_rule) << k;  // 10 mm are a third of the extra length
    EXPECT_GT((*touches)[k].ankle_margin, 0.0);
  }
}

}  // namespace
}  // namespace spanloom
