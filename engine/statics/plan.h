// Everything the statics say about a rig: lengths, the standing line, every walker place, wind.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "base/vec3.h"
#include "rig/rig.h"
#include "rig/rigged.h"
#include "statics/equilibrium.h"
#include "statics/force_ledger.h"

namespace spanloom {

/// Force of the line on one anchor [N].
struct AnchorLoad {
  Vec3 main;
  Vec3 backup;
  Vec3 total() const { return main + backup; }
};

struct StandingLine {
  double tension_near = 0.0;        ///< of the main at the near anchor [N]
  double tension_far = 0.0;         ///< [N]
  AnchorLoad near;
  AnchorLoad far;
  double sag = 0.0;                 ///< greatest, below the straight line between the anchors [m]
  double sag_at = 0.0;              ///< where, on the gap axis [m]
  double main_natural_length = 0.0; ///< webbing and connectors, no end hardware [m]
  double backup_natural_length = 0.0;
  double round_trip = 0.0;          ///< 2 gap / sqrt(T / (main + backup mass per metre of gap)) [s]
  double backup_tension_max = 0.0;  ///< [N]
  std::optional<double> ground_clearance;     ///< least of line and loops outside the zones [m]
  std::optional<double> ground_clearance_at;  ///< where, on the gap axis [m]
  std::optional<double> zone_distance;        ///< least distance of line and loops to the ground in the zones [m]
  std::optional<double> zone_distance_at;     ///< where, on the gap axis [m]
  std::vector<Vec3> main_shape;     ///< nodes of the main from anchor to anchor [m]
  std::vector<std::vector<Vec3>> loop_shapes;  ///< nodes of each loop, tape to tape [m]
  std::vector<Vec3> tapes;          ///< bays + 1 places, anchors included [m]
  Certificate certificate;
};

struct PlanBay {
  int number = 0;                   ///< from 1 at the near anchor
  double from = 0.0, to = 0.0;      ///< on the gap axis, standing [m]
  double tape_s = 0.0;              ///< running length of the far tape along the unloaded main [m]
  double main_natural = 0.0;        ///< webbing and connectors in the bay, no end hardware [m]
  double backup_natural = 0.0;      ///< the same of the loop [m]
  double arm_spans = 0.0;           ///< main_natural / arm span [-]
  double main_standing = 0.0;       ///< stretched length of main, end hardware included [m]
  double drop = 0.0;                ///< greatest vertical distance main to loop, standing [m]
  double slack = 0.0;               ///< [-]
  double ankle_margin = 0.0;        ///< walker at its middle; with rings the lower of free and locked [m]
  bool ends_leftover = false;       ///< takes up what was left over of the spacing
  bool close = false;               ///< one of the close bays, where tricks are done
};

struct WalkerPlace {
  double position = 0.0;            ///< the foot's point of the main on the gap axis, standing [m]
  double s = 0.0;                   ///< the same along the unloaded main from the near connector [m]
  int bay = 0;                      ///< number of the bay; at a tape the one before it
  bool at_tape = false;
  Vec3 foot;                        ///< the foot's point of the main under this load [m]
  double sag = 0.0;                 ///< of the foot's point below the anchor line [m]
  double slope = 0.0;               ///< steepest main next to the foot, rise over run [-]
  double tension_near = 0.0, tension_far = 0.0;  ///< main at the anchors [N]
  double tension_max = 0.0;         ///< anywhere in the main [N]
  AnchorLoad near, far;
  double backup_tension_max = 0.0;  ///< [N]
  int backup_tension_bay = 0;       ///< where that is
  std::optional<double> ground_clearance;  ///< of the foot's point straight down [m]
  std::optional<double> hang_clearance;    ///< of the feet of the body hanging still on the leash [m]
  std::optional<double> line_clearance;    ///< least of main and loops outside the zones [m]
  std::optional<double> edge_distance;     ///< least of main and loops to the ground in the zones [m]
  bool in_anchor_zone = false;
  double sideways = 0.0;            ///< blow-out of the foot's point towards +y [m]
  Certificate certificate;
  bool certified = false;           ///< always true in a Plan
};

struct WindState {
  double speed = 0.0;               ///< [m/s]
  double blow_out = 0.0;            ///< greatest sideways distance of the main, standing [m]
  double loop_blow_out = 0.0;       ///< of the loops [m]
  double tension_max = 0.0;         ///< main, walker at the worst place [N]
  std::optional<double> hang_clearance;  ///< between the places too [m]
  std::optional<double> line_clearance;  ///< with and without walker [m]
  std::optional<double> edge_distance;   ///< with and without walker [m]
  std::vector<Vec3> feet;           ///< the foot's points, walker at every bay middle [m]
  WalkerPlace worst;                ///< walker where the tension is greatest
};

/// Pulling the main through from hand-tight to standing, loops hung.
struct PullThrough {
  double hand_tight = 0.0;          ///< [N]
  double length = 0.0;              ///< natural length of main pulled through [m]
  double sag = 0.0;                 ///< of the hand-tight line [m]
};

struct Plan {
  Rigged rigged;
  StandingLine standing;
  std::vector<PlanBay> bays;
  std::vector<WalkerPlace> walker;        ///< tapes and bay middles in order from the near anchor
  std::vector<WalkerPlace> extra;         ///< asked for in the file
  std::vector<WalkerPlace> rescue;        ///< two people, at the middle of every bay
  std::vector<WalkerPlace> walker_other_joint;  ///< rings: the same places with the rings locked
  std::optional<WindState> wind;
  std::optional<PullThrough> pull_through;      ///< empty when the lengths were given
  std::vector<PieceForce> forces;         ///< greatest of each segment and link
  std::size_t worst_tension = 0;          ///< index into walker
  std::size_t worst_sag = 0;              ///< index into walker
  std::optional<std::size_t> worst_hang;  ///< index into walker, least hang_clearance outside the zones
  std::size_t worst_ankle_bay = 0;        ///< index into bays
  double body_below_main = 0.0;           ///< leash + foot to hip [m]
  std::vector<std::string> notes;         ///< what was left over, what was extrapolated, in words
};

/// Why there is no plan: a solve without a certificate, or a line that cannot stand.
struct PlanFailure {
  enum class Reason { no_certificate, cannot_stand };
  Reason reason = Reason::no_certificate;
  std::string words;                      ///< for the rigger: what and why, and what to change
};

/// Which states of the line a plan looks at.
enum class PlanStates {
  all,                                    ///< standing, walker, asked places, two people, wind, hand-tight
  walker                                  ///< standing, and one walker between the tapes in still air: while a hand moves a tape
};

struct PlanOptions {
  int main_bars = 16;                     ///< per bay, even [-]
  int loop_bars = 16;                     ///< per bay [-]
  PlanStates states = PlanStates::all;    ///< forces and worst places are of these alone
  UnitSystem units = UnitSystem::metric;  ///< of notes and words
};

struct PlanOutcome {
  std::optional<Plan> plan;
  std::optional<PlanFailure> failure;     ///< set exactly when plan is empty
};

/// Solves the whole plan of a valid rig.
/// @throws InputError if find_problems(rig) is not empty, or per-bay lists do not fit the tapes
[[nodiscard]] PlanOutcome make_plan(const Rig& rig, const PlanOptions& options = {});

}  // namespace spanloom
