#include "statics/plan.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "base/constants.h"
#include "rig/find_problems.h"
#include "statics/clearance.h"
#include "statics/loop_geometry.h"
#include "statics/natural_lengths.h"
#include "statics/rings.h"
#include "statics/walker_sweep.h"
#include "statics/wind.h"

namespace spanloom {
namespace {

constexpr double kDeepHandTightSag = 0.1;  // of the gap

struct NoCertificate {
  std::string where;
  Certificate certificate;
};

Vec3 weight(double mass) { return {0.0, 0.0, -mass * kGravity}; }

double mass_per_gap(const Rig& rig, const Mesh& mesh) {
  double mass = 0.0;
  for (std::size_t i = 0; i < mesh.line.bars(); ++i) mass += mesh.mass_per_length[i] * mesh.line.length[i];
  return mass / rig.site.gap;
}

double backup_tension_max(const EquilibriumSolver& solver, const Equilibrium& at) {
  double greatest = 0.0;
  for (std::size_t c = 1; c < solver.chains().size(); c += 2) {
    const std::size_t count = solver.line().chains[c].count;
    greatest = std::max(greatest, solver.chains().greatest_force(c, at.near_force[c], 0, count));
  }
  return greatest;
}

void keep_least(std::optional<double>& least, const std::optional<double>& distance) {
  if (distance) least = std::min(least.value_or(INFINITY), *distance);
}

StandingLine describe_standing(const Rig& rig, const StandingRig& found, const EquilibriumSolver& solver,
                               const Shape& shape) {
  const Equilibrium& at = found.standing;
  const Line& line = found.mesh.line;
  StandingLine out;
  out.tension_near = norm(at.near_force.front());
  out.tension_far = norm(at.far_force[2 * line.bays() - 2]);
  out.near = near_anchor_load(line, at);
  out.far = far_anchor_load(line, at);
  for (std::size_t k = 0; k < line.bays(); ++k) {
    for (std::size_t i = k == 0 ? 0 : 1; i < shape.main[k].size(); ++i) {
      const Vec3& node = shape.main[k][i];
      out.main_shape.push_back(node);
      const double sag = rig.site.rise * node.x / rig.site.gap - node.z;
      if (sag > out.sag) out.sag = sag, out.sag_at = node.x;
    }
  }
  out.loop_shapes = shape.loop;
  out.tapes = at.tapes;
  out.main_natural_length = main_webbing_length(rig, found.rigged);
  out.backup_natural_length = backup_webbing_length(rig, found.rigged);
  out.round_trip = 2.0 * rig.site.gap / std::sqrt(out.tension_near / mass_per_gap(rig, found.mesh));
  out.backup_tension_max = backup_tension_max(solver, at);
  if (const auto least = line_clearance(rig, shape)) {
    out.ground_clearance = least->distance;
    out.ground_clearance_at = least->at;
  }
  if (const auto least = edge_distance(rig, shape)) {
    out.zone_distance = least->distance;
    out.zone_distance_at = least->at;
  }
  out.certificate = at.certificate;
  return out;
}

// Webbing and connectors of the loops, without the hardware at the backup's ends.
double loop_webbing(const Rig& rig, const Rigged& rigged, std::size_t bay) {
  double length = rigged.loop_length[bay];
  if (bay == 0) length -= rig.backup.run.near_hardware.length;
  if (bay + 1 == rigged.bays()) length -= rig.backup.run.far_hardware.length;
  return length;
}

std::vector<PlanBay> describe_bays(const Rig& rig, const StandingRig& found, const EquilibriumSolver& solver,
                                   const Shape& shape) {
  std::vector<PlanBay> bays;
  const auto &leftover = found.leftover_bays, &close = found.close_bays;
  for (std::size_t k = 0; k < found.rigged.bays(); ++k) {
    PlanBay bay;
    bay.number = int(k) + 1;
    bay.from = found.standing.tapes[k].x;
    bay.to = found.standing.tapes[k + 1].x;
    bay.tape_s = found.mesh.tape_s[k + 1];
    bay.main_natural = found.mesh.tape_s[k + 1] - found.mesh.tape_s[k];
    if (k + 1 == found.rigged.bays()) {
      bay.tape_s = main_webbing_length(rig, found.rigged);
      bay.main_natural = bay.tape_s - found.mesh.tape_s[k];
    }
    bay.backup_natural = loop_webbing(rig, found.rigged, k);
    bay.arm_spans = bay.main_natural / rig.spacing.arm_span.value;
    bay.main_standing = solver.chains().stretched_length(2 * k, found.standing.near_force[2 * k]);
    bay.ankle_margin = INFINITY;  // lowered by the sweep
    bay.drop = loop_drop(shape.main[k], shape.loop[k]);
    bay.slack = found.rigged.loop_length[k] / bay.main_standing - 1.0;
    bay.ends_leftover = std::find(leftover.begin(), leftover.end(), k) != leftover.end();
    bay.close = std::find(close.begin(), close.end(), k) != close.end();
    bays.push_back(bay);
  }
  return bays;
}

// Everything that needs the standing line; throws NoCertificate where a solve is not proven.
class Planner {
 public:
  Planner(const Rig& rig, const StandingRig& found, UnitSystem units)
      : rig_(rig), found_(found), units_(units), solver_(found.mesh.line), shape_(solver_.shape(found.standing)),
        ledger_(rig, found.mesh) {
    solver_.set_loads(found.mesh.line);
    ledger_.enter(solver_.chains(), found.standing, "standing");
    plan_.rigged = found.rigged;
    plan_.notes = found.notes;
    plan_.body_below_main = rig.walker.leash.value + rig.walker.foot_to_hip.value;
    plan_.standing = describe_standing(rig, found, solver_, shape_);
    plan_.bays = describe_bays(rig, found, solver_, shape_);
  }

