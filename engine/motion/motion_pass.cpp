// One pass over a line: the tension of every bar, then kick and drift of every node.
#include "motion/motion.h"

#include "base/constants.h"

namespace spanloom {
namespace {

constexpr double kNoDistance = 1e-60;   // square of a bar's length taken for nothing [m2]

// The relaxing branches of all bars.
struct Branches {
  std::array<double*, kBranches> z;
  double *length_before, *added_before;
  std::array<double, kBranches> decay;

  // What they add to the tension of four bars over a kick: half of it with the branches as they were, half as they
  // are after they have relaxed. Their work is summed by the trapezoidal rule over the lengths, twice.
  [[gnu::always_inline]] Lane add(const Lane& tension, const Lane& length, const Lane& share, std::size_t i, Lane& work) const {
    const Lane whole = (1.0 + double(kBranches) * share) * tension;
    Lane before{}, after{};
    for (std::size_t j = 0; j < kBranches; ++j) {
      const Lane was = load_lane(z[j] + i);
      const Lane is = tension + (was - tension) * decay[j];
      store_lane(is, z[j] + i);
      before += was;
      after += is;
    }
    const Lane added = 0.5 * (larger(whole - share * before, Lane{}) + larger(whole - share * after, Lane{})) - tension;
    work += (added + load_lane(added_before + i)) * (length - load_lane(length_before + i));
    store_lane(added, added_before + i);
    store_lane(length, length_before + i);
    return added;
  }
};

}  // namespace

// What one four of bars hands to the next, and sums.
struct Motion::Carry {
  Lane fx{}, fy{}, fz{};         // of the bar before, for the node between
  Lane branch_work{};
};

// Bar by bar the tension, then node by node kick and drift, all in one go: places are read before they move,
// since those of the next four are not touched yet.
template <class Law>
void Motion::pass_fours(const Fours& fours, const Kick& kick, Law law, Carry& carried) {
  // All on the stack: through memory that a store might change, everything would be read again for every four.
  double *const x = x_[0].data(), *const y = x_[1].data(), *const z = x_[2].data();
  double *const u = v_[0].data(), *const v = v_[1].data(), *const w = v_[2].data();
  const double *const per_length = per_length_.data(), *const per_mass = per_mass_.data();
  const Branches branches{{z_[0].data(), z_[1].data(), z_[2].data()}, length_before_.data(), branch_before_.data(), decay_};
  const double time = kick.time, drift = kick.drift;
  Carry carry = carried;
  for (std::size_t i = fours.first, end = i + kLanes * fours.count; i < end; i += kLanes) {
    const Lane x0 = load_lane(x + i), y0 = load_lane(y + i), z0 = load_lane(z + i);
    const Lane dx = load_lane(x + i + 1) - x0, dy = load_lane(y + i + 1) - y0, dz = load_lane(z + i + 1) - z0;
    const Lane squared = larger(dx * dx + dy * dy + dz * dz, lane_of(kNoDistance));
    const Lane inverse = 1.0 / square_root(squared);
    const Lane length = squared * inverse;
    Lane tension = law.tension(Lane(length * load_lane(per_length + i) - 1.0), i);
    if constexpr (Law::kLoses) tension += branches.add(tension, length, law.branch_share(i), i, carry.branch_work);
    const Lane per_metre = tension * inverse;
    const Lane fx = per_metre * dx, fy = per_metre * dy, fz = per_metre * dz;
    const Lane m = load_lane(per_mass + i);
    const Lane vx = load_lane(u + i) + time * (m * (fx - shifted(carry.fx, fx)));
    const Lane vy = load_lane(v + i) + time * (m * (fy - shifted(carry.fy, fy)));
    const Lane fall = m > 0.0 ? lane_of(-kGravity) : Lane{};
    const Lane vz = load_lane(w + i) + time * (m * (fz - shifted(carry.fz, fz)) + fall);
    carry.fx = fx, carry.fy = fy, carry.fz = fz;
    store_lane(vx, u + i);
    store_lane(vy, v + i);
    store_lane(vz, w + i);
    store_lane(x0 + drift * vx, x + i);
    store_lane(y0 + drift * vy, y + i);
    store_lane(z0 + drift * vz, z + i);
  }
  carried = carry;
}

// The pass gave each strand's node its own half of the force; what tied and pushed nodes get is put right here.
void Motion::kick_specials(const Kick& kick) {
  for (const Special& s : specials_) {
    const std::size_t i = s.node;
    const bool tied = s.tied >= 0;
    const std::size_t other = tied ? std::size_t(s.tied) : i;
    Vec3 v = velocity(i) + kick.time * per_mass_[i] * s.push;
    if (tied) v += velocity(other) - s.velocity + Vec3{0.0, 0.0, kick.time * kGravity};  // gravity came twice
    put_in_ += kick.time * dot(s.push, 0.5 * (s.velocity + v));
    const Vec3 to = s.place + kick.drift * v;
    v_[0][i] = v_[0][other] = v.x, v_[1][i] = v_[1][other] = v.y, v_[2][i] = v_[2][other] = v.z;
    x_[0][i] = x_[0][other] = to.x, x_[1][i] = x_[1][other] = to.y, x_[2][i] = x_[2][other] = to.z;
  }
}

namespace {

template <bool kLoss>
struct StraightLaw {
  static constexpr bool kLoses = kLoss;
  const BarRun& run;
  Lane tension(const Lane& e, std::size_t) const { return straight_tension(run, e); }
  Lane branch_share(std::size_t) const { return lane_of(run.branch_share); }
};

template <bool kLoss>
struct BentLaw {
  static constexpr bool kLoses = kLoss;
  const BarRun& run;
  Lane tension(const Lane& e, std::size_t) const { return bent_tension(run, e); }
  Lane branch_share(std::size_t) const { return lane_of(run.branch_share); }
};

}  // namespace

// Where bars of several kinds meet.
template <bool kLoss>
struct Motion::MixedLaw {
  static constexpr bool kLoses = kLoss;
  const Mixed& mixed;
  Lane tension(const Lane& e, std::size_t) const {
    Lane tension{};
    for (const RunOfSome& some : mixed.runs) {
      tension += some.mine * (some.run->axial_stiffness > 0.0 ? straight_tension(*some.run, e) : bent_tension(*some.run, e));
    }
    return tension;
  }
  Lane branch_share(std::size_t) const { return mixed.branch_share; }
};

template <bool kLoss>
void Motion::pass_one_run(const Fours& fours, const Kick& kick, Carry& carry) {
  if (fours.run < 0) return pass_fours(fours, kick, MixedLaw<kLoss>{mixed_[fours.mixed]}, carry);
  const BarRun& run = runs_[std::size_t(fours.run)];
  if (run.axial_stiffness > 0.0) pass_fours(fours, kick, StraightLaw<kLoss>{run}, carry);
  else pass_fours(fours, kick, BentLaw<kLoss>{run}, carry);
}

// Kick at the time that it is, then drift.
void Motion::pass(const Kick& kick) {
  if (drive_.beside) {
    pushed_.clear();
    pushed_for_ = kick.time;
    drive_.beside->kick(*this, kick.time);
  }
  for (Special& s : specials_) s.place = place(s.node), s.velocity = velocity(s.node), s.push = {};
  for (const Push& push : drive_.pushes) {
    for (Special& s : specials_) {
      if (s.node == push.node || s.tied == std::ptrdiff_t(push.node)) s.push += push.force(time_) * push.direction;
    }
  }
  work_of_moved(0.5 * kick.time);
  if (loses_) set_decay(kick.relax);
  Carry carry;
  for (const Fours& fours : fours_) {
    const bool loses = loses_ && (fours.run < 0 || runs_[std::size_t(fours.run)].branch_share > 0.0);
    loses ? pass_one_run<true>(fours, kick, carry) : pass_one_run<false>(fours, kick, carry);
  }
  lost_in_webbing_ += 0.5 * sum(carry.branch_work);
  kick_specials(kick);
  if (drive_.beside) drive_.beside->drift(kick.drift);
  work_of_moved_after(0.5 * kick.time);
  time_ += kick.drift;
  place_moved();
}

}  // namespace spanloom
