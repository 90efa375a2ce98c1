// Even bays with equal drops put every loop at one frequency, f = sqrt(1.2337 g / d) / 2 pi, that of a loop swinging sideways
// (pi^2 / 8 is 1.2337). What a search that may differ the slack alone makes of the same tapes, and what one tape taken out does.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "base/constants.h"
#include "spacing/layout_search.h"
#include "spacing/moved_return.h"
#include "support/planned.h"
#include "support/short_rig.h"

namespace spanloom {
namespace {

// The rig with an arm span that goes `bays` times into its main: even to the last bay.
Planned evenly_taped_rig(Rig rig, std::size_t bays) {
  rig.spacing.pattern = RepeatArmSpans{{2.0}};
  double length = 0.0;
  for (const PlanBay& bay : planned(rig).plan.bays) length += bay.main_natural;
  rig.spacing.arm_span = Stated<double>::given(length / double(bays));
  rig.spacing.pattern = RepeatArmSpans{{1.0}};
  rig.backup.amount = SlackShare{{kShortSlack}};
  return planned(std::move(rig));
}

struct EvenLine {
  std::string name;
  Planned line;
};

std::vector<EvenLine> even_lines() {
  return {{"16 m", evenly_taped_rig(short_rig(), 9)}, {"30 m", evenly_taped_rig(plain_rig_of(30.0), 14)},
          {"60 m", evenly_taped_rig(plain_rig_of(60.0), 22)}};
}

double small_cost(const ReturnOver& small) { return small.mean + 0.25 * small.worst; }

TEST(EvenBays, WithEqualDropsNeverRankAboveTheSameTapesWithSlackLeftFree) {
  for (const auto& [name, line] : even_lines()) {
    const Layout even = layout_of(line.plan);
    double drop = 0.0;
    for (std::size_t k = 0; k < even.bays.size(); ++k) {
      ASSERT_NEAR(even.bays[k], even.bays[0], 1e-3) << name;
      ASSERT_NEAR(line.plan.bays[k].drop, line.plan.bays[0].drop, 2e-3) << name;
      drop = line.plan.bays[k].drop;
    }
    const double frequency = std::sqrt(1.2337 * kGravity / drop) / (2.0 * std::numbers::pi);
    ASSERT_GT(frequency, 0.5);
    ASSERT_LT(frequency, 4.0);
    SearchOptions options;
    options.island.bounds = usual_bounds(line.rig, line.plan);
    options.island.bounds.shortest = options.island.bounds.longest = 2;
    options.islands = 4;
    const SearchResult found = search_layouts(line.rig, line.plan, nullptr, options);
    const FoundLayout& best = *found.pool.best();
    EXPECT_EQ(best.broken, 0.0) << name;
    EXPECT_EQ(best.layout.bays.size(), even.bays.size()) << name;
    // Against the even line with the best single slack of the same bounds.
    LayoutJudge judge(line.rig, line.plan);
    const LimitRules rules(line.rig, line.plan, options.island.bounds);
    double least = INFINITY;
    for (double slack = options.island.bounds.least_slack; slack < options.island.bounds.most_slack + 1e-9; slack += 0.001) {
      const Layout one{even.bays, std::vector<double>(even.bays.size(), slack)};
      const auto score = judge.judge(one);
      if (score && rules.broken(one, *score) == 0.0) least = std::min(least, small_cost({score->return_mean, score->return_worst}));
    }
    EXPECT_LT(small_cost(best.small), least) << name;
    RecordProperty(name, std::to_string(small_cost(best.small)) + " for " + std::to_string(least));
  }
}

// One tape taken out, the pieces of backup as they were cut.
TapedLine without_tape(const Layout& layout, std::vector<double> loops, std::size_t tape) {
  TapedLine taped{layout.bays, std::move(loops)};
  for (std::vector<double>* of : {&taped.bays, &taped.loops}) {
    (*of)[tape] += (*of)[tape + 1];
    of->erase(of->begin() + std::ptrdiff_t(tape) + 1);
  }
  return taped;
}

// Common practice, no source. Three tapes about the middle; near an anchor it is not so: 0.252 for 0.250 of full-size shakes
// on 16 m without the last tape, 0.464 for 0.428 on 60 m without the second. In small motion 16 m of line know no difference.
TEST(EvenBays, ReturnLessWithATapeAboutTheMiddleTakenOut) {
  for (const auto& [name, line] : even_lines()) {
    const Layout even = layout_of(line.plan);
    LayoutJudge judge(line.rig, line.plan);
    const std::vector<double> loops = *judge.loop_lengths(even);
    const double own = judge.judge(even)->return_mean;
    const MovedJudge moved(line.rig);
    const auto own_line = moved.line(even);
    ASSERT_TRUE(own_line) << name;
    const double shaken = moved.shake(*own_line, ShakeSet::fast).mean;
    const std::size_t middle = (even.bays.size() - 1) / 2;
    for (const std::size_t tape : {middle - 1, middle, middle + 1}) {
      const TapedLine out = without_tape(even, loops, tape);
      const auto out_line = moved.line(out);
      const auto small = judge.judge_as_cut(out.bays, out.loops);
      ASSERT_TRUE(out_line && small) << name;
      EXPECT_LT(moved.shake(*out_line, ShakeSet::fast).mean, 0.95 * shaken) << name << ", tape " << tape + 1;
      if (name == "16 m") {
        EXPECT_NEAR(small->return_mean, own, 0.02 * own) << tape + 1;
      } else {
        EXPECT_LT(small->return_mean, 0.95 * own) << name << ", tape " << tape + 1;
      }
    }
  }
}

}  // namespace
}  // namespace spanloom