  Plan run(PlanStates states) {
    const Line& line = found_.mesh.line;
    WalkerSweep sweep(rig_, found_.mesh, line, found_.standing, shape_, ledger_, rig_.backup.joint, units_);
    const bool all = states == PlanStates::all;
    plan_.walker = visit(sweep, all ? sweep.all_places() : sweep.bay_places(), rig_.walker.mass, "walker at {}", true);
    if (all) visit_more(sweep);
    if (rig_.backup.joint == Joint::ring) {
      WalkerSweep locked(rig_, found_.mesh, line, found_.standing, shape_, ledger_, Joint::taped, units_);
      plan_.walker_other_joint =
          visit(locked, all ? locked.all_places() : locked.bay_places(), rig_.walker.mass, "rings locked, walker at {}", true);
    }
    if (all && rig_.wind) plan_.wind = wind(rig_.wind->speed);
    if (all && rig_.main.tension) plan_.pull_through = pull_through();
    pick_worst();
    plan_.forces = ledger_.forces();
    note_extrapolation();
    note_ground_above();
    return std::move(plan_);
  }

 private:
  // Asked places, and two people.
  void visit_more(WalkerSweep& sweep) {
    std::vector<WalkerSweep::Place> extra;
    for (std::size_t i = 0; i < rig_.extra_places.size(); ++i) {
      extra.push_back({found_.mesh.asked[i], rig_.extra_places[i], false});
    }
    plan_.extra = visit(sweep, extra, rig_.walker.mass, "walker at {}", false);
    for (const WalkerPlace& place : plan_.extra) {
      plan_.notes.push_back(fmt::format("The place asked at {} along the unloaded main stands at {} of the gap.",
                                        quantity_text(place.s, Measure::length, units_),
                                        quantity_text(place.position, Measure::length, units_)));
    }
    const double two = rig_.walker.mass + rig_.walker.rescuer_mass.value;
    plan_.rescue = visit(sweep, sweep.bay_places(), two, "two people at {}", false);
  }

