// Notation: x shift of the master point, p place of a point, l = |x - p|, u = (x - p) / l,
// L = |p| unloaded length of a leg, S that of all legs on one spring, EA axial stiffness of a leg, F force of the line.
//
// Energy of springs that only pull: sum over springs of EA / 2 S (sum of l - S)^2 where the sum is more than S, - F.x.
// A distance is convex, so is the square of what is positive of it, and so the energy: one minimum, found by Newton.
#include "events/anchor_legs.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

#include "base/sym3.h"

namespace spanloom {
namespace {

constexpr int kMostSteps = 100;             // at one stiffness; ten are many
constexpr double kGoodEnough = 1e-9;        // unbalanced force / force [-]
constexpr double kSharpEnough = 1e-13;      // no step is worth while below it [-]
constexpr double kNoLength = 1e-12;         // a leg shorter than this part of its spring has no direction [-]
constexpr double kRoundings = 16.0;         // of positions that an unbalanced force may come from [-]
constexpr double kSoft = 10.0;              // first axial stiffness / force [-]
constexpr double kStiffening = 10.0;        // from one stiffness to the next [-]

/// Legs on one spring: each fixed leg is one, a sling is one for all.
struct Spring {
  std::vector<std::size_t> points;
  double length = 0.0;                      // unloaded [m]
  double spare = 0.0;                       // of that, freed by the point that has gone [m]
};

struct Gradient {
  Vec3 unbalanced;                          // F - sum T u [N]
  Sym3 stiffness;                           // second derivative of the energy [N/m]
};

class Legs {
 public:
  Legs(const AnchorSpec& anchor, const Vec3& force, std::optional<std::size_t> gone)
      : axial_stiffness(anchor.leg_stiffness.value), anchor_(anchor), force_(force) {
    const bool sling = anchor.legs.value == LegKind::equalising;
    if (sling) springs_.resize(1);
    for (std::size_t i = 0; i < anchor.points.size(); ++i) {
      const double length = norm(anchor.points[i].at);
      const bool lost = i == gone;
      if (lost && !sling) continue;
      if (!sling) springs_.emplace_back();
      springs_.back().length += length;
      if (lost) {
        springs_.back().spare = length;
        continue;
      }
      springs_.back().points.push_back(i);
      any_left_ = true;
      hold_ = hold_ || dot(force, anchor.points[i].at) < 0.0;
    }
  }

  double axial_stiffness;                   // of a leg [N]

  double pull() const { return norm(force_); }
  bool any_left() const { return any_left_; }
  /// True if a leg pulls against the force where the anchor stands unloaded.
  bool hold() const { return hold_; }

  double tension(const Spring& spring, const Vec3& x) const {
    double stretch = -spring.spare;
    for (std::size_t i : spring.points) {
      // l - L = (x.x - 2 x.p) / (l + L): no difference of two nearly equal lengths.
      const Vec3& p = anchor_.points[i].at;
      stretch += (dot(x, x) - 2.0 * dot(x, p)) / (norm(x - p) + norm(p));
    }
    return stretch > 0.0 ? axial_stiffness * stretch / spring.length : 0.0;
  }

  Gradient gradient(const Vec3& x) const {
    Gradient g{force_, {}};
    for (const Spring& spring : springs_) {
      const double pull = tension(spring, x);
      if (pull == 0.0) continue;
      Vec3 sum;
      for (std::size_t i : spring.points) {
        const Vec3 u = from_point(i, x);
        const double across = pull / std::max(norm(x - anchor_.points[i].at), kNoLength * spring.length);
        g.unbalanced -= pull * u;
        g.stiffness += scaled_identity(across) + outer(-across, u);
        sum += u;
      }
      g.stiffness += outer(axial_stiffness / spring.length, sum);
    }
    return g;
  }

  /// The rest with the master point drawn up to a point of a sling, if that is where it comes to rest. The leg there has
  /// no direction: it takes what the others leave, as long as that is no more than the pull in the sling.
  std::optional<LegsUnderLoad> rest_on_a_point() const {
    for (const Spring& spring : springs_) {
      if (spring.points.size() < 2) continue;
      for (std::size_t i : spring.points) {
        const Vec3& x = anchor_.points[i].at;
        LegsUnderLoad out = loads(x);
        const Vec3 left = gradient(x).unbalanced;
        if (tension(spring, x) < norm(left) || norm(left) == 0.0) continue;
        out.legs[i] = {norm(left), left};
        out.residual = 0.0;
        return out;
      }
    }
    return std::nullopt;
  }

  /// What rounding of the positions makes of the forces [N].
  double rounding(const Vec3& x) const {
    double sum = 0.0;
    for (const Spring& spring : springs_) {
      sum += axial_stiffness * (double(spring.points.size()) * norm(x) / spring.length + 1.0);
    }
    return std::numeric_limits<double>::epsilon() * sum;
  }

