#include "statics/walker_sweep.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "statics/clearance.h"
#include "statics/loop_geometry.h"
#include "statics/rings.h"

namespace spanloom {
namespace {

Vec3 node_of(const Shape& shape, const NodeAt& at) { return shape.main[at.bay][at.bar]; }

double steepest_at(const Shape& shape, const NodeAt& at) {
  double steepest = 0.0;
  const auto look = [&](std::size_t bay, std::size_t bar) {
    const Vec3 along = shape.main[bay][bar + 1] - shape.main[bay][bar];
    steepest = std::max(steepest, std::abs(along.z) / std::max(std::hypot(along.x, along.y), 1e-12));
  };
  if (at.bar > 0) look(at.bay, at.bar - 1);
  if (at.bar + 1 < shape.main[at.bay].size()) look(at.bay, at.bar);
  else if (at.bay + 1 < shape.main.size()) look(at.bay + 1, 0);
  return steepest;
}

}  // namespace

AnchorLoad near_anchor_load(const Line& line, const Equilibrium& at) {
  return {at.near_force[0] + line.end_loads.main_near, at.near_force[1] + line.end_loads.backup_near};
}

AnchorLoad far_anchor_load(const Line& line, const Equilibrium& at) {
  const std::size_t last = 2 * line.bays() - 2;
  return {line.end_loads.main_far - at.far_force[last], line.end_loads.backup_far - at.far_force[last + 1]};
}

WalkerSweep::WalkerSweep(const Rig& rig, const Mesh& mesh, Line base, Equilibrium standing,
                         const Shape& places, ForceLedger& ledger, Joint joint, UnitSystem units)
    : rig_(rig), mesh_(mesh), base_(std::move(base)), standing_(std::move(standing)), places_(places),
      ledger_(ledger), joint_(joint), units_(units), solver_(base_) {}

// Nodes from the middle of a bay outwards, so that no two places are further apart than a 20th of the gap; the
// same from both ends. In the order they are met from the middle.
std::vector<WalkerSweep::Place> WalkerSweep::outwards(std::size_t bay, int direction) const {
  const ChainRange& chain = base_.main_chain(bay);
  const std::size_t middle = mesh_.middle[bay].bar;
  const std::size_t bars = direction > 0 ? chain.count - middle : middle;
  const double most = (1.0 + 1e-9) * rig_.site.gap / 20.0;
  std::vector<Place> places;
  double since_last = 0.0, from_middle = 0.0;
  for (std::size_t i = 0; i < bars; ++i) {
    const double bar = base_.length[chain.first + (direction > 0 ? middle + i : middle - 1 - i)];
    if (i > 0 && since_last + bar > most) {
      const std::size_t node = direction > 0 ? middle + i : middle - i;
      places.push_back({{bay, node}, mesh_.middle_s[bay] + direction * from_middle, false});
      since_last = 0.0;
    }
    since_last += bar;
    from_middle += bar;
  }
  return places;
}

std::vector<WalkerSweep::Place> WalkerSweep::bay_places() const {
  std::vector<Place> places;
  for (std::size_t k = 0; k < base_.bays(); ++k) {
    const std::vector<Place> before = outwards(k, -1), after = outwards(k, +1);
    places.insert(places.end(), before.rbegin(), before.rend());
    places.push_back({mesh_.middle[k], mesh_.middle_s[k], false});
    places.insert(places.end(), after.begin(), after.end());
  }
  return places;
}

std::vector<WalkerSweep::Place> WalkerSweep::all_places() const {
  std::vector<Place> places{{{0, 0}, 0.0, true}};
  std::size_t bay = 0;
  for (const Place& place : bay_places()) {
    for (; bay < place.node.bay; ++bay) {
      places.push_back({{bay, base_.main_chain(bay).count}, mesh_.tape_s[bay + 1], true});
    }
    places.push_back(place);
  }
  places.push_back({{bay, base_.main_chain(bay).count}, mesh_.tape_s[bay + 1], true});
  return places;
}

bool WalkerSweep::is_middle(const Place& place) const { return place.node.bar == mesh_.middle[place.node.bay].bar; }

WalkerSweep::Answer WalkerSweep::solve(const Place& place, const Vec3& force, const std::string& words) {
  Line line = base_;
  add_main_load(line, place.node, force);
  solver_.set_lengths_and_loads(line);
  Equilibrium at = solver_.solve_from(standing_);
  if (joint_ == Joint::ring && at.certified()) {
    SlidRings slid = slide_rings(mesh_, line, at);
    line = std::move(slid.line);
    at = std::move(slid.rest);
    solver_.set_lengths_and_loads(line);
  }
  Shape shape = solver_.shape(at);
  Answer answer{describe(place, at, line, shape), 0.0, {}};
  const std::size_t bay = place.node.bay;
  answer.ankle_margin = ankle_margin(shape.main[bay], shape.loop[bay], place.node.bar);
  ledger_.enter(solver_.chains(), at, fmt::format(fmt::runtime(words), quantity_text(answer.place.position, Measure::length, units_)));
  answer.shape = std::move(shape);
  return answer;
}

WalkerPlace WalkerSweep::describe(const Place& place, const Equilibrium& at, const Line& line,
                                  const Shape& shape) const {
  WalkerPlace out;
  const Vec3 foot = node_of(shape, place.node);
  out.position = node_of(places_, place.node).x;
  out.s = place.s;
  out.bay = int(place.node.bay) + 1;
  out.at_tape = place.at_tape;
  out.foot = foot;
  out.sag = rig_.site.rise * foot.x / rig_.site.gap - foot.z;
  out.slope = steepest_at(shape, place.node);
  const ChainSet& chains = solver_.chains();
  for (std::size_t c = 0; c < chains.size(); ++c) {
    if (chains.empty(c)) continue;
    const double tension = chains.greatest_force(c, at.near_force[c], 0, line.chains[c].count);
    if (c % 2 == 0) {
      out.tension_max = std::max(out.tension_max, tension);
    } else if (tension > out.backup_tension_max) {
      out.backup_tension_max = tension;
      out.backup_tension_bay = int(c / 2) + 1;
    }
  }
  out.tension_near = norm(at.near_force.front());
  out.tension_far = norm(at.far_force[2 * line.bays() - 2]);
  out.near = near_anchor_load(line, at);
  out.far = far_anchor_load(line, at);
  out.in_anchor_zone = in_anchor_zone(rig_, foot.x);
  if (const auto ground = ground_height(rig_.site.ground, foot.x)) {
    out.ground_clearance = foot.z - *ground;
    out.hang_clearance = *out.ground_clearance - rig_.walker.leash.value - rig_.walker.foot_to_hip.value;
  }
  if (const auto least = line_clearance(rig_, shape)) out.line_clearance = least->distance;
  if (const auto least = edge_distance(rig_, shape)) out.edge_distance = least->distance;
  out.sideways = foot.y;
  out.certificate = at.certificate;
  out.certified = at.certified();
  return out;
}

}  // namespace spanloom
