#include "plan_fixture.h"

#include <cmath>

namespace spanloom::fixture {
namespace {

constexpr double kStretch = 0.036;      // of the standing main [-]
constexpr double kMainWeight = 1.15;    // main and backup [N per metre of gap]

Webbing webbing(std::string name, double mass_per_length) {
  Webbing w;
  w.name = std::move(name);
  w.mass_per_length = mass_per_length;
  w.width = Stated<double>::by_default(0.025);
  w.thickness = Stated<double>::by_default(0.0025);
  w.wet_keeps = Stated<double>::by_default(0.9);
  w.strength = 32e3;
  w.curve = StretchCurve::linear(125e3);
  return w;
}

Rig rig_of(const Shape& shape) {
  Rig rig = rig_with_defaults();
  rig.title = shape.title;
  rig.site.gap = shape.gap;
  rig.site.rise = shape.rise;
  if (shape.ground_depth > 0.0) {
    const double w = shape.gap, d = shape.ground_depth;
    rig.site.ground = {{-4.0, 0.3},       {0.04 * w, -0.4}, {0.09 * w, -0.5 * d}, {0.25 * w, -0.8 * d},
                       {0.55 * w, -d},    {0.8 * w, -0.7 * d}, {0.93 * w, -0.4 * d},
                       {0.97 * w, shape.rise - 0.5}, {w + 4.0, shape.rise + 0.2}};
  }
  rig.webbings = {webbing("river", 0.061), webbing("brook", 0.052)};
  rig.main.run.segments.clear();
  for (int i = 0; i < shape.main_segments; ++i) {
    const bool is_last = i + 1 == shape.main_segments;
    rig.main.run.segments.push_back(
        {0, is_last ? std::nullopt : std::optional(0.4 * shape.gap / shape.main_segments)});
    if (!is_last) rig.main.run.connectors.push_back({"soft link", 0.08, 0.06, 40e3});
  }
  rig.main.run.near_hardware = {"grip and shackle", 0.9, 0.35, 45e3};
  rig.main.run.far_hardware = {"ring and shackle", 0.6, 0.22, 45e3};
  rig.main.tension = shape.tension;
  rig.backup.run.segments = {{1, std::nullopt}};
  rig.backup.amount = SlackShare{{0.012}};
  rig.backup.joint = shape.joint;
  rig.backup.tape_mass = 0.012;
  rig.spacing.arm_span = Stated<double>::given(1.75);
  rig.spacing.pattern = EvenBays{shape.gap / shape.bays};
  rig.walker.mass = 78.0;
  return rig;
}

class PlanMaker {
 public:
  PlanMaker(const Rig& rig, const Shape& shape) : rig_(rig), shape_(shape) {}

  Plan make() {
    add_bays();
    add_standing();
    add_walkers();
    plan_.pull_through = PullThrough{300.0, 0.028 * shape_.gap, 0.05 * shape_.gap};
    plan_.body_below_main = rig_.walker.leash.value + rig_.walker.foot_to_hip.value;
    plan_.notes = {"The end bays take up what the spacing left over: 2.31 m near, 2.18 m far."};
    plan_.forces.push_back({.name = "main segment 1 (river)",
                            .tension = 1.3 * shape_.tension, .state = "walker at the middle"});
    return std::move(plan_);
  }

 private:
  double chord(double x) const { return shape_.rise * x / shape_.gap; }
  double sag(double x) const {
    return 0.5 * kMainWeight * x * (shape_.gap - x) / shape_.tension;
  }
  double bay_start(int k) const {  // a bay is up to a fifth longer or shorter than the mean
    if (k == 0 || k == shape_.bays) return shape_.gap * k / shape_.bays;
    return shape_.gap * (k + 0.2 * std::sin(2.3 * k)) / shape_.bays;
  }
  std::optional<double> over_ground(double x, double z) const {
    const auto& ground = rig_.site.ground;
    for (std::size_t i = 1; i < ground.size(); ++i) {
      if (x > ground[i].distance) continue;
      const double share = (x - ground[i - 1].distance) / (ground[i].distance - ground[i - 1].distance);
      return z - (ground[i - 1].height + share * (ground[i].height - ground[i - 1].height));
    }
    return std::nullopt;
  }

