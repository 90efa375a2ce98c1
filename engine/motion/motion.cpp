#include "motion/motion.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "base/constants.h"
#include "base/input_error.h"
#include "base/lane.h"
#include "base/same_everywhere.h"
#include "motion/drag.h"
#include "motion/loss.h"

namespace spanloom {
namespace {

constexpr std::size_t kPadding = 2 * kLanes;  // the last four may read past the last node
// Air drag is so weak that it need not be asked every step: half a block's before the block, half after.
constexpr std::size_t kStepsOfDrag = 8;
constexpr double kOutOfSight = 1e6;     // no line gets so far: the numbers ran away [m]

// Blanes & Moan (2002), J. Comput. Appl. Math. 142, 313-330, method S6 of order 4.
constexpr double kA1 = 0.0792036964311957, kA2 = 0.353172906049774, kA3 = -0.0420650803577195;
constexpr double kA4 = 1.0 - 2.0 * (kA1 + kA2 + kA3);
constexpr double kB1 = 0.209515106613362, kB2 = -0.143851773179818, kB3 = 0.5 - (kB1 + kB2);

// Each stage drifts, then kicks; the step ends with the drift of its first stage again.
constexpr std::array<Motion::Stage, 1> kLeapfrog = {{{0.5, 1.0, 1.0}}};
constexpr std::array<Motion::Stage, 6> kFourthOrder = {{{kA1, kB1, 0.0}, {kA2, kB2, 0.0}, {kA3, kB3, 0.5},
                                                         {kA4, kB3, 0.5}, {kA3, kB2, 0.0}, {kA2, kB1, 0.0}}};

std::span<const Motion::Stage> stages_of(Scheme scheme) {
  if (scheme == Scheme::leapfrog) return kLeapfrog;
  return kFourthOrder;
}

// Up to here w h a harmonic swing of frequency w stays bounded under step h; for S6 from its trace.
constexpr double kLeapfrogLimit = 2.0, kFourthOrderLimit = 3.13;
// Bars that snap tight heat the fastest waves well below that limit. Measured: docs/motion.md.
constexpr double kLeapfrogShare = 0.7, kFourthOrderShare = 0.5;

double square(double a) { return a * a; }

}  // namespace

double longest_steady_step(const MotionLine& line, Scheme scheme) {
  std::vector<double> stiffness(line.nodes(), 0.0);
  for (std::size_t i = 0; i < line.bars(); ++i) {
    if (!line.is_bar(i)) continue;
    const double branches = double(kBranches) * branch_share(line.loss[i]);
    const double k = greatest_stiffness(line.laws[std::size_t(line.law[i])], line.greatest_tension) / line.length[i] * (1.0 + branches);
    stiffness[i] += k;
    stiffness[i + 1] += k;
  }
  for (const Tie& tie : line.ties) stiffness[tie.main] += stiffness[tie.backup];
  std::vector<char> counts(line.nodes(), 1);
  for (const Tie& tie : line.ties) counts[tie.backup] = 0;
  double greatest = 0.0;  // [1/s2]
  for (std::size_t i = 0; i < line.nodes(); ++i) {
    if (!counts[i] || line.held[i]) continue;
    if (!(line.mass[i] > 0.0)) throw InputError("line.mass[" + std::to_string(i) + "]", "none", "a mass at every free node");
    greatest = std::max(greatest, 2.0 * stiffness[i] / line.mass[i]);
  }
  if (!(greatest > 0.0)) throw InputError("line.nodes", "none that is free", "a line with a node that can move");
  const double limit = scheme == Scheme::leapfrog ? kLeapfrogLimit : kFourthOrderLimit;
  return limit / std::sqrt(greatest);
}

double steady_step(const MotionLine& line, Scheme scheme) {
  return (scheme == Scheme::leapfrog ? kLeapfrogShare : kFourthOrderShare) * longest_steady_step(line, scheme);
}

Motion::Motion(const MotionLine& line, const std::vector<Vec3>& places, Drive drive, const MotionOptions& options)
    : line_(line), nodes_(line.nodes()), runs_(bar_runs(line)), drive_(std::move(drive)),
      stages_(stages_of(options.scheme)) {
  if (drive_.beside && options.scheme != Scheme::leapfrog) {
    throw InputError("motion.scheme", "fourth order", "leapfrog where bodies move beside the line: friction does not run backward");
  }
  step_ = options.step > 0.0 ? options.step : steady_step(line, options.scheme);
  for (Columns* columns : {&x_, &v_}) {
    for (Column& column : *columns) column.assign(nodes_ + kPadding, 0.0);
  }
  for (Column* column : {&per_length_, &per_mass_, &mass_, &drag_y_, &drag_z_, &length_before_, &branch_before_}) {
    column->assign(nodes_ + kPadding, 0.0);
  }
  for (Column& z : z_) z.assign(nodes_ + kPadding, 0.0);
  for (std::size_t i = 0; i < nodes_; ++i) set_up_node(i, places[i]);
  twin_.assign(nodes_, -1);
  for (const Tie& tie : line.ties) {
    specials_.push_back({tie.main, std::ptrdiff_t(tie.backup), {}, {}, {}});
    twin_[tie.main] = std::ptrdiff_t(tie.backup), twin_[tie.backup] = std::ptrdiff_t(tie.main);
    per_mass_[tie.backup] = per_mass_[tie.main];
    drag_y_[tie.backup] = drag_y_[tie.main], drag_z_[tie.backup] = drag_z_[tie.main];
  }
  for (const Push& push : drive_.pushes) {
    const auto there = [&](const Special& s) { return s.node == push.node || s.tied == std::ptrdiff_t(push.node); };
    if (std::none_of(specials_.begin(), specials_.end(), there)) specials_.push_back({push.node, -1, {}, {}, {}});
  }
  for (const Moved& moved : drive_.moved) moved_from_.push_back(place(moved.node));
  for (const BarRun& run : runs_) {
    if (run.branch_share > 0.0) relax_fully(run);
  }
  group_fours();
  note_start();
}

void Motion::set_up_node(std::size_t node, const Vec3& at) {
  x_[0][node] = at.x, x_[1][node] = at.y, x_[2][node] = at.z;
  if (node < line_.bars() && line_.is_bar(node)) per_length_[node] = 1.0 / line_.length[node];
  set_up_mass(node);
}

void Motion::set_up_mass(std::size_t node) {
  if (line_.held[node] || line_.mass[node] == 0.0) return;
  mass_[node] = line_.mass[node];
  per_mass_[node] = 1.0 / line_.mass[node];
  const DragRate rate = drag_rate(line_.drag[node], line_.mass[node]);
  drag_y_[node] = rate.y, drag_z_[node] = rate.z;
  in_air_ = in_air_ || rate.y > 0.0 || rate.z > 0.0;
}

void Motion::relax_fully(const BarRun& run) {
  loses_ = true;
  for (std::size_t i = run.first; i < run.first + run.count; ++i) {
    const double length = length_of(i);
    const double tension = line_.laws[std::size_t(line_.law[i])].tension(length * per_length_[i] - 1.0);
    for (Column& z : z_) z[i] = tension;
    length_before_[i] = length;
  }
}

void Motion::note_start() {
  const EnergyLedger now = energies();
  at_start_ = now.kinetic + now.stretch + now.height + now.beside;
}

void Motion::group_fours() {
  std::size_t run = 0;
  for (std::size_t first = 0; first < nodes_; first += kLanes) {
    while (runs_[run].first + runs_[run].count <= first) ++run;
    if (!runs_[run].none && first + kLanes <= runs_[run].first + runs_[run].count) {
      const bool goes_on = !fours_.empty() && fours_.back().run == std::ptrdiff_t(run);
      if (goes_on) ++fours_.back().count;
      else fours_.push_back({first, 1, std::ptrdiff_t(run), 0});
      continue;
    }
    fours_.push_back({first, 1, -1, mixed_.size()});
    Mixed& mixed = mixed_.emplace_back();
    for (std::size_t r = run; r < runs_.size() && runs_[r].first < first + kLanes; ++r) {
      if (runs_[r].none) continue;
      RunOfSome some{&runs_[r], {}};
      for (std::size_t k = 0; k < kLanes; ++k) {
        if (first + k >= runs_[r].first && first + k < runs_[r].first + runs_[r].count) {
          some.mine[k] = 1.0;
          mixed.branch_share[k] = runs_[r].branch_share;
        }
      }
      mixed.runs.push_back(some);
    }
  }
}

void Motion::set_velocity(std::size_t node, const Vec3& velocity) {
  const auto set = [&](std::size_t at) { v_[0][at] = velocity.x, v_[1][at] = velocity.y, v_[2][at] = velocity.z; };
  set(node);
  if (twin_[node] >= 0) set(std::size_t(twin_[node]));
  note_start();
}

// What holds a moved point pulls on the line as much as its bars pull back: for half a kick with the branches as they
// were, for half as they are after it; the bars are where they are before it drifts.
void Motion::work_of_moved(double time) {
  moved_bars_.clear();
  for (const Moved& moved : drive_.moved) {
    for (const std::size_t bar : {moved.node - 1, moved.node}) {
      if (bar >= line_.bars() || !line_.is_bar(bar)) continue;
      const std::size_t far = bar == moved.node ? bar + 1 : bar;
      const Vec3 reach = place(far) - place(moved.node);
      const double length = norm(reach);
      if (!(length > 0.0)) continue;
      const double rate = dot(1.0 / length * reach, moved.velocity(time_));
      moved_bars_.push_back({bar, line_.laws[std::size_t(line_.law[bar])].tension(length * per_length_[bar] - 1.0), rate});
      put_in_ -= time * rate * tension_of(bar, moved_bars_.back().curve);
    }
  }
}

void Motion::work_of_moved_after(double time) {
  for (const MovedBar& moved : moved_bars_) put_in_ -= time * moved.rate * tension_of(moved.bar, moved.curve);
}

// What the air takes of all velocities over a time, places held.
void Motion::drag(double time) {
  if (!in_air_) return;
  const Vec3 air = drive_.air ? drive_.air(time_) : Vec3{};
  Lane work{};
  for (std::size_t i = 0; i < nodes_; i += kLanes) {
    const Lane vy = load_lane(v_[1].data() + i), vz = load_lane(v_[2].data() + i);
    Lane dy, dz;
    add_drag(load_lane(drag_y_.data() + i), load_lane(drag_z_.data() + i), time, Lane(vy - air.y), Lane(vz - air.z), dy, dz);
    work += load_lane(mass_.data() + i) * (dy * (vy + 0.5 * dy) + dz * (vz + 0.5 * dz));
    store_lane(vy + dy, v_[1].data() + i);
    store_lane(vz + dz, v_[2].data() + i);
  }
  lost_to_air_ -= sum(work);
}

void Motion::drift_only(double drift) {
  for (int axis = 0; axis < 3; ++axis) {
    for (std::size_t i = 0; i < nodes_; ++i) x_[axis][i] += drift * v_[axis][i];
  }
  if (drive_.beside) drive_.beside->drift(drift);
  time_ += drift;
  place_moved();
}

void Motion::place_moved() {
  for (std::size_t i = 0; i < drive_.moved.size(); ++i) {
    const Vec3 at = moved_from_[i] + drive_.moved[i].displacement(time_);
    const std::size_t node = drive_.moved[i].node;
    x_[0][node] = at.x, x_[1][node] = at.y, x_[2][node] = at.z;
  }
}

void Motion::set_decay(double relax) {
  if (relax == decay_of_) return;
  const std::array<double, kBranches> times = branch_times();
  for (std::size_t j = 0; j < kBranches; ++j) decay_[j] = exp_of_minus(relax / times[j]);
  decay_of_ = relax;
}

bool Motion::advance(double duration) {
  const auto count = std::size_t(std::max(1.0, std::ceil(duration / step_ - 1e-9)));
  const double h = duration / double(count), begin = time_;
  double airtime = 0.0;  // owed to drag
  for (std::size_t done = 0; done < count;) {
    const std::size_t steps = std::min(kStepsOfDrag, count - done);
    airtime += 0.5 * h * double(steps);
    drag(airtime);
    go(steps, h);
    airtime = 0.5 * h * double(steps);
    done += steps;
  }
  drag(airtime);
  time_ = begin + duration;
  place_moved();
  return in_sight();
}

void Motion::go(std::size_t steps, double h) {
  drift_only(stages_.front().drift * h);
  for (std::size_t step = 0; step < steps; ++step) {
    for (std::size_t i = 0; i < stages_.size(); ++i) {
      const bool last = i + 1 == stages_.size();
      double drift = last ? stages_.front().drift : stages_[i + 1].drift;
      if (last && step + 1 < steps) drift *= 2.0;  // the end of this step and the start of the next
      pass({stages_[i].kick * h, stages_[i].relax * h, drift * h});
    }
  }
}

bool Motion::in_sight() const {
  return std::all_of(x_.begin(), x_.end(), [this](const Column& column) {
    return std::all_of(column.begin(), column.begin() + std::ptrdiff_t(nodes_), [](double a) { return std::abs(a) < kOutOfSight; });
  });
}

double Motion::tension(std::size_t bar) const {
  if (!line_.is_bar(bar)) return 0.0;
  const double stretch = length_of(bar) * per_length_[bar] - 1.0;
  return tension_of(bar, line_.laws[std::size_t(line_.law[bar])].tension(stretch));
}

double Motion::tension_of(std::size_t bar, double curve) const {
  const double share = branch_share(line_.loss[bar]);
  double z = 0.0;
  for (const Column& branch : z_) z += branch[bar];
  return std::max(0.0, (1.0 + double(kBranches) * share) * curve - share * z);
}

EnergyLedger Motion::energies() const {
  EnergyLedger ledger;
  for (std::size_t i = 0; i < nodes_; ++i) {
    if (line_.held[i]) continue;
    ledger.kinetic += 0.5 * line_.mass[i] * (square(v_[0][i]) + square(v_[1][i]) + square(v_[2][i]));
    ledger.height += line_.mass[i] * kGravity * x_[2][i];
  }
  for (std::size_t i = 0; i < line_.bars(); ++i) {
    if (!line_.is_bar(i)) continue;
    const double stretch = length_of(i) * per_length_[i] - 1.0;
    ledger.stretch += line_.length[i] * line_.laws[std::size_t(line_.law[i])].energy(stretch);
  }
  if (drive_.beside) ledger.beside = drive_.beside->energy(*this);
  return ledger;
}

EnergyLedger Motion::ledger() const {
  EnergyLedger ledger = energies();
  ledger.put_in = put_in_;
  ledger.lost_in_webbing = lost_in_webbing_;
  for (const BarRun& run : runs_) {
    if (run.branch_share == 0.0) continue;
    // The last drift, which no kick has followed yet.
    for (std::size_t i = run.first; i < run.first + run.count; ++i) {
      ledger.lost_in_webbing += branch_before_[i] * (length_of(i) - length_before_[i]);
    }
  }
  ledger.lost_to_air = lost_to_air_;
  if (drive_.beside) ledger.lost_beside = drive_.beside->lost();
  ledger.drift = ledger.kinetic + ledger.stretch + ledger.height + ledger.beside + ledger.lost_in_webbing + lost_to_air_ +
                 ledger.lost_beside - put_in_ - at_start_;
  return ledger;
}

}  // namespace spanloom
