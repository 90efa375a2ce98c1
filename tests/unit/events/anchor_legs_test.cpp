#include "events/anchor_legs.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>
#include <string>
#include <vector>

namespace spanloom {
namespace {

constexpr double kForce = 9000.0;    // of the line [N]
constexpr double kStiffness = 500e3; // EA of a leg [N]

AnchorSpec anchor_of(LegKind kind, const std::vector<Vec3>& places, double stiffness = kStiffness) {
  AnchorSpec anchor;
  anchor.legs = Stated<LegKind>::given(kind);
  anchor.leg_stiffness = Stated<double>::given(stiffness);
  for (const Vec3& at : places) anchor.points.push_back({"point", at, {}});
  return anchor;
}

LegsUnderLoad loaded(const AnchorSpec& anchor, const Vec3& force, std::optional<std::size_t> gone = {}) {
  const LegsOutcome outcome = load_legs(anchor, force, gone);
  EXPECT_EQ(outcome.why_not, "");
  return outcome.loads.value_or(LegsUnderLoad{std::vector<LegLoad>(anchor.points.size()), {}, NAN});
}

Vec3 sum_of_forces(const LegsUnderLoad& loads) {
  Vec3 sum;
  for (const LegLoad& leg : loads.legs) sum += leg.force;
  return sum;
}

// A leg as long as `length`, straight back and turned left by an angle [rad].
Vec3 behind(double length, double angle) { return {-length * std::cos(angle), length * std::sin(angle), 0.0}; }

// Balance of a master point between two alike legs: each carries F / (2 cos(a / 2)), a the angle between them. The
// legs stretch and a falls a little, so a is taken where the master point has come to rest: no tolerance but rounding.
TEST(AnchorLegs, TwoAlikeLegsShareByTheAngleBetweenThem) {
  for (const LegKind kind : {LegKind::fixed, LegKind::equalising}) {
    for (const double half : {0.1, 0.5, 1.0, 1.3}) {
      const AnchorSpec anchor = anchor_of(kind, {behind(1.2, half), behind(1.2, -half)});
      const LegsUnderLoad loads = loaded(anchor, {kForce, 0.0, 0.0});
      const Vec3 leg = loads.shift - anchor.points[0].at;
      const double expected = kForce / (2.0 * leg.x / norm(leg));
      for (const LegLoad& one : loads.legs) EXPECT_NEAR(one.tension, expected, 1e-9 * expected) << half;
      EXPECT_GT(loads.shift.x, 0.0);
      EXPECT_NEAR(loads.shift.y, 0.0, 1e-12);
    }
  }
}

TEST(AnchorLegs, TwoAlikeLegsShareByTheUnloadedAngleWhereTheyAreStiff) {
  const double half = 0.5, expected = kForce / (2.0 * std::cos(half));
  double before = 0.0;
  for (const double stiffness : {1e6, 1e7, 1e8}) {
    const AnchorSpec anchor = anchor_of(LegKind::fixed, {behind(1.2, half), behind(1.2, -half)}, stiffness);
    const double error = expected - loaded(anchor, {kForce, 0.0, 0.0}).legs[0].tension;
    EXPECT_GT(error, 0.0);
    if (before > 0.0) {
      EXPECT_NEAR(before / error, 10.0, 0.3);  // first order in force / EA
    }
    before = error;
  }
}

// Three bars of one section from a straight wall to one joint, the outer two at an angle a to the middle one (Timoshenko,
// Strength of Materials, the statically indeterminate truss of the first chapter; formulas from memory): the middle
// carries F / (1 + 2 cos^3 a), each outer one F cos^2 a / (1 + 2 cos^3 a), for small shifts. The error must fall with
// force / EA.
TEST(AnchorLegs, ThreeFixedLegsShareAsTheThreeBarTruss) {
  for (const double a : {0.4, 0.8, 1.2}) {
    const double c = std::cos(a), middle = kForce / (1.0 + 2.0 * c * c * c), outer = middle * c * c;
    double before = 0.0;
    for (const double stiffness : {1e7, 1e8, 1e9}) {
      const AnchorSpec anchor = anchor_of(
          LegKind::fixed, {behind(1.5 / c, a), behind(1.5, 0.0), behind(1.5 / c, -a)}, stiffness);
      const LegsUnderLoad loads = loaded(anchor, {kForce, 0.0, 0.0});
      EXPECT_NEAR(loads.legs[0].tension, loads.legs[2].tension, 1e-6);
      EXPECT_NEAR(loads.legs[0].tension, outer, 3.0 * kForce * kForce / stiffness) << a;
      const double error = std::abs(loads.legs[1].tension - middle);
      EXPECT_LT(error, 3.0 * kForce * kForce / stiffness) << a;
      if (before > 0.0) {
        EXPECT_NEAR(before / error, 10.0, 0.5) << a;
      }
      before = error;
    }
  }
}

// Two legs in line, 1 m and 2 m long, pull alike only where they stretch alike: springs side by side, so 2 to 1.
TEST(AnchorLegs, OfTwoFixedLegsInLineTheShorterCarriesMore) {
  const AnchorSpec anchor = anchor_of(LegKind::fixed, {behind(1.0, 0.0), behind(2.0, 0.0)});
  const LegsUnderLoad loads = loaded(anchor, {kForce, 0.0, 0.0});
  EXPECT_NEAR(loads.legs[0].tension, 2.0 / 3.0 * kForce, 1e-6);
  EXPECT_NEAR(loads.legs[1].tension, 1.0 / 3.0 * kForce, 1e-6);
  EXPECT_NEAR(loads.shift.x, kForce / (1.5 * kStiffness), 1e-12);
}

TEST(AnchorLegs, AFixedLegPulledFromTheSideLeavesTheOtherSlack) {
  const AnchorSpec anchor = anchor_of(LegKind::fixed, {behind(1.0, 0.6), behind(1.0, -0.6)});
  const Vec3 pull{kForce * std::cos(0.9), -kForce * std::sin(0.9), 0.0};  // beyond the line of the left leg
  const LegsUnderLoad loads = loaded(anchor, pull);
  EXPECT_NEAR(loads.legs[0].tension, kForce, 1e-6);
  EXPECT_EQ(loads.legs[1].tension, 0.0);
}

TEST(AnchorLegs, AnEqualisingSlingPullsAlikeWhereverTheForceComesFrom) {
  const AnchorSpec anchor =
      anchor_of(LegKind::equalising, {behind(1.0, 0.4), {-1.3, 0.1, 0.4}, behind(0.8, -0.5)});
  for (const double side : {-0.5, 0.0, 0.3}) {
    const Vec3 force{kForce * std::cos(side), kForce * std::sin(side), -0.1 * kForce};
    const LegsUnderLoad loads = loaded(anchor, force);
    EXPECT_NEAR(loads.legs[0].tension, loads.legs[1].tension, 1e-9 * kForce);
    EXPECT_NEAR(loads.legs[0].tension, loads.legs[2].tension, 1e-9 * kForce);
    EXPECT_LT(norm(sum_of_forces(loads) - force), 1e-9 * kForce);
  }
}

// The master point on a sling between two points runs along an ellipse: half its length is longer by the stretch.
TEST(AnchorLegs, TheMasterPointOfASlingRunsOnAnEllipse) {
  const AnchorSpec anchor = anchor_of(LegKind::equalising, {behind(1.0, 0.5), behind(1.0, -0.5)});
  for (const double side : {-0.7, 0.2, 0.7}) {
    const LegsUnderLoad loads = loaded(anchor, {kForce * std::cos(side), kForce * std::sin(side), 0.0});
    double length = 0.0;
    for (const AnchorPoint& point : anchor.points) length += norm(loads.shift - point.at);
    EXPECT_NEAR(length, 2.0 * (1.0 + loads.legs[0].tension / kStiffness), 1e-9);
  }
}

TEST(AnchorLegs, WithOneFixedLegGoneTheOtherTurnsIntoTheLineOfTheForce) {
  const AnchorSpec anchor = anchor_of(LegKind::fixed, {behind(1.2, 0.5), behind(1.2, -0.5)});
  const LegsUnderLoad loads = loaded(anchor, {kForce, 0.0, 0.0}, 0);
  EXPECT_EQ(loads.legs[0].tension, 0.0);
  EXPECT_NEAR(loads.legs[1].tension, kForce, 1e-8 * kForce);
  const Vec3 rest = anchor.points[1].at + Vec3{1.2 * (1.0 + kForce / kStiffness), 0.0, 0.0};
  EXPECT_LT(norm(loads.shift - rest), 1e-9);
}

TEST(AnchorLegs, WithOnePointGoneTheSlingKeepsItsLength) {
  const AnchorSpec anchor = anchor_of(LegKind::equalising, {behind(1.2, 0.5), behind(0.9, -0.5)});
  const LegsUnderLoad loads = loaded(anchor, {kForce, 0.0, 0.0}, 0);
  EXPECT_EQ(loads.legs[0].tension, 0.0);
  EXPECT_NEAR(loads.legs[1].tension, kForce, 1e-8 * kForce);
  const Vec3 rest = anchor.points[1].at + Vec3{2.1 * (1.0 + kForce / kStiffness), 0.0, 0.0};
  EXPECT_LT(norm(loads.shift - rest), 1e-9);
}

TEST(AnchorLegs, WithOneOfThreePointsGoneTheRestOfTheSlingBalances) {
  const AnchorSpec anchor = anchor_of(LegKind::equalising, {behind(1.0, 0.5), behind(1.2, 0.0), behind(1.0, -0.5)});
  const Vec3 force{kForce, 0.0, -500.0};
  const LegsUnderLoad loads = loaded(anchor, force, 1);
  EXPECT_EQ(loads.legs[1].tension, 0.0);
  EXPECT_NEAR(loads.legs[0].tension, loads.legs[2].tension, 1e-9 * kForce);
  EXPECT_LT(norm(sum_of_forces(loads) - force), 1e-9 * kForce);
  EXPECT_GT(loads.shift.x, 0.5);
}

// Seen along the force, one point lies 1 m ahead and two lie 1 m back and 1 m to each side; the sling is soft. The master
// point is drawn up to the point ahead. There the two other legs are sqrt(5) m long, which gives the pull T in the
// sling, and the leg ahead takes what is left of F: F - 2 T (2 / sqrt(5)), less than T.
TEST(AnchorLegs, ASoftSlingMayDrawTheMasterPointUpToOneOfItsPoints) {
  const double stiffness = 30e3;
  const AnchorSpec anchor =
      anchor_of(LegKind::equalising, {{1.0, 0.0, 0.0}, {-1.0, 1.0, 0.0}, {-1.0, -1.0, 0.0}}, stiffness);
  const LegsUnderLoad loads = loaded(anchor, {kForce, 0.0, 0.0});
  const double pull = stiffness * (2.0 * std::sqrt(5.0) / (1.0 + 2.0 * std::sqrt(2.0)) - 1.0);
  EXPECT_EQ(loads.shift, anchor.points[0].at);
  EXPECT_NEAR(loads.legs[1].tension, pull, 1e-9 * kForce);
  EXPECT_NEAR(loads.legs[2].tension, pull, 1e-9 * kForce);
  EXPECT_NEAR(loads.legs[0].tension, std::abs(kForce - 4.0 / std::sqrt(5.0) * pull), 1e-9 * kForce);
  EXPECT_LT(norm(sum_of_forces(loads) - Vec3{kForce, 0.0, 0.0}), 1e-9 * kForce);
}

struct RandomAnchor {
  AnchorSpec anchor;
  Vec3 force;
  std::optional<std::size_t> gone;
};

// Anchors far wider than anything rigged: legs of 0.1 m to 50 m, EA of 10 kN to 1 GN, forces of 1 N to a fifth of EA.
RandomAnchor random_anchor(std::mt19937_64& random) {
  const auto uniform = [&](double a, double b) { return std::uniform_real_distribution<double>(a, b)(random); };
  const auto log_uniform = [&](double a, double b) { return std::exp(uniform(std::log(a), std::log(b))); };
  const std::size_t count = 1 + random() % 8;
  std::vector<Vec3> places;
  for (std::size_t i = 0; i < count; ++i) {
    const double length = log_uniform(0.1, 50.0), side = uniform(-1.5, 1.5), up = uniform(-1.2, 1.2);
    const Vec3 level = behind(length * std::cos(up), side);
    places.push_back({level.x, level.y, length * std::sin(up)});
  }
  const double stiffness = log_uniform(1e4, 1e9), pull = log_uniform(1.0, 0.2 * stiffness);
  const double side = uniform(-0.5, 0.5), up = uniform(-0.4, 0.4);
  const LegKind kind = random() % 2 == 0 ? LegKind::fixed : LegKind::equalising;
  RandomAnchor out{anchor_of(kind, places, stiffness),
                   {pull * std::cos(up) * std::cos(side), pull * std::cos(up) * std::sin(side), pull * std::sin(up)}, {}};
  if (count > 1 && random() % 2 == 0) out.gone = random() % count;
  return out;
}

TEST(AnchorLegs, ComeToRestInBalanceWhereverALegPullsAgainstTheForce) {
  std::mt19937_64 random(5);
  int rests = 0;
  for (int i = 0; i < 20000; ++i) {
    const auto [anchor, force, gone] = random_anchor(random);
    const LegsOutcome outcome = load_legs(anchor, force, gone);
    bool holds = false;
    for (std::size_t k = 0; k < anchor.points.size(); ++k) holds |= k != gone && dot(anchor.points[k].at, force) < 0.0;
    ASSERT_EQ(outcome.loads.has_value(), holds) << i << ' ' << outcome.why_not;
    if (!holds) continue;
    ++rests;
    // EA of a billion newtons turns the rounding of a shift into a micronewton or so.
    const double rounding = 1e-13 * anchor.leg_stiffness.value;
    ASSERT_LE(norm(sum_of_forces(*outcome.loads) - force), 1e-9 * norm(force) + rounding) << i;
    ASSERT_TRUE(is_finite(outcome.loads->shift)) << i;
  }
  EXPECT_GT(rests, 15000);
}

// The energy is convex, so balance is its minimum; this looks around without the derivative that the solver used.
TEST(AnchorLegs, RestWhereTheStoredEnergyIsLeast) {
  const std::vector<Vec3> places = {behind(1.0, 0.6), {-0.8, 0.1, -0.4}, behind(1.4, -0.3)};
  const AnchorSpec anchor = anchor_of(LegKind::fixed, places);
  const Vec3 force{kForce, 1500.0, -800.0};
  const auto energy = [&](const Vec3& x) {
    double sum = -dot(force, x);
    for (const Vec3& p : places) {
      const double stretch = std::max(norm(x - p) - norm(p), 0.0);
      sum += 0.5 * kStiffness / norm(p) * stretch * stretch;
    }
    return sum;
  };
  const Vec3 rest = loaded(anchor, force).shift;
  for (const Vec3& d : {Vec3{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {1, 1, 0}, {1, 0, -1}, {0, 1, 1}}) {
    for (const double way : {-1e-4, 1e-4}) EXPECT_GT(energy(rest + way * d), energy(rest));
  }
}

TEST(AnchorLegs, PointsInAnotherOrderCarryTheSame) {
  for (const LegKind kind : {LegKind::fixed, LegKind::equalising}) {
    const std::vector<Vec3> places = {behind(1.0, 0.6), {-0.8, 0.1, -0.4}, behind(1.4, -0.3)};
    const Vec3 force{kForce, 1500.0, -800.0};
    const LegsUnderLoad one = loaded(anchor_of(kind, places), force, 0);
    const LegsUnderLoad other = loaded(anchor_of(kind, {places[2], places[0], places[1]}), force, 1);
    const std::array<std::size_t, 3> now = {1, 2, 0};
    for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(one.legs[i].tension, other.legs[now[i]].tension, 1e-9 * kForce);
    EXPECT_LT(norm(one.shift - other.shift), 1e-9);
  }
}

Vec3 turned(const Vec3& v) {  // 1.1 rad about z, then 0.7 rad about x
  const Vec3 a{std::cos(1.1) * v.x - std::sin(1.1) * v.y, std::sin(1.1) * v.x + std::cos(1.1) * v.y, v.z};
  return {a.x, std::cos(0.7) * a.y - std::sin(0.7) * a.z, std::sin(0.7) * a.y + std::cos(0.7) * a.z};
}

TEST(AnchorLegs, TurnWithTheWorld) {
  for (const LegKind kind : {LegKind::fixed, LegKind::equalising}) {
    const std::vector<Vec3> places = {behind(1.0, 0.6), {-0.8, 0.1, -0.4}, behind(1.4, -0.3)};
    std::vector<Vec3> there;
    for (const Vec3& p : places) there.push_back(turned(p));
    const Vec3 force{kForce, 1500.0, -800.0};
    const LegsUnderLoad one = loaded(anchor_of(kind, places), force);
    const LegsUnderLoad other = loaded(anchor_of(kind, there), turned(force));
    for (std::size_t i = 0; i < 3; ++i) {
      EXPECT_LT(norm(turned(one.legs[i].force) - other.legs[i].force), 1e-8 * kForce);
    }
    EXPECT_LT(norm(turned(one.shift) - other.shift), 1e-9);
  }
}

TEST(AnchorLegs, SayWhyThereIsNoRest) {
  const AnchorSpec anchor = anchor_of(LegKind::fixed, {behind(1.0, 0.5), behind(1.0, -0.5)});
  const LegsOutcome away = load_legs(anchor, {-kForce, 0.0, 0.0});
  EXPECT_FALSE(away.loads.has_value());
  EXPECT_NE(away.why_not.find("slack"), std::string::npos);
  const LegsOutcome none = load_legs(anchor_of(LegKind::fixed, {behind(1.0, 0.0)}), {kForce, 0.0, 0.0}, 0);
  EXPECT_FALSE(none.loads.has_value());
  EXPECT_NE(none.why_not.find("No leg is left"), std::string::npos);
  EXPECT_NE(load_legs(anchor_of(LegKind::equalising, {behind(1.0, 0.0)}), {kForce, 0.0, 0.0}, 0).why_not, "");
  EXPECT_NE(load_legs(anchor, {NAN, 0.0, 0.0}).why_not, "");
}

TEST(AnchorLegs, WithoutAForceNothingIsLoaded) {
  const LegsUnderLoad loads = loaded(anchor_of(LegKind::equalising, {behind(1.0, 0.5), behind(1.0, -0.5)}), {});
  for (const LegLoad& leg : loads.legs) EXPECT_EQ(leg.tension, 0.0);
  EXPECT_EQ(loads.shift, Vec3{});
}

}  // namespace
}  // namespace spanloom