  void add_bays() {
    double running = 0.0;
    for (int k = 0; k < shape_.bays; ++k) {
      PlanBay bay;
      bay.number = k + 1;
      bay.from = bay_start(k);
      bay.to = bay_start(k + 1);
      bay.main_standing = std::hypot(bay.to - bay.from, chord(bay.to) - chord(bay.from));
      bay.main_natural = bay.main_standing / (1.0 + kStretch);
      running += bay.main_natural;
      bay.tape_s = running;
      bay.slack = 0.012;
      bay.backup_natural = bay.main_standing * (1.0 + bay.slack);
      bay.arm_spans = bay.main_natural / rig_.spacing.arm_span.value;
      bay.drop = bay.main_standing * std::sqrt(3.0 * bay.slack / 8.0);  // from 8 d^2 / (3 l)
      bay.ankle_margin = bay.drop - 0.075 - 0.01 * std::cos(k);
      bay.ends_leftover = k == 0 || k + 1 == shape_.bays;
      plan_.bays.push_back(bay);
      plan_.rigged.loop_length.push_back(bay.backup_natural);
      if (k + 1 < shape_.bays) plan_.rigged.tape_s.push_back(running);
    }
    for (std::size_t k = 0; k < plan_.bays.size(); ++k) {
      if (plan_.bays[k].ankle_margin < plan_.bays[plan_.worst_ankle_bay].ankle_margin) plan_.worst_ankle_bay = k;
    }
  }

  void add_standing() {
    StandingLine& line = plan_.standing;
    line.tension_near = shape_.tension;
    line.tension_far = shape_.tension - 1.2;
    line.near = {{shape_.tension, 0.0, -40.0}, {12.0, 0.0, -8.0}};
    line.far = {{-shape_.tension, 0.0, -40.0}, {-12.0, 0.0, -8.0}};
    line.sag = sag(0.5 * shape_.gap);
    line.sag_at = 0.5 * shape_.gap;
    line.main_natural_length = plan_.bays.back().tape_s;
    for (const PlanBay& bay : plan_.bays) line.backup_natural_length += bay.backup_natural;
    line.round_trip = 2.0 * shape_.gap / std::sqrt(shape_.tension / 0.113);
    line.backup_tension_max = 14.0;
    const double last = shape_.main_segments > 1 ? 0.4 * shape_.gap / shape_.main_segments : 0.0;
    plan_.rigged.main_segment_length.assign(static_cast<std::size_t>(shape_.main_segments), last);
    plan_.rigged.main_segment_length.back() =
        line.main_natural_length - (shape_.main_segments - 1) * (last + 0.06);
    plan_.rigged.backup_segment_length = {line.backup_natural_length};
    line.tapes.push_back({0.0, 0.0, 0.0});
    for (const PlanBay& bay : plan_.bays) {
      constexpr int kBars = 16;
      std::vector<Vec3> loop;
      for (int i = 0; i <= kBars; ++i) {
        const double share = static_cast<double>(i) / kBars;
        const double x = bay.from + share * (bay.to - bay.from);
        const double z = chord(x) - sag(x);
        line.main_shape.push_back({x, 0.0, z});
        loop.push_back({x, 0.0, z - 4.0 * bay.drop * share * (1.0 - share)});
      }
      line.loop_shapes.push_back(loop);
      line.tapes.push_back({bay.to, 0.0, chord(bay.to) - sag(bay.to)});
    }
    line.ground_clearance = over_ground(0.3 * shape_.gap, chord(0.3 * shape_.gap) - line.sag);
    line.ground_clearance_at = 0.3 * shape_.gap;
    line.certificate = {9, 2e-9, 1e-9, shape_.tension, 1e-10, 3e3};
  }

