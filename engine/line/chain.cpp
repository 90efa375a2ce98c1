#include "line/chain.h"

#include <algorithm>
#include <cmath>
#include <cstring>

namespace spanloom {
namespace {

// A slack bar points anywhere, which no force can tell. So every bar keeps its shape with a trace of
// force, as if its tension were sqrt(F^2 + u trace^2), u = trace^2 / (F^2 + trace^2): the coenergy stays
// smooth and convex, and a slack bar spans any distance below its length at less force than the rounding of
// its neighbours' positions. u makes the trace fade with the fourth power of F: with the second, a stiff bar
// of little force would come out short by more than its stretch.
constexpr double kTraceShare = 1e-10;   // of the loads on the chain [-]
constexpr double kLeastLoads = 1e-3;    // for chains without any [N]
constexpr double kTraceLost = 1e8;      // F^2 / trace^2 from where on rounding swallows u^2 [-]

std::size_t padded(std::size_t count) { return (count + kLanes - 1) / kLanes * kLanes; }

}  // namespace

ChainSet::ChainSet(const Line& line) : laws_(line.laws) {
  std::size_t at = 0;
  for (const ChainRange& chain : line.chains) {
    Range range{at, chain.count, 0.0, 0.0};
    double length = 0.0, constant = chain.count > 0 ? laws_[line.law[chain.first]].constant_stiffness() : 0.0;
    length_.resize(at + padded(chain.count), 0.0);
    law_.resize(length_.size(), 0);
    for (std::size_t i = 0; i < chain.count; ++i) {
      length_[at + i] = line.length[chain.first + i];
      law_[at + i] = line.law[chain.first + i];
      length += length_[at + i];
      if (laws_[law_[at + i]].constant_stiffness() != constant) constant = 0.0;
    }
    range.compliance_per_length = constant > 0.0 ? 1.0 / constant : 0.0;
    ranges_.push_back(range);
    natural_length_.push_back(length);
    at = length_.size();
  }
  before_x_.assign(at, 0.0);
  before_y_.assign(at, 0.0);
  before_z_.assign(at, 0.0);
  inner_load_.resize(ranges_.size());
  set_loads(line);
}

void ChainSet::set_loads(const Line& line) {
  for (std::size_t c = 0; c < ranges_.size(); ++c) {
    Vec3 before;
    double loads = kLeastLoads;
    const std::size_t from = line.chains[c].first, to = ranges_[c].first;
    for (std::size_t i = 0; i < ranges_[c].count; ++i) {
      before_x_[to + i] = before.x;
      before_y_[to + i] = before.y;
      before_z_[to + i] = before.z;
      before += line.load[from + i];
      loads += norm(line.load[from + i]);
    }
    inner_load_[c] = before;
    ranges_[c].trace_squared = (kTraceShare * loads) * (kTraceShare * loads);
  }
}

void ChainSet::set_lengths(const Line& line) {
  for (std::size_t c = 0; c < ranges_.size(); ++c) {
    natural_length_[c] = 0.0;
    for (std::size_t i = 0; i < ranges_[c].count; ++i) {
      length_[ranges_[c].first + i] = line.length[line.chains[c].first + i];
      natural_length_[c] += line.length[line.chains[c].first + i];
    }
  }
}

double ChainSet::greatest_force(std::size_t chain, const Vec3& f, std::size_t from, std::size_t to) const {
  double greatest = 0.0;
  for (std::size_t i = ranges_[chain].first + from; i < ranges_[chain].first + to; ++i) {
    greatest = std::max(greatest, norm({f.x - before_x_[i], f.y - before_y_[i], f.z - before_z_[i]}));
  }
  return greatest;
}

// Forces in kLanes bars side by side; a = l / T: the bar as a pendulum; b = (a - L de/dT) / T^2 takes out
// its stiffer own direction.
inline ChainSet::Bars ChainSet::bars_at(const Range& range, std::size_t bar, const Vec3& f) const {
  const Lane none{}, one = none + 1.0, trace = none + range.trace_squared;
  Bars at;
  at.x = f.x - load_lane(&before_x_[bar]);
  at.y = f.y - load_lane(&before_y_[bar]);
  at.z = f.z - load_lane(&before_z_[bar]);
  const Lane length = load_lane(&length_[bar]);
  Lane squared = at.x * at.x + at.y * at.y + at.z * at.z;  // of the bare forces
  Lane own = one;                                          // d(squared with trace) / d(bare)
  if (any_below(squared, kTraceLost * range.trace_squared)) {
    const Lane u = trace / (squared + trace);
    squared += trace * u;
    own -= u * u;
  }
  const Lane over = one / square_root(squared);  // 1 / T
  at.a = length * over;
  if (range.compliance_per_length > 0.0) {
    at.b = at.a * over * over * own;
    at.a += length * range.compliance_per_length;
    return at;
  }
  Lane tension = squared * over, stretch{}, compliance{};
  bool one_law = true;
  for (std::size_t k = 1; k < kLanes; ++k) one_law = one_law && law_[bar + k] == law_[bar];
  if (one_law) {
    double t[kLanes], e[kLanes], c[kLanes];
    std::memcpy(t, &tension, sizeof t);
    laws_[law_[bar]].stretch_at(t, e, c);
    stretch = load_lane(e);
    compliance = load_lane(c);
  } else {
    for (std::size_t k = 0; k < kLanes; ++k) {
      const StretchAt here = laws_[law_[bar + k]].stretch_at(tension[k]);
      stretch[k] = here.stretch;
      compliance[k] = here.compliance;
    }
  }
  at.a *= one + stretch;
  at.b = (at.a - length * compliance) * over * over * own;
  return at;
}

ChainAt ChainSet::evaluate(std::size_t chain, const Vec3& f) const {
  const Range& range = ranges_[chain];
  Lane rx{}, ry{}, rz{}, a_sum{}, xx{}, xy{}, xz{}, yy{}, yz{}, zz{};
  for (std::size_t i = range.first; i < range.first + padded(range.count); i += kLanes) {
    const Bars at = bars_at(range, i, f);
    rx += at.a * at.x;
    ry += at.a * at.y;
    rz += at.a * at.z;
    a_sum += at.a;
    const Lane bx = at.b * at.x, by = at.b * at.y;
    xx += bx * at.x;
    xy += bx * at.y;
    xz += bx * at.z;
    yy += by * at.y;
    yz += by * at.z;
    zz += at.b * at.z * at.z;
  }
  const double a = sum(a_sum);
  return {{sum(rx), sum(ry), sum(rz)},
          {a - sum(xx), -sum(xy), -sum(xz), a - sum(yy), -sum(yz), a - sum(zz)}};
}

template <class Visit>
void ChainSet::for_each_bar(std::size_t chain, const Vec3& f, Visit visit) const {
  const Range& range = ranges_[chain];
  for (std::size_t i = range.first; i < range.first + range.count; ++i) {
    const Vec3 force{f.x - before_x_[i], f.y - before_y_[i], f.z - before_z_[i]};
    visit(length_[i], laws_[law_[i]], force);
  }
}

double ChainSet::coenergy(std::size_t chain, const Vec3& near_force) const {
  double total = 0.0;
  for_each_bar(chain, near_force, [&](double length, const StretchCurve& law, const Vec3& force) {
    const double tension = norm(force);
    total += length * (tension + law.coenergy(tension));
  });
  return total;
}

double ChainSet::stretched_length(std::size_t chain, const Vec3& near_force) const {
  double total = 0.0;
  for_each_bar(chain, near_force, [&](double length, const StretchCurve& law, const Vec3& force) {
    total += length * (1.0 + law.stretch_at(norm(force)).stretch);
  });
  return total;
}

std::vector<Vec3> ChainSet::nodes(std::size_t chain, const Vec3& near_force, const Vec3& near,
                                  const Vec3& far) const {
  const Range& range = ranges_[chain];
  const ChainAt chain_at = evaluate(chain, near_force);
  const Vec3 more = inverse(chain_at.compliance) * (far - near - chain_at.reach);  // force that closes it
  std::vector<Vec3> node(range.count + 1);
  Vec3 place = node[0] = near;
  for (std::size_t i = 0; i < range.count; i += kLanes) {
    const Bars at = bars_at(range, range.first + i, near_force);
    const Lane own = at.b * (at.x * more.x + at.y * more.y + at.z * more.z);
    double x[kLanes], y[kLanes], z[kLanes];
    store_lane(at.a * (at.x + more.x) - own * at.x, x);
    store_lane(at.a * (at.y + more.y) - own * at.y, y);
    store_lane(at.a * (at.z + more.z) - own * at.z, z);
    const std::size_t here = std::min(kLanes, range.count - i);
    for (std::size_t k = 0; k < here; ++k) node[i + k + 1] = place += Vec3{x[k], y[k], z[k]};
  }
  // The running sum has rounded otherwise than the reach did.
  const Vec3 open = (1.0 / double(range.count)) * (far - place);
  for (std::size_t i = 1; i < range.count; ++i) node[i] += double(i) * open;
  node.back() = far;
  return node;
}

StretchAt ChainSet::mean_stretch(std::size_t chain, double tension) const {
  const Range& range = ranges_[chain];
  if (range.compliance_per_length > 0.0) {
    return {tension * range.compliance_per_length, range.compliance_per_length};
  }
  StretchAt mean{0.0, 0.0};
  int last_law = -1;
  StretchAt at{0.0, 0.0};
  for (std::size_t i = range.first; i < range.first + range.count; ++i) {
    if (law_[i] != last_law) at = laws_[last_law = law_[i]].stretch_at(tension);
    mean.stretch += length_[i] * at.stretch;
    mean.compliance += length_[i] * at.compliance;
  }
  return {mean.stretch / natural_length_[chain], mean.compliance / natural_length_[chain]};
}

}  // namespace spanloom
