// A ring on a strand: the spline that it runs on, its forces against the slope of its energy, and how it leaves the strand.
#include "events/strand_ring.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "support/held_strand.h"
#include "support/motion_checks.h"

namespace spanloom {
namespace {

constexpr double kReach = 0.025, kStiffness = 1e5;  // [m], [N/m]

// A strand that bends in all directions, nodes about 0.2 m apart, free but never moved.
AtRest bent_strand() {
  AtRest strand = beaded_string(1e3, 0.2, std::vector<double>(7, 0.5));
  for (std::size_t i = 0; i < strand.places.size(); ++i) {
    const double x = double(i);
    strand.places[i] += Vec3{0.01 * std::sin(3.0 * x), 0.03 * std::cos(1.3 * x), -0.02 * x * (8.0 - x) + 0.01 * std::sin(2.0 * x)};
  }
  return strand;
}

Vec3 on_spline(const AtRest& strand, const StrandPart& part, double u) {
  const StrandPlace at = strand_place(part, u);
  Vec3 sum;
  for (std::size_t k = 0; k < 3; ++k) sum += at.weight[k] * strand.places[at.node[k]];
  return sum;
}

// ---- The spline

TEST(StrandPlace, IsAMeanOfItsNodesEverywhere) {
  const StrandPart part{3, 9, false, false};
  for (double u = 3.0; u <= 9.0; u += 0.03125) {
    const StrandPlace at = strand_place(part, u);
    double weights = 0.0, slopes = 0.0, bends = 0.0, place = 0.0, speed = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
      EXPECT_GE(at.node[k], part.first);
      EXPECT_LE(at.node[k], part.last);
      weights += at.weight[k], slopes += at.slope[k], bends += at.bend[k];
      place += at.weight[k] * double(at.node[k]), speed += at.slope[k] * double(at.node[k]);
    }
    EXPECT_NEAR(weights, 1.0, 1e-14) << u;
    EXPECT_NEAR(slopes, 0.0, 1e-14) << u;
    EXPECT_NEAR(bends, 0.0, 1e-14) << u;
    EXPECT_NEAR(place, u, 1e-14) << u;  // a straight line stays what it is, ends included
    EXPECT_NEAR(speed, 1.0, 1e-14) << u;
  }
}

TEST(StrandPlace, EndsAtTheEndNodes) {
  const AtRest strand = bent_strand();
  const StrandPart part{1, 6, false, false};
  EXPECT_LT(norm(on_spline(strand, part, 1.0) - strand.places[1]), 1e-15);
  EXPECT_LT(norm(on_spline(strand, part, 6.0) - strand.places[6]), 1e-15);
}

TEST(StrandPlace, HasNoCornerAndTheSlopesItStates) {
  const AtRest strand = bent_strand();
  const StrandPart part{0, 8, false, false};
  const double step = 1e-4;
  for (double u = 0.25; u < 7.9; u += 0.25) {  // halves are where pieces meet
    const StrandPlace at = strand_place(part, u);
    Vec3 slope;
    for (std::size_t k = 0; k < 3; ++k) slope += at.slope[k] * strand.places[at.node[k]];
    const Vec3 before = on_spline(strand, part, u) - on_spline(strand, part, u - step);
    const Vec3 after = on_spline(strand, part, u + step) - on_spline(strand, part, u);
    EXPECT_LT(norm(1.0 / step * after - slope), 2e-5) << u;
    EXPECT_LT(norm(1.0 / step * before - slope), 2e-5) << u;
  }
}

// ---- Forces

struct Held {
  StrandPart part{0, 8, false, false};
  StrandRing ring;
  Vec3 at;                 // of its middle
  explicit Held(double friction) : ring(part, 3.7, {kReach, kStiffness, friction}) {}
};

// The ring first clings near u = 3.7, then is carried along and away: both springs are drawn, neither slips.
Held drawn_ring(const AtRest& strand, double friction) {
  Held held(friction);
  const Vec3 from = on_spline(strand, held.part, 3.7) + Vec3{0.0, 0.01, -0.03};
  Motion motion(strand.line, strand.places, {}, {.step = 1e-3});
  EXPECT_LT(norm(held.ring.kick(motion, from, 1e-6)), 1.0);
  held.at = from + Vec3{0.004, 0.001, -0.002};
  return held;
}

double energy_at(const Held& held, const std::vector<Vec3>& places, const Vec3& at) {
  const Motion motion(bent_strand().line, places, {}, {.step = 1e-3});
  return held.ring.energy(motion, at);
}

void expect_slope_of_energy(double friction) {
  // Central differences over 1e-6 m of an energy of order 1 J: 1e-9 / 1e-6 rounding and curvature, 1e-3 N of hundreds.
  const AtRest strand = bent_strand();
  const Held held = drawn_ring(strand, friction);
  Motion motion(strand.line, strand.places, {}, {.step = 1e-3});
  StrandRing ring = held.ring;
  const double time = 1e-3, by = 1e-6;
  const Vec3 force = 1.0 / time * ring.kick(motion, held.at, time);
  EXPECT_EQ(ring.lost(), 0.0);
  EXPECT_GT(norm(force), 100.0);
  const Vec3 axes[] = {{1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}, {0.0, 0.0, 1.0}};
  const auto slope = [&](auto energy) { return (energy(by) - energy(-by)) / (2.0 * by); };
  Vec3 total = force;
  for (const Vec3& axis : axes) {
    EXPECT_NEAR(dot(force, axis), -slope([&](double d) { return energy_at(held, strand.places, held.at + d * axis); }), 1e-3);
    for (std::size_t node = 1; node < 8; ++node) {
      const double pushed = strand.line.mass[node] * dot(motion.velocity(node), axis) / time;
      const auto energy = [&](double d) {
        std::vector<Vec3> places = strand.places;
        places[node] += d * axis;
        return energy_at(held, places, held.at);
      };
      EXPECT_NEAR(pushed, -slope(energy), 1e-3) << node;
    }
  }
  for (std::size_t node = 1; node < 8; ++node) total += strand.line.mass[node] / time * motion.velocity(node);
  EXPECT_LT(norm(total), 1e-9);  // what the ring gets, the strand gives
}

TEST(RingForces, AreTheSlopeOfTheirEnergyWithoutFriction) { expect_slope_of_energy(0.0); }
TEST(RingForces, AreTheSlopeOfTheirEnergyWhereItClings) { expect_slope_of_energy(50.0); }

TEST(RingForces, AreNoneWithinItsReach) {
  const AtRest strand = held_strand(9, 0.2);
  Motion motion(strand.line, strand.places, {}, {.step = 1e-3});
  StrandRing ring({0, 8, false, false}, 4.0, {kReach, kStiffness, 0.2});
  const Vec3 within = strand.places[4] + Vec3{0.03, 0.0, -0.99 * kReach};
  EXPECT_EQ(norm(ring.kick(motion, within, 1.0)), 0.0);
  EXPECT_EQ(ring.energy(motion, within), 0.0);
  const Vec3 beyond = within + Vec3{0.0, 0.0, -0.02 * kReach};
  const Vec3 pull = ring.kick(motion, beyond, 1.0);
  EXPECT_NEAR(pull.z, 0.01 * kReach * kStiffness, 1e-9);
  EXPECT_NEAR(ring.at(), 4.15, 1e-9);
}

TEST(RingThatStartsFarFromItsStrand, LetsItBeAndNoFartherAgain) {
  const AtRest strand = held_strand(9, 0.2);
  Motion motion(strand.line, strand.places, {}, {.step = 1e-3});
  StrandRing ring({0, 8, false, false}, 4.0, {kReach, kStiffness, 0.0}, 0.10);
  const auto pull = [&](double below) { return ring.kick(motion, strand.places[4] + Vec3{0.0, 0.0, -below}, 1.0).z; };
  EXPECT_EQ(pull(0.0999), 0.0);
  EXPECT_GT(pull(0.1010), 0.0);
  EXPECT_EQ(pull(0.0600), 0.0);
  EXPECT_NEAR(pull(0.0610), 0.001 * kStiffness, 1e-6);
  EXPECT_EQ(pull(0.0100), 0.0);
  EXPECT_NEAR(pull(kReach + 0.001), 0.001 * kStiffness, 1e-6);
}

// ---- Running along

TEST(RingWithoutFriction, RunsOverNodesAsIfTheyWereNotThere) {
  const AtRest strand = held_strand(30, 0.2);
  LoneRing ring(0.15, strand.places[2] + Vec3{0.0, 0.0, -kReach - 0.15 * kGravity / kStiffness}, {2.0, 0.0, 0.0});
  ring.add_strand(StrandRing({0, 29, false, false}, 2.0, {kReach, kStiffness, 0.0}));
  Motion motion(strand.line, strand.places, beside(ring), {.step = 1e-4});
  run(motion, 2.0);
  EXPECT_NEAR(ring.velocity().x, 2.0, 1e-12);
  EXPECT_NEAR(ring.at().x, 0.4 + 4.0, 1e-11);
}

TEST(RingInALoop, KeepsItsEnergyWithoutFrictionAndBooksWhatFrictionTakes) {
  // Let go at the side of a sagging strand it swings through the bottom.
  for (const double friction : {0.0, 0.15}) {
    AtRest strand = held_strand(41, 0.1);
    for (Vec3& at : strand.places) at.z = 0.25 * (at.x - 2.0) * (at.x - 2.0);
    const Vec3 from = strand.places[8] + Vec3{0.0, 0.0, -kReach};
    LoneRing ring(0.15, from, {});
    ring.add_strand(StrandRing({0, 40, false, false}, 8.0, {kReach, kStiffness, friction}));
    Motion motion(strand.line, strand.places, beside(ring), {.step = 1e-4});
    double farthest = 0.0;
    while (motion.time() < 2.0) {
      run(motion, 0.01);
      farthest = std::max(farthest, ring.at().x);
      expect_closed(motion, 0.15 * kGravity * 0.36, 1e-4);
    }
    if (friction == 0.0) {
      EXPECT_EQ(motion.ledger().lost_beside, 0.0);
      EXPECT_NEAR(farthest, 4.0 - 0.8, 0.02);  // as far on the other side
    } else {
      EXPECT_GT(motion.ledger().lost_beside, 0.2 * 0.15 * kGravity * 0.36);
      EXPECT_LT(farthest, 3.0);
    }
  }
}

// ---- Ends

LoneRing ring_towards_the_end(bool open) {
  const AtRest strand = held_strand(6, 0.2);
  LoneRing ring(0.15, strand.places[4] + Vec3{0.0, 0.0, -kReach - 1e-5}, {1.0, 0.0, 0.0});
  ring.add_strand(StrandRing({0, 5, false, open}, 4.0, {kReach, kStiffness, 0.1}));
  Motion motion(strand.line, strand.places, beside(ring), {.step = 1e-5});
  run(motion, 0.3);
  expect_closed(motion, 0.5 * 0.15, 1e-3);
  return ring;
}

TEST(OpenEndOfAStrand, LetsTheRingGoForGood) {
  const LoneRing ring = ring_towards_the_end(true);
  ASSERT_FALSE(ring.strands()[0].on());
  EXPECT_GT(ring.at().x, 1.0 + kReach);
  EXPECT_LT(ring.at().z, -0.05);  // and falls
  const AtRest strand = held_strand(6, 0.2);
  Motion motion(strand.line, strand.places, {}, {.step = 1e-3});
  StrandRing off = ring.strands()[0];
  EXPECT_EQ(norm(off.kick(motion, {0.5, 0.0, -1.0}, 1.0)), 0.0);
  EXPECT_EQ(off.energy(motion, {0.5, 0.0, -1.0}), 0.0);
}

TEST(ClosedEndOfAStrand, HoldsTheRing) {
  const LoneRing ring = ring_towards_the_end(false);
  EXPECT_TRUE(ring.strands()[0].on());
  EXPECT_LT(norm(ring.at() - Vec3{1.0, 0.0, 0.0}), 1.5 * kReach);
}

TEST(RingPulledBackFromAnOpenEnd, StaysOn) {
  // At the end, but pulled inwards: it does not leave.
  const AtRest strand = held_strand(6, 0.2);
  Motion motion(strand.line, strand.places, {}, {.step = 1e-3});
  StrandRing ring({0, 5, true, true}, 5.0, {kReach, kStiffness, 0.0});
  EXPECT_LT(ring.kick(motion, {0.97, 0.0, -0.03}, 1.0).x, 1e-9);
  EXPECT_TRUE(ring.on());
  EXPECT_EQ(norm(ring.kick(motion, {1.03, 0.0, -0.03}, 1.0)), 0.0);
  EXPECT_FALSE(ring.on());
}

}  // namespace
}  // namespace spanloom
