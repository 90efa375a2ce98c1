#include "statics/natural_lengths.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/constants.h"
#include "base/input_error.h"
#include "statics/loop_geometry.h"
#include "support/plain_rig.h"

namespace spanloom {
namespace {

StandingRig stand(const Rig& rig, const MeshOptions& options = {}) {
  StandingOutcome out = find_natural_lengths(rig, options);
  if (!out.rig) throw std::runtime_error(out.why.words);
  EXPECT_TRUE(out.rig->standing.certified());
  return std::move(*out.rig);
}

double tension(const StandingRig& r) { return norm(r.standing.near_force.front()); }

void expect_as_asked(const Rig& rig, const StandingRig& r) {
  EXPECT_NEAR(tension(r) / *rig.main.tension, 1.0, 1e-9);
  EquilibriumSolver solver(r.mesh.line);
  const Shape shape = solver.shape(r.standing);
  for (std::size_t k = 0; k < r.rigged.bays(); ++k) {
    if (const auto* a = std::get_if<LoopDrop>(&rig.backup.amount)) {
      EXPECT_NEAR(loop_drop(shape.main[k], shape.loop[k]), a->of_bay.size() == 1 ? a->of_bay[0] : a->of_bay[k], 1e-6) << k;
    }
    if (const auto* a = std::get_if<SlackShare>(&rig.backup.amount)) {
      const double main = solver.chains().stretched_length(2 * k, r.standing.near_force[2 * k]);
      EXPECT_NEAR(r.rigged.loop_length[k] / main - 1.0, a->of_bay.size() == 1 ? a->of_bay[0] : a->of_bay[k], 1e-9) << k;
    }
  }
}

TEST(NaturalLengths, GiveTheAskedTensionAndSlack) {
  const Rig rig = plain_rig();
  expect_as_asked(rig, stand(rig));
}

TEST(NaturalLengths, GiveTheAskedDropOfEveryBay) {
  Rig rig = plain_rig();
  rig.backup.amount = LoopDrop{{0.15}};
  const std::size_t bays = stand(rig).rigged.bays();
  expect_as_asked(rig, stand(rig));
  LoopDrop each;
  for (std::size_t k = 0; k < bays; ++k) each.of_bay.push_back(0.10 + 0.02 * double(k));
  rig.backup.amount = each;
  expect_as_asked(rig, stand(rig));
}

TEST(NaturalLengths, HoldOnASteepLine) {
  Rig rig = plain_rig();
  rig.site.rise = 50.0;
  rig.backup.amount = LoopDrop{{0.2}};
  expect_as_asked(rig, stand(rig));
}

TEST(NaturalLengths, OfALoopFollowMainStretchTimesSlack) {
  // The number riggers get wrong: main natural x (1 + stretch) x (1 + slack). A line of 10 N of sag weight
  // in 4000 N stretches within 1e-4 of 4000 / 120e3.
  const Rig rig = plain_rig();
  const StandingRig r = stand(rig);
  const double bay = r.rigged.tape_s[5] - r.rigged.tape_s[4];
  EXPECT_NEAR(r.rigged.loop_length[5] / (bay * (1.0 + 4000.0 / 120e3) * 1.012), 1.0, 1e-4);
}

TEST(NaturalLengths, OfAShallowLoopAreTheParabolasEightThirds) {
  // Weight 0.49 N/m over 4.85 x (1 + e) = 5.01 m at drop 0.15 m pulls the loop with about 10 N: it stretches by
  // 0.012 %, which is part of what hangs. The rest of the series is (d/l)^2 = 0.1 % of the extra length.
  Rig rig = plain_rig();
  rig.webbings[1] = plain_webbing("brook", 0.050, 50e6);
  rig.backup.amount = LoopDrop{{0.15}};
  const StandingRig r = stand(rig, {16, 64});
  const double span = r.standing.tapes[5].x - r.standing.tapes[4].x;
  const double chord = norm(r.standing.tapes[5] - r.standing.tapes[4]);
  const double extra = r.rigged.loop_length[4] - chord;
  // The main sags by w l^2 / 8 T = 0.5 mm in a bay itself, and the drop is from there: 0.3 % of the drop.
  const double own = 0.060 / (1.0 + 4000.0 / 120e3) * kGravity * span * span / (8.0 * 4000.0);
  EXPECT_NEAR(extra / (8.0 * std::pow(0.15 + own, 2) / (3.0 * span)), 1.0, 3e-3);
}

TEST(NaturalLengths, SettleWithTheMeshAtSecondOrder) {
  Rig rig = plain_rig();
  rig.backup.amount = LoopDrop{{0.15}};
  const auto loop = [&](int bars) { return stand(rig, {bars, bars}).rigged.loop_length[5]; };
  const double coarse = loop(8) - loop(64), fine = loop(16) - loop(64);
  EXPECT_LT(std::abs(fine), 2e-4);
  EXPECT_NEAR(coarse / fine, (64.0 - 1.0) / (16.0 - 1.0), 0.15);  // h^2 against a reference at 64 bars
}

TEST(NaturalLengths, KeepGivenSegmentsAndHardware) {
  Rig rig = plain_rig();
  rig.main.run.segments = {{0, 20.0}, {1, 10.0}, {0, std::nullopt}};
  rig.main.run.connectors = {{"a", 0.2, 0.1, {}}, {"b", 0.3, 0.0, {}}};
  rig.main.run.near_hardware = {"near", 2.0, 1.0, {}};
  rig.backup.run.segments = {{1, 22.0}, {0, std::nullopt}};
  rig.backup.run.connectors = {{"c", 0.1, 0.1, {}}};
  rig.backup.run.near_hardware = {"bn", 0.5, 0.6, {}};
  rig.backup.run.far_hardware = {"bf", 0.3, 0.2, {}};
  const StandingRig r = stand(rig);
  expect_as_asked(rig, r);
  EXPECT_EQ(r.rigged.main_segment_length[0], 20.0);
  EXPECT_EQ(r.rigged.main_segment_length[1], 10.0);
  EXPECT_EQ(r.rigged.backup_segment_length[0], 22.0);
  double loops = 0.0;
  for (double l : r.rigged.loop_length) loops += l;
  EXPECT_NEAR(loops, 0.6 + 22.0 + 0.1 + r.rigged.backup_segment_length[1] + 0.2, 1e-9);
  // The main reaches across: its stretched length is a little more than the gap.
  EquilibriumSolver solver(r.mesh.line);
  double stretched = 0.0;
  for (std::size_t k = 0; k < r.rigged.bays(); ++k) {
    stretched += solver.chains().stretched_length(2 * k, r.standing.near_force[2 * k]);
  }
  EXPECT_NEAR(stretched, 50.0, 0.05);
  EXPECT_GT(stretched, 50.0);
}

TEST(NaturalLengths, MayBeGiven) {
  Rig rig = plain_rig();
  const double wanted = main_webbing_length(rig, stand(rig).rigged);
  rig.main.tension.reset();
  rig.main.run.segments[0].natural_length = wanted;
  EXPECT_NEAR(tension(stand(rig)), 4000.0, 1.0);  // tapes are laid out anew, so bays differ by millimetres
}

TEST(NaturalLengths, SayWhenTheTensionIsAboveTheStrength) {
  Rig rig = plain_rig();
  rig.main.tension = 41e3;
  const StandingOutcome out = find_natural_lengths(rig, {});
  ASSERT_FALSE(out.rig);
  EXPECT_FALSE(out.why.no_certificate);
  EXPECT_NE(out.why.words.find("41.00 kN"), std::string::npos) << out.why.words;
}

TEST(NaturalLengths, SayWhenTheMainIsTooShortForItsStrength) {
  Rig rig = plain_rig();
  rig.main.tension.reset();
  rig.main.run.segments[0].natural_length = 36.0;  // 39 % of stretch; 33 % break it
  const StandingOutcome out = find_natural_lengths(rig, {});
  ASSERT_FALSE(out.rig);
  EXPECT_FALSE(out.why.no_certificate);
  EXPECT_NE(out.why.words.find("cannot reach across"), std::string::npos) << out.why.words;
}

TEST(NaturalLengths, SayWhenTheBackupIsPulledTaut) {
  Rig rig = plain_rig();
  rig.backup.amount = SlackShare{{-0.02}};
  const StandingOutcome out = find_natural_lengths(rig, {});
  ASSERT_FALSE(out.rig);
  EXPECT_FALSE(out.why.no_certificate);
  EXPECT_NE(out.why.words.find("taut"), std::string::npos) << out.why.words;
  rig.backup.amount = LoopDrop{{0.002}};  // 20 kN of pull would be needed for so little sag
  const StandingOutcome drop = find_natural_lengths(rig, {});
  ASSERT_FALSE(drop.rig);
  EXPECT_NE(drop.why.words.find("taut"), std::string::npos) << drop.why.words;
}

TEST(NaturalLengths, RefuseAListThatDoesNotFitTheBays) {
  Rig rig = plain_rig();
  rig.backup.amount = SlackShare{{0.01, 0.02, 0.03}};
  EXPECT_THROW((void)find_natural_lengths(rig, {}), InputError);
}

TEST(Slacken, PullsThroughWhatStretchAndSagTake) {
  // By hand, the main alone as a parabola under main and loops (q per standing metre of gap):
  // natural length = gap (1 + (q gap)^2 / 24 H^2) / (1 + H / EA), at 4000 N less at 500 N.
  Rig rig = plain_rig();
  const StandingRig r = stand(rig);
  const auto hand = slacken(r, 500.0);
  ASSERT_TRUE(hand);
  EXPECT_NEAR(norm(hand->line.near_force.front()), 500.0, 1e-6);
  const auto natural = [&](double at) {
    const double h = std::sqrt(at * at - std::pow(0.5 * 1.06 * 50.0, 2));  // half the weight hangs on each end
    const double q = kGravity * (main_webbing_length(rig, r.rigged) * 0.060 + backup_webbing_length(rig, r.rigged) * 0.050) / 50.0;
    return 50.0 * (1.0 + std::pow(q * 50.0 / h, 2) / 24.0) / (1.0 + h / 120e3);
  };
  const double by_hand = natural(500.0) - natural(4000.0);
  EXPECT_NEAR(hand->length / by_hand, 1.0, 0.02);  // loops hand over a little of their pull
  EXPECT_GT(by_hand, 1.0);
}

}  // namespace
}  // namespace spanloom
