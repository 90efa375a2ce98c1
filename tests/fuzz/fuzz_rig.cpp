// Rig files: a rig in which all is finite and consistent, or errors with their places.
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <variant>

#include "files/rig_toml.h"
#include "fuzz_check.h"
#include "rig/find_problems.h"

namespace spanloom::fuzz {
namespace {

void demand_finite_webbing(const Webbing& w) {
  for (double v : {w.mass_per_length, w.width.value, w.thickness.value, w.strength, w.loss.value_or(0.0),
                   w.wet_keeps.value}) {
    demand_finite(v, "a webbing is finite");
  }
  for (const CurvePoint& p : w.curve.points()) {
    demand_finite(w.curve.tension(p.stretch), "a curve is finite");
    demand_finite(w.curve.stiffness(p.stretch), "a curve's slope is finite");
    demand_finite(w.curve.energy(p.stretch), "a curve's energy is finite");
  }
  demand_finite(w.curve.stretch_at(w.strength).stretch, "the stretch at the strength is finite");
}

void demand_finite_run(const WebbingRun& run, std::size_t webbings) {
  demand(!run.segments.empty(), "a run has a segment");
  for (const Segment& segment : run.segments) {
    demand(segment.webbing < webbings, "a segment's webbing exists");
    demand_finite(segment.natural_length.value_or(0.0), "a segment is finite");
  }
  std::vector<Link> links = run.connectors;
  links.push_back(run.near_hardware);
  links.push_back(run.far_hardware);
  for (const Link& link : links) {
    for (double v : {link.mass, link.length, link.strength.value_or(0.0)}) demand_finite(v, "a link is finite");
  }
  for (double v : {run.near_end.keeps.value, run.far_end.keeps.value, run.near_tail.value, run.far_tail.value}) {
    demand_finite(v, "an end is finite");
  }
}

void demand_finite_lists(const Rig& rig) {
  std::vector<std::vector<double>> lists = {rig.extra_places};
  std::visit([&](const auto& amount) { lists.push_back(amount.of_bay); }, rig.backup.amount);
  if (const auto* repeat = std::get_if<RepeatArmSpans>(&rig.spacing.pattern)) lists.push_back(repeat->arm_spans);
  if (const auto* at = std::get_if<TapesAt>(&rig.spacing.pattern)) lists.push_back(at->positions);
  if (const auto* even = std::get_if<EvenBays>(&rig.spacing.pattern)) lists.push_back({even->length});
  if (rig.spacing.close) {
    lists.push_back({rig.spacing.close->centre, rig.spacing.close->length, rig.spacing.close->arm_spans});
  }
  for (const std::vector<double>& list : lists) {
    for (double v : list) demand_finite(v, "a list is finite");
  }
}

void demand_finite_rig(const Rig& rig) {
  for (const GroundPoint& p : rig.site.ground) demand(std::isfinite(p.distance + p.height), "the ground is finite");
  for (const Webbing& webbing : rig.webbings) demand_finite_webbing(webbing);
  demand_finite_run(rig.main.run, rig.webbings.size());
  demand_finite_run(rig.backup.run, rig.webbings.size());
  demand_finite_lists(rig);
  demand(is_finite(rig.backup.near_offset) && is_finite(rig.backup.far_offset), "the offsets are finite");
  const Limits& l = rig.limits;
  for (double v : {rig.site.gap, rig.site.rise, rig.main.tension.value_or(0.0), rig.main.hand_tight.value,
                   rig.backup.tape_strength.value_or(0.0), rig.backup.tape_mass, rig.spacing.arm_span.value,
                   rig.walker.mass, rig.walker.leash.value, rig.walker.foot_to_hip.value,
                   rig.walker.rescuer_mass.value, rig.walker.drag_area.value,
                   rig.wind ? rig.wind->speed + rig.wind->gust.value_or(0.0) + rig.wind->gust_time.value : 0.0,
                   rig.shake.swing.value, rig.shake.bounce.value, rig.near_anchor.strength.value_or(0.0),
                   rig.near_anchor.edge.value_or(0.0), rig.far_anchor.strength.value_or(0.0),
                   rig.far_anchor.edge.value_or(0.0), l.ratio.value, l.anchor_ratio.value, l.least_drop.value,
                   l.least_ankle_margin.value, l.reserve.value, l.anchor_zone.value, l.edge_distance.value,
                   l.backup_tension.value}) {
    demand_finite(v, "a value is finite");
  }
}

void demand_finite_catch(const Rig& rig) {
  const Walker& w = rig.walker;
  demand(!w.leash_webbing || *w.leash_webbing < rig.webbings.size(), "the webbing of the leash exists");
  for (double v : {w.leash_keeps.value, w.leash_ring_mass.value, w.leash_ring_friction.value,
                   rig.backup.ring_friction.value, rig.limits.body_force.value, rig.limits.wall_reserve.value}) {
    demand_finite(v, "a value of a catch is finite");
  }
  for (const AnchorSpec* anchor : {&rig.near_anchor, &rig.far_anchor}) {
    demand_finite(anchor->wall.value_or(0.0) + anchor->leg_stiffness.value, "an anchor is finite");
    for (const AnchorPoint& point : anchor->points) {
      demand(is_finite(point.at) && norm(point.at) > 0.0, "a point is finite and somewhere else");
      demand_finite(point.strength.value_or(0.0), "the strength of a point is finite");
    }
  }
}

/// Side files for whatever the mutated rig file asks for.
SideFile side_file(const std::string& name) {
  if (name.starts_with("ground")) return {"distance [m],height [m]\n0,-5\n2000,-5\n", ""};
  if (name.starts_with("brook")) return {"tension [kN],stretch [%]\n2,1.9\n10,6.5\n", ""};
  return {std::nullopt, "no such file"};
}

}  // namespace
}  // namespace spanloom::fuzz

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace spanloom;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  try {
    const RigFile file = read_rig(text, "rig.toml", fuzz::side_file);
    fuzz::demand(find_problems(file.rig).empty(), "a rig that was read is consistent");
    fuzz::demand_finite_rig(file.rig);
    fuzz::demand_finite_catch(file.rig);
  } catch (const FileError& error) {
    fuzz::demand_located(error.problems());
  }
  return 0;
}