  WalkerPlace place(double x, int bay, bool at_tape) const {
    const double weight = rig_.walker.mass * 9.80665;
    WalkerPlace p;
    p.position = x;
    p.s = x / (1.0 + kStretch);
    p.bay = bay;
    p.at_tape = at_tape;
    p.sag = sag(x) + weight * x * (shape_.gap - x) / (shape_.gap * 1.2 * shape_.tension);
    p.slope = 0.09;
    p.tension_near = p.tension_far = (1.0 + 0.6 * x * (shape_.gap - x) / (shape_.gap * shape_.gap)) * shape_.tension;
    p.tension_max = p.tension_near + 5.0;
    p.near = {{p.tension_near, 0.0, -400.0}, {20.0, 0.0, -9.0}};
    p.far = {{-p.tension_far, 0.0, -380.0}, {-20.0, 0.0, -9.0}};
    p.backup_tension_max = 18.0;
    p.backup_tension_bay = bay;
    const double z = chord(x) - p.sag;
    p.foot = {x, 0.0, z};
    p.ground_clearance = over_ground(x, z);
    if (p.ground_clearance) {
      p.hang_clearance = *p.ground_clearance - rig_.walker.leash.value - rig_.walker.foot_to_hip.value;
      p.line_clearance = *p.ground_clearance - 0.3;
    }
    const double zone = rig_.limits.anchor_zone.value;
    p.in_anchor_zone = x < zone || x > shape_.gap - zone;
    p.certificate = {7, 3e-9, 1e-9, p.tension_max, 1e-10, 3e3};
    return p;
  }

  void add_walkers() {
    for (const PlanBay& bay : plan_.bays) {
      plan_.walker.push_back(place(0.5 * (bay.from + bay.to), bay.number, false));
      if (bay.number < shape_.bays) plan_.walker.push_back(place(bay.to, bay.number, true));
      plan_.rescue.push_back(place(0.5 * (bay.from + bay.to), bay.number, false));
      plan_.rescue.back().near.main = 1.2 * plan_.rescue.back().near.main;
      plan_.rescue.back().far.main = 1.2 * plan_.rescue.back().far.main;
    }
    for (std::size_t i = 0; i < plan_.walker.size(); ++i) {
      const WalkerPlace& p = plan_.walker[i];
      if (p.tension_max > plan_.walker[plan_.worst_tension].tension_max) plan_.worst_tension = i;
      if (p.sag > plan_.walker[plan_.worst_sag].sag) plan_.worst_sag = i;
      if (p.in_anchor_zone || !p.hang_clearance) continue;
      if (!plan_.worst_hang || *p.hang_clearance < *plan_.walker[*plan_.worst_hang].hang_clearance) {
        plan_.worst_hang = i;
      }
    }
  }

  const Rig& rig_;
  const Shape& shape_;
  Plan plan_;
};

std::vector<Check> some_checks() {
  return {{"main_strength", "Main: strength over greatest tension", 5.12, 3.0, "-", true, Verdict::caution,
           "The main holds 5.12 times its greatest tension, walker at 31.00 m; the wanted ratio is our default.",
           {"limits.ratio = 3"}},
          {"ground_clearance", "Clearance over the ground", 1.62, 2.0, "m", true, Verdict::stop,
           "The body on the leash hangs 1.62 m over the ground at 48.20 m; raise the line or move it.",
           {"limits.reserve = 2 m"}},
          {"near_anchor_strength", "Near anchor: strength over greatest load", 0.0, 2.5, "-", false,
           Verdict::caution, "The file gives no strength for the near anchor; state anchor.near.strength.",
           {"limits.anchor_ratio = 2.5"}},
          {"ankle_margin", "Ankle margin", 0.042, 0.0, "m", true, Verdict::ok,
           "The backup stays 42 mm below the main at the foot in every bay.", {}}};
}

}  // namespace

Sample sample(const Shape& shape) {
  Sample out;
  out.rig = rig_of(shape);
  out.plan = PlanMaker(out.rig, shape).make();
  out.checks = some_checks();
  return out;
}

}  // namespace spanloom::fixture
