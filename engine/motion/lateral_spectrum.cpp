// Notation. k: springs; c: what a node holds the near tape of its bay with, all nodes between eliminated; d: pivot of
// a node; s2 = s^2. A node eliminated takes c^2 / d off the near tape, k^2 / d off the next node and hands it the hold
// k c / d. An end of a strand is a node like others: held, or with no spring beyond.
#include "motion/lateral_spectrum.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "base/input_error.h"
#include "motion/motion_pencil.h"

namespace spanloom {
namespace {

constexpr std::size_t kEach = LaneComplex::kLanesEach;

template <class Make>
inline LaneComplex lanes(Make make) {
  LaneComplex out;
  for (std::size_t i = 0; i < kEach; ++i) make(i, out.re[i], out.im[i]);
  return out;
}

inline LaneComplex operator+(const LaneComplex& a, const LaneComplex& b) {
  return lanes([&](std::size_t i, Lane& re, Lane& im) { re = a.re[i] + b.re[i], im = a.im[i] + b.im[i]; });
}
inline LaneComplex operator-(const LaneComplex& a, const LaneComplex& b) {
  return lanes([&](std::size_t i, Lane& re, Lane& im) { re = a.re[i] - b.re[i], im = a.im[i] - b.im[i]; });
}
inline LaneComplex operator*(const LaneComplex& a, const LaneComplex& b) {
  return lanes([&](std::size_t i, Lane& re, Lane& im) {
    re = a.re[i] * b.re[i] - a.im[i] * b.im[i];
    im = a.re[i] * b.im[i] + a.im[i] * b.re[i];
  });
}
inline LaneComplex operator*(double s, const LaneComplex& a) {
  return lanes([&](std::size_t i, Lane& re, Lane& im) { re = s * a.re[i], im = s * a.im[i]; });
}
inline LaneComplex operator+(double s, const LaneComplex& a) {
  return lanes([&](std::size_t i, Lane& re, Lane& im) { re = s + a.re[i], im = a.im[i]; });
}
inline LaneComplex real(double s) {
  return lanes([&](std::size_t, Lane& re, Lane& im) { re = s + Lane{}, im = Lane{}; });
}
inline LaneComplex reciprocal(const LaneComplex& a) {
  return lanes([&](std::size_t i, Lane& re, Lane& im) {
    const Lane per = 1.0 / (a.re[i] * a.re[i] + a.im[i] * a.im[i]);
    re = a.re[i] * per;
    im = -a.im[i] * per;
  });
}

std::string node_key(std::size_t node) { return "line.mass[" + std::to_string(node) + "]"; }

void check(const LateralLine& line) {
  const std::size_t nodes = line.mass.size();
  if (nodes < 2 || line.spring.size() + 1 != nodes || line.held.size() != nodes || line.main_nodes < 2 ||
      line.main_nodes > nodes) {
    throw InputError("line", std::to_string(nodes) + " nodes, " + std::to_string(line.spring.size()) + " springs",
                     "a spring less than nodes, a mass and whether it is held for every node");
  }
  for (std::size_t i = 0; i < line.spring.size(); ++i) {
    const bool none = i + 1 == line.main_nodes;
    if (line.spring[i] >= 0.0 && std::isfinite(line.spring[i]) && (!none || line.spring[i] == 0.0)) continue;
    throw InputError("line.spring[" + std::to_string(i) + "]", std::to_string(line.spring[i]) + " N/m",
                     none ? "0 N/m between the strands" : "a finite spring of 0 N/m or more");
  }
  Tie last{0, line.main_nodes};
  for (const Tie& tie : line.ties) {
    const bool rises = tie.main > last.main && tie.backup > last.backup;
    if (!rises || tie.main + 1 >= line.main_nodes || tie.backup + 1 >= nodes) {
      throw InputError("line.ties", "main " + std::to_string(tie.main) + ", backup " + std::to_string(tie.backup),
                       "ties that rise, between the ends of both strands");
    }
    last = tie;
  }
}

// A node of no mass between slack bars could be anywhere.
void check_mass(const LateralLine& line, const std::vector<double>& before) {
  const auto refuse = [&](std::size_t i) {
    throw InputError(node_key(i), std::to_string(line.mass[i]) + " kg",
                     "a mass of more than 0 kg, or taut bars beside it", "give the node the mass of its webbing");
  };
  std::size_t tie = 0;
  for (std::size_t i = 0; i < line.mass.size(); ++i) {
    if (!(line.mass[i] >= 0.0) || !std::isfinite(line.mass[i])) refuse(i);
    const bool tied = tie < line.ties.size() && line.ties[tie].backup == i;
    if (tied) ++tie;
    if (line.mass[i] > 0.0 || line.held[i] || tied) continue;
    const bool end = i == 0 || i + 1 == line.main_nodes || i == line.main_nodes || i + 1 == line.mass.size();
    const double least = end ? std::max(before[i], before[i + 1]) : std::min(before[i], before[i + 1]);
    if (!(least > 0.0)) refuse(i);
  }
}

}  // namespace

LateralLine lateral_line(const MotionLine& line, const std::vector<Vec3>& places) {
  check_places(line, places, Swing::lateral);
  LateralLine lateral{line.main_nodes, std::vector<double>(line.bars()), line.mass, line.held, line.ties};
  for (std::size_t i = 0; i < line.bars(); ++i) {
    if (line.is_bar(i)) lateral.spring[i] = cross_spring(line, places, i);
  }
  return lateral;
}

LateralSpectrum::LateralSpectrum(const LateralFrequencies& frequencies) : count_(frequencies.omega.size()) {
  const double sigma = frequencies.sigma;
  if (!(sigma > 0.0) || !std::isfinite(sigma * sigma)) {
    throw InputError("spectrum", std::to_string(sigma) + " rad/s", "a sigma above 0 rad/s",
                     "about 5 over the longest time asked for serves");
  }
  if (!(frequencies.loop_drag >= 0.0) || !std::isfinite(frequencies.loop_drag)) {
    throw InputError("spectrum", std::to_string(frequencies.loop_drag) + " 1/s", "a drag not below 0 1/s");
  }
  s2_.resize((count_ + LaneComplex::kWide - 1) / LaneComplex::kWide);
  loop_s2_.resize(s2_.size());
  for (std::size_t i = 0; i < s2_.size() * LaneComplex::kWide; ++i) {
    const double omega = frequencies.omega[std::min(i, count_ - 1)];  // the last fills up its group
    if (!std::isfinite(omega * omega)) {
      throw InputError("spectrum", std::to_string(omega) + " rad/s", "finite frequencies");
    }
    const auto set = [&](LaneComplex& group, double drag) {
      const std::size_t lane = i % LaneComplex::kWide;
      group.re[lane / kLanes][lane % kLanes] = sigma * sigma - omega * omega + drag * sigma;
      group.im[lane / kLanes][lane % kLanes] = 2.0 * sigma * omega + drag * omega;
    };
    set(s2_[i / LaneComplex::kWide], 0.0);
    set(loop_s2_[i / LaneComplex::kWide], frequencies.loop_drag);
  }
}

void LateralSpectrum::take(const LateralLine& line) {
  check(line);
  line_ = line;
  const std::size_t nodes = line.mass.size(), bays = line.ties.size() + 1;
  before_.resize(nodes + 1);
  before_.front() = before_.back() = 0.0;
  std::copy(line.spring.begin(), line.spring.end(), before_.begin() + 1);
  check_mass(line, before_);
  main_.resize(bays);
  loop_.resize(nodes > line.main_nodes ? bays : 0);
  for (std::size_t bay = 0; bay < bays; ++bay) {
    const bool first = bay == 0, last = bay + 1 == bays;
    main_[bay] = {first ? 0 : line.ties[bay - 1].main + 1, last ? line.main_nodes : line.ties[bay].main};
    if (loop_.empty()) continue;
    loop_[bay] = {first ? line.main_nodes : line.ties[bay - 1].backup + 1, last ? nodes : line.ties[bay].backup};
  }
  for (auto* over_main : {&inverse_, &carry_, &pushed_, &moved_}) over_main->resize(line.main_nodes);
  std::fill(pushed_.begin(), pushed_.end(), LaneComplex{});
  ends_.resize(bays);
  bay_moved_.resize(bays);
  bay_kept_.resize(bays);
  tape_inverse_.resize(bays - 1);
  tape_.resize(bays - 1);
}

// @tparam kKeep  keeps what displacements inside the run are found with
template <bool kKeep>
void LateralSpectrum::condense(const Run& run, const LaneComplex& s2, Ends& ends) {
  const double first = before_[run.first];
  LaneComplex near = real(first), hold = near, pivot = near;
  for (std::size_t i = run.first; i < run.last; ++i) {
    const double next = before_[i + 1];
    const LaneComplex inverse =
        line_.held[i] ? LaneComplex{} : reciprocal(next + (pivot + line_.mass[i] * s2));
    if constexpr (kKeep) inverse_[i] = inverse, carry_[i] = hold;
    const LaneComplex share = hold * inverse;
    near = near - hold * share;
    hold = next * share;
    pivot = real(next) - (next * next) * inverse;
  }
  ends = {ends.near + near, ends.cross + hold, ends.far + pivot};
}

void LateralSpectrum::condense_all(std::size_t group) {
  const LaneComplex& s2 = s2_[group];
  for (std::size_t bay = 0; bay < ends_.size(); ++bay) {
    ends_[bay] = {};
    if (bay_kept_[bay]) condense<true>(main_[bay], s2, ends_[bay]);
    else condense<false>(main_[bay], s2, ends_[bay]);
    if (!loop_.empty()) condense<false>(loop_[bay], loop_s2_[group], ends_[bay]);
  }
  LaneComplex carried{};
  for (std::size_t t = 0; t < tape_.size(); ++t) {
    const Tie& tie = line_.ties[t];
    const double mass = line_.mass[tie.main] + line_.mass[tie.backup];
    const bool held = line_.held[tie.main] || line_.held[tie.backup];
    const LaneComplex pivot = mass * s2 + ends_[t].far + ends_[t + 1].near - carried;
    tape_inverse_[t] = held ? LaneComplex{} : reciprocal(pivot);
    carried = ends_[t + 1].cross * ends_[t + 1].cross * tape_inverse_[t];
  }
}

// The first tape whose node on the main is `node` or lies beyond.
std::size_t LateralSpectrum::tape_after(std::size_t node) const {
  const auto at = std::lower_bound(line_.ties.begin(), line_.ties.end(), node,
                                   [](const Tie& tie, std::size_t n) { return tie.main < n; });
  return std::size_t(at - line_.ties.begin());
}

// Displacements of the tapes under a unit force on a node of the main, and what moves the nodes of its bay.
void LateralSpectrum::push(std::size_t node) {
  std::fill(tape_.begin(), tape_.end(), LaneComplex{});
  std::fill(bay_moved_.begin(), bay_moved_.end(), char{0});
  const std::size_t bay = tape_after(node);
  LaneComplex force = real(1.0);
  for (std::size_t i = node; i < main_[bay].last; ++i) {
    pushed_[i] = force;
    const LaneComplex share = inverse_[i] * force;
    if (bay > 0) tape_[bay - 1] = tape_[bay - 1] + carry_[i] * share;
    force = before_[i + 1] * share;
  }
  if (bay < tape_.size()) tape_[bay] = force;
  for (std::size_t t = 1; t < tape_.size(); ++t) {
    tape_[t] = tape_[t] + ends_[t].cross * (tape_inverse_[t - 1] * tape_[t - 1]);
  }
  for (std::size_t t = tape_.size(); t-- > 0;) {
    if (t + 1 < tape_.size()) tape_[t] = tape_[t] + ends_[t + 1].cross * tape_[t + 1];
    tape_[t] = tape_inverse_[t] * tape_[t];
  }
}

bool LateralSpectrum::is_tape(std::size_t node) const {
  const std::size_t t = tape_after(node);
  return t < line_.ties.size() && line_.ties[t].main == node;
}

void LateralSpectrum::move_bay(std::size_t bay) {
  const LaneComplex near = bay > 0 ? tape_[bay - 1] : LaneComplex{};
  LaneComplex next = bay < tape_.size() ? tape_[bay] : LaneComplex{};
  for (std::size_t i = main_[bay].last; i-- > main_[bay].first;) {
    next = inverse_[i] * (pushed_[i] + carry_[i] * near + before_[i + 1] * next);
    moved_[i] = next;
  }
  bay_moved_[bay] = 1;
}

LaneComplex LateralSpectrum::moved(std::size_t node) {
  const std::size_t bay = tape_after(node);
  if (is_tape(node)) return tape_[bay];
  if (!bay_moved_[bay]) move_bay(bay);
  return moved_[node];
}

void LateralSpectrum::solve(std::span<const std::size_t> driven, std::span<const std::size_t> asked) {
  std::fill(bay_kept_.begin(), bay_kept_.end(), char{0});
  for (const auto nodes : {driven, asked}) {
    for (const std::size_t node : nodes) {
      if (node >= line_.main_nodes) {
        throw InputError("spectrum", "node " + std::to_string(node), "a node of the main of the line taken over");
      }
      bay_kept_[tape_after(node)] |= !is_tape(node);
    }
  }
  asked_ = asked.size();
  const std::size_t groups = s2_.size();
  receptance_.resize(driven.size() * groups);
  displacement_.resize(driven.size() * asked_ * groups);
  for (std::size_t g = 0; g < groups; ++g) {
    condense_all(g);
    for (std::size_t d = 0; d < driven.size(); ++d) {
      push(driven[d]);
      receptance_[d * groups + g] = moved(driven[d]);
      for (std::size_t a = 0; a < asked_; ++a) displacement_[(d * asked_ + a) * groups + g] = moved(asked[a]);
      const Run& bay = main_[tape_after(driven[d])];
      std::fill(pushed_.begin() + std::ptrdiff_t(bay.first), pushed_.begin() + std::ptrdiff_t(bay.last), LaneComplex{});
    }
  }
}

}  // namespace spanloom