  std::vector<WalkerPlace> visit(WalkerSweep& sweep, const std::vector<WalkerSweep::Place>& places, double mass,
                                 const char* words, bool take_ankle_margins) {
    std::vector<WalkerPlace> out;
    for (const WalkerSweep::Place& place : places) {
      WalkerSweep::Answer answer = sweep.solve(place, weight(mass), words);
      require(answer.place, words);
      if (take_ankle_margins && sweep.is_middle(place)) lower_ankle_margin(plan_.bays[place.node.bay], answer.ankle_margin);
      out.push_back(std::move(answer.place));
    }
    return out;
  }

  // Rings run freely or lock: the lower margin of the two is the one to rig by.
  static void lower_ankle_margin(PlanBay& bay, double margin) { bay.ankle_margin = std::min(bay.ankle_margin, margin); }

  static void require(const WalkerPlace& place, const char* words) {
    if (place.certified) return;
    throw NoCertificate{fmt::format(fmt::runtime(words), quantity_text(place.position, Measure::length, UnitSystem::metric)), place.certificate};
  }

  WindState wind(double speed) {
    WindState out;
    out.speed = speed;
    const Line blown = in_side_wind(found_.mesh, solver_, found_.standing, speed);
    EquilibriumSolver solver(blown);
    const Equilibrium at = solver.solve_from(found_.standing);
    if (!at.certified()) throw NoCertificate{"standing in the wind", at.certificate};
    ledger_.enter(solver.chains(), at, fmt::format("standing in wind of {}", quantity_text(speed, Measure::speed, units_)));
    const Shape shape = solver.shape(at);
    for (std::size_t k = 0; k < blown.bays(); ++k) {
      for (const Vec3& node : shape.main[k]) out.blow_out = std::max(out.blow_out, node.y);
      for (const Vec3& node : shape.loop[k]) out.loop_blow_out = std::max(out.loop_blow_out, node.y);
    }
    if (const auto least = line_clearance(rig_, shape)) out.line_clearance = least->distance;
    if (const auto least = edge_distance(rig_, shape)) out.edge_distance = least->distance;
    WalkerSweep sweep(rig_, found_.mesh, blown, at, shape_, ledger_, Joint::taped, units_);
    const Vec3 force = weight(rig_.walker.mass) + walker_drag(rig_.walker, speed);
    for (const WalkerSweep::Place& place : sweep.bay_places()) {
      const WalkerPlace here = sweep.solve(place, force, "walker in the wind at {}").place;
      require(here, "walker in the wind at {}");
      if (here.tension_max > out.tension_max) out.tension_max = here.tension_max, out.worst = here;
      out.feet.push_back(here.foot);
      keep_least(out.line_clearance, here.line_clearance);
      keep_least(out.edge_distance, here.edge_distance);
    }
    if (const auto between = between_zones(rig_)) {
      const auto least = foot_clearance(rig_, out.feet, *between);
      if (least) out.hang_clearance = least->distance - plan_.body_below_main;
    }
    return out;
  }

  std::optional<PullThrough> pull_through() {
    const double hand_tight = rig_.main.hand_tight.value;
    if (hand_tight >= plan_.standing.tension_near) {
      plan_.notes.push_back("Hand-tight is not below the standing tension: there is nothing to pull through.");
      return std::nullopt;
    }
    const std::optional<Slackened> hand = slacken(found_, hand_tight);
    if (!hand) {
      // Below about three quarters of its own weight no line hangs, however long: long lines have no such state.
      plan_.notes.push_back(fmt::format("No hanging line was found at the hand-tight tension of {}: a line this "
                                        "heavy pulls harder by its own weight. State a higher [main] hand_tight to "
                                        "learn what to pull through.",
                                        quantity_text(hand_tight, Measure::force, units_)));
      return std::nullopt;
    }
    PullThrough out{hand_tight, hand->length, 0.0};
    for (const Vec3& tape : hand->line.tapes) {
      out.sag = std::max(out.sag, rig_.site.rise * tape.x / rig_.site.gap - tape.z);
    }
    if (out.sag > kDeepHandTightSag * rig_.site.gap) {
      plan_.notes.push_back(fmt::format("Hand-tight the line sags {}: see that it does not lie on the ground, or state a "
                                        "higher [main] hand_tight.", quantity_text(out.sag, Measure::length, units_)));
    }
    return out;
  }

