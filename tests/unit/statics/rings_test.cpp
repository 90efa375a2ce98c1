#include "statics/rings.h"

#include <gtest/gtest.h>

#include <cmath>

#include "line/hang.h"
#include "statics/natural_lengths.h"
#include "statics/plan.h"
#include "statics/ring_chain.h"
#include "support/plain_rig.h"

namespace spanloom {
namespace {

// A loop between fixed ends whose length may change: its energy and ends' loads, hung afresh.
struct OneLoop {
  Mesh mesh;
  std::size_t chain;
  Vec3 near, far;

  struct At { double energy; Vec3 force; LengthDerivatives by; };
  At at(double by) const {
    Mesh longer = mesh;
    lengthen(longer, chain, -1, by);
    const ChainSet chains(longer.line);
    const Vec3 reach = far - near;
    const Vec3 guess = guess_near_force(reach, chains.natural_length(chain), chains.inner_load(chain), 80e3);
    const Vec3 f = hang_chain(chains, chain, reach, guess, 1e-14).force;
    // Height of the weights at the two ends, which move with the length as well.
    const ChainRange range = longer.line.chains[chain];
    const auto half = [&](std::size_t bar) { return -0.5 * longer.line.length[bar] * longer.mass_per_length[bar] * 9.80665; };
    const double ends = half(range.first) * near.z + half(range.first + range.count - 1) * far.z;
    return {dot(f, reach) - chains.coenergy(chain, f) - dot(chains.inner_load(chain), far) - ends, f,
            length_derivatives(longer, longer.line, chain, f, near, far, chains.trace_squared(chain))};
  }
};

OneLoop one_loop(double slack, double rise) {
  Rig rig = plain_rig();
  Rigged rigged;
  rigged.main_segment_length = {12.0};
  rigged.tape_s = {4.0, 8.0};
  rigged.loop_length = {4.0 * (1 + slack), 4.0 * (1 + slack), 4.0 * (1 + slack)};
  rigged.backup_segment_length = {12.0 * (1 + slack)};
  return {cut_line(rig, rigged, {4, 9}), 3, {4.0, 0.1, 0.0}, {7.9, 0.0, rise}};
}

TEST(LengthDerivatives, AreTheSlopeAndCurvatureOfTheEnergy) {
  for (double slack : {0.002, 0.05, 0.5}) {
    for (double rise : {0.0, 1.5}) {
      const OneLoop loop = one_loop(slack, rise);
      const double h = 1e-4;
      const auto up = loop.at(h), down = loop.at(-h), here = loop.at(0.0);
      const double slope = (up.energy - down.energy) / (2.0 * h);
      EXPECT_NEAR(here.by.slope, slope, 1e-4 * std::abs(slope) + 1e-6) << slack << " " << rise;
      // Second derivative with the ends held: curvature at held force, and the force's own change.
      const ChainSet chains(loop.mesh.line);
      const Sym3 k = inverse(chains.evaluate(loop.chain, here.force).compliance);
      const double second = here.by.curvature + dot(here.by.reach_rate, k * here.by.reach_rate);
      const double differenced = (up.by.slope - down.by.slope) / (2.0 * h);
      EXPECT_NEAR(second, differenced, 2e-4 * std::abs(differenced) + 1e-5) << slack << " " << rise;
      // How the pull on the near end changes: df/dL = -K dr/dL.
      const Vec3 rate = (1.0 / (2.0 * h)) * (up.force - down.force);
      const Vec3 wanted = -(k * here.by.reach_rate);
      EXPECT_LT(norm(rate - wanted), 5e-4 * norm(wanted) + 1e-6) << slack << " " << rise;
    }
  }
}

TEST(LengthDerivatives, PutAllNewWeightOnTheNodes) {
  const auto here = one_loop(0.05, 0.0).at(0.0);
  EXPECT_NEAR(here.by.near_load_rate.z + here.by.far_load_rate.z, -0.050 * 9.80665, 1e-12);
}

Rig ring_rig() {
  Rig rig = plain_rig();
  rig.backup.joint = Joint::ring;
  rig.spacing.pattern = RepeatArmSpans{{1.0, 2.5, 1.5}};
  return rig;
}

struct Freed { StandingRig locked; SlidRings free; };

Freed let_go(Rig rig) {
  rig.backup.joint = Joint::taped;
  StandingOutcome found = find_natural_lengths(rig, {});
  if (!found.rig) throw std::runtime_error(found.why.words);
  const StandingRig& r = *found.rig;
  SlidRings slid = slide_rings_from_three_starts(r.mesh, r.mesh.line, r.standing);
  return {std::move(*found.rig), std::move(slid)};
}

TEST(Rings, KeepTheBackupAsLongAsItWas) {
  const Freed f = let_go(ring_rig());
  ASSERT_TRUE(f.free.rest.certified());
  double before = 0.0, after = 0.0;
  for (double l : f.locked.mesh.line.length) before += l;
  for (double l : f.free.line.length) after += l;
  EXPECT_NEAR(after, before, 1e-9);
  EXPECT_GT(f.free.slid_max, 1e-3);
}

TEST(Rings, PullAlikeOnBothSides) {
  // A frictionless ring passes tension on: on both sides of each ring the backup's tension is the same, but for the
  // weight of half a bar to each side (0.16 m x 0.49 N/m) and the mesh.
  const Freed f = let_go(ring_rig());
  const std::size_t bays = f.free.line.bays();
  double greatest_jump = 0.0, locked_jump = 0.0;
  for (std::size_t k = 1; k < bays; ++k) {
    greatest_jump = std::max(greatest_jump, std::abs(norm(f.free.rest.far_force[2 * k - 1]) - norm(f.free.rest.near_force[2 * k + 1])));
    locked_jump = std::max(locked_jump, std::abs(norm(f.locked.standing.far_force[2 * k - 1]) - norm(f.locked.standing.near_force[2 * k + 1])));
  }
  EXPECT_LT(greatest_jump, 0.05);
  EXPECT_GT(locked_jump, 5.0 * greatest_jump);  // else there was nothing to even out
  EXPECT_LT(f.free.ring_unbalanced, 1e-5);
}

TEST(Rings, OfModestSlackComeToTheSameRestFromThreeStarts) { EXPECT_TRUE(let_go(ring_rig()).free.starts_agree); }

TEST(Rings, OfEvenBaysHardlyMove) {
  // On a level line of equal loops only the line's own slope drives webbing to the middle.
  Rig rig = plain_rig();
  rig.backup.amount = SlackShare{{0.012}};
  EXPECT_LT(let_go(rig).free.slid_max, 0.02);
}

TEST(Rings, OfVerySlackLoopsStealFromTheirNeighbours) {
  Rig rig = plain_rig();
  rig.site.rise = 4.0;
  const auto spread = [&](double slack) {
    rig.backup.amount = SlackShare{{slack}};
    const Freed f = let_go(rig);
    return f.free.slid_max / slack;  // per slack, so that proportional sliding counts as none
  };
  EXPECT_GT(spread(0.40), 3.0 * spread(0.02));
}

TEST(Rings, FreeNeverHoldMoreEnergyThanLocked) {
  // Each is a rest of the same line; letting go can only lower it. Energy: stretch and height of all nodes.
  const auto energy = [](const Line& line, const Equilibrium& at) {
    EquilibriumSolver solver(line);
    const Shape shape = solver.shape(at);
    double e = 0.0;
    for (std::size_t c = 0; c < line.chains.size(); ++c) {
      const auto& node = (c % 2 ? shape.loop : shape.main)[c / 2];
      for (std::size_t i = 0; i < line.chains[c].count; ++i) {
        const std::size_t bar = line.chains[c].first + i;
        e += line.length[bar] * line.laws[line.law[bar]].energy(norm(node[i + 1] - node[i]) / line.length[bar] - 1.0);
        e -= dot(line.load[bar], node[i + 1]);
      }
    }
    for (std::size_t k = 0; k < at.tapes.size(); ++k) e -= dot(line.tape_load[k], at.tapes[k]);
    return e;
  };
  for (double slack : {0.005, 0.03, 0.15}) {
    Rig rig = ring_rig();
    rig.backup.amount = SlackShare{{slack}};
    const Freed f = let_go(rig);
    ASSERT_TRUE(f.free.rest.certified());
    EXPECT_LT(energy(f.free.line, f.free.rest), energy(f.locked.mesh.line, f.locked.standing)) << slack;
  }
}

TEST(Rings, InAPlanStandAtTheAskedTensionAndReportBothJoints) {
  const PlanOutcome out = make_plan(ring_rig());
  ASSERT_TRUE(out.plan) << out.failure->words;
  EXPECT_NEAR(out.plan->standing.tension_near, 4000.0, 4e-6);
  ASSERT_EQ(out.plan->walker_other_joint.size(), out.plan->walker.size());
  for (std::size_t i = 0; i < out.plan->walker.size(); ++i) {
    EXPECT_LT(out.plan->walker[i].backup_tension_max, out.plan->walker_other_joint[i].backup_tension_max + 1e-6);
  }
}

}  // namespace
}  // namespace spanloom
