// What the crew asks for: the rig as written in a rig file, in SI.
// Frame: origin at the near anchor, x towards the far one, y left, z up.
// `s` is always a natural length along the unloaded main, 0 where the near hardware ends.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/stated.h"
#include "base/vec3.h"
#include "webbing/webbing.h"

namespace spanloom {

/// A point of the ground under the line.
struct GroundPoint {
  double distance;  ///< along the gap from the near anchor [m]
  double height;    ///< above the near anchor [m], negative below
};

struct Site {
  double gap = 0.0;                  ///< horizontal distance between the anchors [m], > 0
  double rise = 0.0;                 ///< far anchor above the near one [m]
  std::vector<GroundPoint> ground;   ///< rising distance; empty: not given
};

/// How a webbing is held at an end. It loses strength there.
enum class EndKind { knot, clamp, sewn };

struct WebbingEnd {
  Stated<EndKind> kind;
  Stated<double> keeps;              ///< share of strength left at this end [-], in (0, 1]
};

/// A metal or soft link: between two segments, or between an anchor and the webbing.
struct Link {
  std::string name;
  double mass = 0.0;                 ///< [kg], >= 0
  double length = 0.0;               ///< that it takes of the gap [m], >= 0
  std::optional<double> strength;    ///< [N]
};

struct Segment {
  std::size_t webbing = 0;           ///< index into Rig::webbings
  /// Natural length [m]. Empty on the last segment of a main with a wanted tension, and on the last
  /// segment of every backup: there it is what the solver finds.
  std::optional<double> natural_length;
};

/// Segments from the near to the far anchor with connectors between them.
struct WebbingRun {
  std::vector<Segment> segments;     ///< at least one
  std::vector<Link> connectors;      ///< one fewer than segments
  Link near_hardware;                ///< length 0: none
  Link far_hardware;
  WebbingEnd near_end;
  WebbingEnd far_end;
  WebbingEnd joint_end;              ///< how segments are held at the connectors between them
  Stated<double> near_tail;          ///< webbing beyond the end, to cut in addition [m]
  Stated<double> far_tail;
};

struct MainSpec {
  WebbingRun run;
  /// Wanted standing tension of the main at the near anchor [N]; empty: all lengths are given.
  std::optional<double> tension;
  Stated<double> hand_tight;         ///< tension that the line is pulled to by hand [N]
};

enum class Joint { taped, ring };

/// Share of slack: (natural length of the loop) / (standing length of the main in its bay) - 1 [-].
struct SlackShare { std::vector<double> of_bay; };   ///< one value for all bays, or one per bay
/// Greatest vertical distance between main and loop when standing [m].
struct LoopDrop { std::vector<double> of_bay; };
/// Natural length of each loop, hardware included [m].
struct LoopLength { std::vector<double> of_bay; };

struct BackupSpec {
  WebbingRun run;
  std::variant<SlackShare, LoopDrop, LoopLength> amount;
  Joint joint = Joint::taped;
  Vec3 near_offset;                  ///< backup anchor from the main's near anchor [m]
  Vec3 far_offset;                   ///< backup anchor from the main's far anchor [m]
  std::optional<double> tape_strength;  ///< force that tears a tape [N]; empty: not known
  Stated<double> ring_friction;      ///< of the backup in its slider rings [-], in [0, 1]
  double tape_mass = 0.0;            ///< of one tape or ring [kg], >= 0
};

/// Bays of so many arm spans, repeated from the near anchor.
struct RepeatArmSpans { std::vector<double> arm_spans; };
/// Tapes at given natural lengths from the near anchor's connector [m].
struct TapesAt { std::vector<double> positions; };
/// Equal bays [m]; the two end bays share what is left over.
struct EvenBays { double length; };

/// A run of short bays where tricks are done. Beside tapes at given places it lays out none: it says where that is.
struct CloseBays {
  double centre;                     ///< natural length from the near anchor's connector [m]
  double length;                     ///< [m]
  double arm_spans;                  ///< each bay [arm spans]
};

struct Spacing {
  Stated<double> arm_span;           ///< [m]
  std::variant<RepeatArmSpans, TapesAt, EvenBays> pattern;
  std::optional<CloseBays> close;
};

/// What the leash ring runs on. Around the main alone it holds nobody when the main fails.
enum class LeashRing { around_both, around_main };

/// How a body takes a shock: as one mass, or as two joined by a spine (engine/events/faller.h).
enum class BodyModel { one_mass, two_masses };

struct Walker {
  double mass = 0.0;                 ///< [kg], > 0
  Stated<double> leash;              ///< ring to tie-in [m]
  Stated<double> foot_to_hip;        ///< [m]
  /// Curve, loss and strength of the leash: index into Rig::webbings; empty: generic_leash().
  std::optional<std::size_t> leash_webbing;
  Stated<double> leash_keeps;        ///< share of strength left at its ends [-], in (0, 1]
  Stated<LeashRing> leash_ring;
  Stated<double> leash_ring_mass;    ///< [kg], > 0
  Stated<double> leash_ring_friction;  ///< of the leash ring on webbing [-], in [0, 1]
  Stated<BodyModel> body;
  Stated<double> rescuer_mass;       ///< second person in a rescue [kg]
  Stated<double> drag_area;          ///< drag coefficient times area, standing side-on [m2]
};

struct Wind {
  double speed = 0.0;                ///< steady, from the side towards +y [m/s], >= 0
  std::optional<double> gust{};      ///< greatest speed of a gust on top of it, >= speed [m/s]
  Stated<double> gust_time{};        ///< how long the gust takes to come and go [s], > 0
};

/// How hard the line is shaken to see what comes back.
struct ShakeSpec {
  Stated<double> swing;              ///< first swing at the shaken place [m], > 0
  Stated<double> bounce;             ///< first swing of a walker bouncing at the middle [m], > 0
};

/// One bolt, sling or piece of protection that a leg of an anchor ends at.
struct AnchorPoint {
  std::string name;
  Vec3 at;                           ///< from where the line is tied in, unloaded; x along the gap to the far side [m]
  std::optional<double> strength;    ///< [N]
};

enum class AnchorEnd { near, far };

/// How the legs share: each of its own fixed length, or one sling that runs through all points and the master point.
enum class LegKind { fixed, equalising };

struct AnchorSpec {
  std::optional<double> strength;    ///< of the whole anchor in the direction of the line [N]
  std::optional<double> edge;        ///< from the anchor to the edge of the ground, along the gap [m]
  /// The face below the anchor stands this far out from it along the gap [m]; empty: only the ground is known.
  std::optional<double> wall;
  std::vector<AnchorPoint> points;   ///< empty: the anchor is taken as one
  Stated<LegKind> legs;
  Stated<double> leg_stiffness;      ///< axial stiffness EA of a leg [N], > 0
};

/// What the crew wants kept.
struct Limits {
  Stated<double> ratio;              ///< strength / greatest force, main, backup and links [-]
  Stated<double> anchor_ratio;       ///< strength / greatest load of each anchor [-]
  Stated<double> least_drop;         ///< of any loop, standing [m]
  Stated<double> least_ankle_margin; ///< [m]
  Stated<double> reserve;            ///< clearance over the ground outside the anchor zones [m]
  Stated<double> anchor_zone;        ///< along the gap from each anchor [m]
  Stated<double> edge_distance;      ///< least distance of line and loops to the ground in the zones [m]
  Stated<double> backup_tension;     ///< most the backup may carry with a walker on an unbroken main [N]
  Stated<double> body_force;         ///< most that a catch may put on the body [N]
  Stated<double> wall_reserve;       ///< least distance of a falling body to a wall [m]
};

/// Places of the walker besides the sweep, natural length from the near connector [m].
using ExtraPlaces = std::vector<double>;

struct Rig {
  std::string title;
  Site site;
  std::vector<Webbing> webbings;
  MainSpec main;
  BackupSpec backup;
  Spacing spacing;
  Walker walker;
  std::optional<Wind> wind;
  ShakeSpec shake;
  AnchorSpec near_anchor;
  AnchorSpec far_anchor;
  Limits limits;
  ExtraPlaces extra_places;
};

/// Share of strength that we assume an end keeps when the file does not say [-]. Knots: rope figures of
/// 40 to 80 % in secondary texts; sewn ends 80 to 90 %; clamps: our guess.
double default_keeps(EndKind kind);

/// The defaults for everything that may be left out, in one place. What must be given stays 0 or empty.
Rig rig_with_defaults();

/// The same for the wind: how long a gust takes.
Wind wind_with_defaults();

/// The same for one webbing: width, thickness and what is left of the strength when wet.
Webbing webbing_with_defaults();

/// The leash where the file names no webbing for it.
Webbing generic_leash();

}  // namespace spanloom