  LegsUnderLoad loads(const Vec3& x) const {
    LegsUnderLoad out{std::vector<LegLoad>(anchor_.points.size()), x, norm(gradient(x).unbalanced)};
    for (const Spring& spring : springs_) {
      const double pull = tension(spring, x);
      for (std::size_t i : spring.points) out.legs[i] = {pull, pull * from_point(i, x)};
    }
    return out;
  }

  /// A shift from which every leg pulls: the whole anchor drawn out along the force.
  Vec3 drawn_out() const {
    double length = 0.0;
    for (const Spring& spring : springs_) length += 2.0 * spring.length;
    return (length / pull()) * force_;
  }

 private:
  // 0 on the point itself, where a leg has no direction.
  Vec3 from_point(std::size_t i, const Vec3& x) const {
    const Vec3 d = x - anchor_.points[i].at;
    const double length = norm(d);
    return length > 0.0 ? (1.0 / length) * d : Vec3{};
  }

  const AnchorSpec& anchor_;
  Vec3 force_;
  std::vector<Spring> springs_;
  bool any_left_ = false;
  bool hold_ = false;
};

/// How far to go along a step: where the energy falls no more steeply than half as it did at its start. It is
/// convex, so a slope uphill means too far, and a slope as steep as before too short.
double part_of_step(const Legs& legs, const Vec3& x, const Vec3& step, double slope) {
  double least = 0.0, most = 0.0, t = 1.0;
  for (int trial = 0; trial < 60; ++trial) {
    const double there = dot(legs.gradient(x + t * step).unbalanced, step);
    if (there > 0.5 * slope) {
      least = t;
    } else if (there < -0.5 * slope || !std::isfinite(there)) {
      most = t;
    } else {
      break;
    }
    t = most > 0.0 ? 0.5 * (least + most) : 2.0 * t;
  }
  return t;
}

/// The minimum of the energy, as near as steps from a shift get.
Vec3 find_rest(const Legs& legs, Vec3 x) {
  const double far = norm(legs.drawn_out());
  for (int step = 0; step < kMostSteps; ++step) {
    const Gradient g = legs.gradient(x);
    const double miss = norm(g.unbalanced);
    if (!(miss > std::max(kSharpEnough * legs.pull(), legs.rounding(x)))) break;
    Vec3 move = inverse(g.stiffness) * g.unbalanced;
    // Where all legs are slack there is no stiffness, and the way is where the force goes.
    if (!is_finite(move) || !(dot(g.unbalanced, move) > 0.0)) move = (far / miss) * g.unbalanced;
    const Vec3 next = x + part_of_step(legs, x, move, dot(g.unbalanced, move)) * move;
    if (next == x) break;
    x = next;
  }
  return x;
}

/// The rest of legs so soft that a step can swing them round, then of stiffer and stiffer ones, each from the last.
Vec3 find_rest_by_stiffening(Legs& legs) {
  const double stiffness = legs.axial_stiffness;
  Vec3 x = legs.drawn_out();
  for (double soft = kSoft * legs.pull(); soft < stiffness; soft *= kStiffening) {
    legs.axial_stiffness = soft;
    // There is no way on from a point itself: its leg has lost its direction.
    x = legs.rest_on_a_point() ? legs.drawn_out() : find_rest(legs, x);
  }
  legs.axial_stiffness = stiffness;
  return find_rest(legs, x);
}

}  // namespace

LegsOutcome load_legs(const AnchorSpec& anchor, const Vec3& force, std::optional<std::size_t> gone) {
  assert(!gone || *gone < anchor.points.size());
  if (!is_finite(force)) return {{}, "The force on the anchor is not a number.", false};
  Legs legs(anchor, force, gone);
  if (!legs.any_left()) return {{}, "No leg is left to hold the line.", true};
  if (legs.pull() == 0.0) return {LegsUnderLoad{std::vector<LegLoad>(anchor.points.size()), {}, 0.0}, "", false};
  if (!legs.hold()) return {{}, "The line pulls to where no leg can hold it: every leg goes slack.", true};
  if (const auto drawn_up = legs.rest_on_a_point()) return {drawn_up, "", false};
  const LegsUnderLoad loads = legs.loads(find_rest_by_stiffening(legs));
  const double allowed = std::max(kGoodEnough * legs.pull(), kRoundings * legs.rounding(loads.shift));
  if (!(loads.residual <= allowed)) {
    return {{}, "The legs came to no rest under this force: they may be too soft, or their points too near.", false};
  }
  return {loads, "", false};
}

}  // namespace spanloom