  void pick_worst() {
    for (std::size_t i = 0; i < plan_.walker.size(); ++i) {
      const WalkerPlace& here = plan_.walker[i];
      if (here.tension_max > plan_.walker[plan_.worst_tension].tension_max) plan_.worst_tension = i;
      if (here.sag > plan_.walker[plan_.worst_sag].sag) plan_.worst_sag = i;
      if (!here.hang_clearance || here.in_anchor_zone) continue;
      if (!plan_.worst_hang || *here.hang_clearance < *plan_.walker[*plan_.worst_hang].hang_clearance) {
        plan_.worst_hang = i;
      }
    }
    for (std::size_t k = 0; k < plan_.bays.size(); ++k) {
      if (plan_.bays[k].ankle_margin < plan_.bays[plan_.worst_ankle_bay].ankle_margin) plan_.worst_ankle_bay = k;
    }
  }

  // Heights are below the near anchor as a rule; a lost minus puts the ground into the sky.
  void note_ground_above() {
    for (const GroundPoint& p : rig_.site.ground) {
      const double chord = rig_.site.rise * p.distance / rig_.site.gap;
      if (p.height <= chord || p.distance <= 0.0 || p.distance >= rig_.site.gap) continue;
      plan_.notes.push_back(fmt::format("The ground at {} stands above the straight line between the anchors: is a minus "
                                        "missing?", quantity_text(p.distance, Measure::length, units_)));
      return;
    }
  }

  void note_extrapolation() {
    for (const PieceForce& force : plan_.forces) {
      if (force.kind != Piece::Kind::webbing) continue;
      const WebbingRun& run = force.on_backup ? rig_.backup.run : rig_.main.run;
      const Webbing& webbing = rig_.webbings[run.segments[force.index].webbing];
      if (force.tension <= webbing.curve.last_measured_tension()) continue;
      plan_.notes.push_back(fmt::format(
          "{}: {} ({}) is past its last measured point, {}; the curve goes on by its last slope.", force.name,
          quantity_text(force.tension, Measure::force, units_), force.state,
          quantity_text(webbing.curve.last_measured_tension(), Measure::force, units_)));
    }
  }

  const Rig& rig_;
  const StandingRig& found_;
  UnitSystem units_;
  EquilibriumSolver solver_;
  Shape shape_;
  ForceLedger ledger_;
  Plan plan_;
};

}  // namespace

PlanOutcome make_plan(const Rig& rig, const PlanOptions& options) {
  if (std::vector<Problem> problems = find_problems(rig); !problems.empty()) throw InputError(std::move(problems));
  StandingOutcome found = find_natural_lengths(rig, {options.main_bars, options.loop_bars}, options.units);
  if (!found.rig) {
    const auto reason = found.why.no_certificate ? PlanFailure::Reason::no_certificate
                                                 : PlanFailure::Reason::cannot_stand;
    return {std::nullopt, PlanFailure{reason, found.why.words}};
  }
  try {
    return {Planner(rig, *found.rig, options.units).run(options.states), std::nullopt};
  } catch (const NoCertificate& no) {
    return {std::nullopt,
            PlanFailure{PlanFailure::Reason::no_certificate,
                        fmt::format("No proven equilibrium for: {}. {:.3g} N were left unbalanced after {} steps.",
                                    no.where, no.certificate.residual, no.certificate.iterations)}};
  }
}

}  // namespace spanloom
