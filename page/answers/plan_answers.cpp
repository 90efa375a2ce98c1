#include "answers/plan_answers.h"

#include <stdexcept>

#include <fmt/format.h>

#include "answers/asked_rig.h"
#include "base/input_error.h"
#include "base/version.h"
#include "checks/verdicts.h"
#include "files/place_json.h"
#include "files/results_json.h"
#include "files/rig_edit.h"
#include "files/rig_value_edit.h"
#include "sheet/sheet.h"
#include "statics/walker_on_line.h"

namespace spanloom {
namespace {

/// x and z of points, one after the other [m].
Json flat(const std::vector<Vec3>& points) {
  Json out = Json::array();
  for (const Vec3& p : points) {
    out.push_back(finite(p.x));
    out.push_back(finite(p.z));
  }
  return out;
}

Json flat_loops(const std::vector<std::vector<Vec3>>& loops) {
  Json out = Json::array();
  for (const auto& loop : loops) out.push_back(flat(loop));
  return out;
}

/// The main from anchor to anchor, each node once.
std::vector<Vec3> one_main(const Shape& shape) {
  std::vector<Vec3> nodes{shape.main.front().front()};
  for (const auto& bay : shape.main) nodes.insert(nodes.end(), bay.begin() + 1, bay.end());
  return nodes;
}

Json picture_of(const Rig& rig, const Plan& plan) {
  Json ground = Json::array();
  for (const GroundPoint& p : rig.site.ground) {
    ground.push_back(p.distance);
    ground.push_back(p.height);
  }
  return {{"gap_m", rig.site.gap},
          {"rise_m", rig.site.rise},
          {"main", flat(plan.standing.main_shape)},
          {"loops", flat_loops(plan.standing.loop_shapes)},
          {"tapes", flat(plan.standing.tapes)},
          {"ground", std::move(ground)},
          {"edge_near_m", optional(rig.near_anchor.edge)},
          {"edge_far_m", optional(rig.far_anchor.edge)},
          {"anchor_zone_m", rig.limits.anchor_zone.value},
          {"reserve_m", rig.limits.reserve.value},
          {"least_ankle_margin_m", rig.limits.least_ankle_margin.value},
          {"least_drop_m", rig.limits.least_drop.value},
          {"arm_span_m", rig.spacing.arm_span.value},
          {"foot_to_hip_m", rig.walker.foot_to_hip.value},
          {"leash_m", rig.walker.leash.value},
          {"walker_kg", rig.walker.mass},
          {"swing_m", rig.shake.swing.value},
          {"joint", rig.backup.joint == Joint::ring ? "ring" : "taped"}};
}

/// What is wrong is what the hand asked for, not the file.
[[noreturn]] void refuse(const InputError& error) {
  const Problem& problem = error.problems().front();
  throw NoAnswer(fmt::format("{}: expected {}{}", problem.read, problem.expected,
                             problem.cure.empty() ? "" : " (" + problem.cure + ")"));
}

Taping retaped(const Json& edit, const Taping& now) {
  const std::string kind = edit.at("kind");
  try {
    if (kind == "take out") return take_out_tape(now, edit.at("tape"));
    if (kind == "move") return move_tape(now, edit.at("tape"), edit.at("to_natural_m"));
    if (kind == "add") return add_tape(now, edit.at("at_natural_m"));
  } catch (const InputError& error) {
    refuse(error);
  }
  throw std::invalid_argument("no edit " + kind);
}

const Taping& taping_kept(const Json& files, Kept& kept) {
  std::string key = files.dump();
  if (!kept.taping || kept.taping_of != key) {
    const RigFile file = asked_rig(files);
    kept.taping = taping_of(file.rig, planned(file.rig, {.states = PlanStates::walker}));
    kept.taping_of = std::move(key);
  }
  return *kept.taping;
}

}  // namespace

Plan planned(const Rig& rig, const PlanOptions& options) {
  PlanOutcome outcome = make_plan(rig, options);
  if (!outcome.plan) throw NoAnswer(outcome.failure->words);
  return std::move(*outcome.plan);
}

std::string plan_answer(const Json& args) {
  const RigFile file = asked_rig(args.at("files"));
  const UnitSystem units = asked_units(args.at("units"));
  const bool whole = args.at("whole");
  const Plan plan = planned(file.rig, {.states = whole ? PlanStates::all : PlanStates::walker, .units = units});
  const std::vector<Check> checks = whole ? judge(file.rig, plan, units) : std::vector<Check>{};
  return R"({"document":)" + plan_json(file.rig, plan, checks) + R"(,"picture":)" + picture_of(file.rig, plan).dump() +
         R"(,"whole":)" + (whole ? "true" : "false") + '}';
}

std::string walker_answer(const Json& args) {
  const RigFile file = asked_rig(args.at("files"));
  const WalkerOnLineOutcome outcome = walker_on_line(file.rig, args.at("at_m"));
  if (!outcome.walker) throw NoAnswer(outcome.why);
  const WalkerOnLine& walker = *outcome.walker;
  return Json{{"place", place_json(walker.place)},
              {"ankle_margin_m", finite(walker.ankle_margin)},
              {"main", flat(one_main(walker.shape))},
              {"loops", flat_loops(walker.shape.loop)}}.dump();
}

std::string edit_answer(const Json& args, Kept& kept) {
  const Json& files = args.at("files");
  const Json& edit = args.at("edit");
  const std::string text = files.at("text"), name = files.at("name");
  if (edit.at("kind") == "value") return Json(with_value_written(text, name, edit.at("key"), edit.at("toml"))).dump();
  return Json(with_taping_written(text, name, retaped(edit, taping_kept(files, kept)))).dump();
}

std::string sheet_answer(const Json& args) {
  const RigFile file = asked_rig(args.at("files"));
  const UnitSystem units = asked_units(args.at("units"));
  const Plan plan = planned(file.rig, {.units = units});
  const SheetInfo info{args.at("files").at("name"), version(), args.at("date"), units};
  return Json(draw_sheet(file.rig, plan, judge(file.rig, plan, units), info)).dump();
}

}  // namespace spanloom
