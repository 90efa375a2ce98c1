// The tables [main] and [backup]: webbing from anchor to anchor, and how it hangs.
#include <optional>
#include <utility>

#include "files/rig_sections.h"

namespace spanloom {
namespace {

Link read_link(TableReader table, Link link) {
  if (link.name.empty()) table.require("name", "what it is, such as \"shackle\"");
  table.require("mass", expectation(kSmallMass));
  table.require("length", expectation(kSmallLength));
  set_if_stated(link.name, table.text("name"));
  set_if_stated(link.mass, table.quantity("mass", kSmallMass));
  set_if_stated(link.length, table.quantity("length", kSmallLength));
  set_if_stated(link.strength, table.quantity("strength", kForce));
  table.refuse_unknown_keys();
  return link;
}

WebbingEnd read_end(TableReader table, WebbingEnd end) {
  const auto kind = table.choice<EndKind>(
      "kind", {{"knot", EndKind::knot}, {"clamp", EndKind::clamp}, {"sewn", EndKind::sewn}});
  set_if_stated(end.kind, kind);
  end.keeps = Stated<double>::by_default(default_keeps(end.kind.value));
  set_if_stated(end.keeps, table.quantity("keeps", kShare));
  table.refuse_unknown_keys();
  return end;
}

std::vector<Segment> read_segments(TableReader& table, const std::vector<Webbing>& webbings) {
  const std::string given = table.only_one_of({"webbing", "segments"});
  if (given.empty()) table.miss("webbing", "\"webbing\" or \"segments\"", "name the webbing");
  std::vector<Segment> segments;
  if (given == "webbing") segments.push_back({read_webbing_name(table, "webbing", webbings), std::nullopt});
  for (TableReader& segment : table.tables("segments")) {
    segment.require("webbing", "the name of a [webbing.NAME] table");
    segments.push_back({read_webbing_name(segment, "webbing", webbings), segment.quantity("length", kLength)});
    segment.refuse_unknown_keys();
  }
  return segments;
}

/// Everything that main and backup have in common.
WebbingRun read_run(TableReader& table, const std::vector<Webbing>& webbings, WebbingRun run) {
  run.segments = read_segments(table, webbings);
  for (TableReader& connector : table.tables("connectors")) {
    run.connectors.push_back(read_link(connector, {}));
  }
  if (auto link = table.table("near_hardware")) run.near_hardware = read_link(*link, run.near_hardware);
  if (auto link = table.table("far_hardware")) run.far_hardware = read_link(*link, run.far_hardware);
  if (auto end = table.table("near_end")) run.near_end = read_end(*end, run.near_end);
  if (auto end = table.table("far_end")) run.far_end = read_end(*end, run.far_end);
  if (auto end = table.table("joints")) run.joint_end = read_end(*end, run.joint_end);
  set_if_stated(run.near_tail, table.quantity("near_tail", kLength));
  set_if_stated(run.far_tail, table.quantity("far_tail", kLength));
  return run;
}

void read_amount(TableReader& table, BackupSpec& backup) {
  if (table.only_one_of({"slack", "drop", "length"}).empty()) {
    table.miss("slack", "\"slack\", \"drop\" or \"length\"", "say how much backup hangs in the bays");
  }
  auto slack = table.quantities("slack", kShare);
  auto drop = table.quantities("drop", kSmallLength);
  auto length = table.quantities("length", kLength);
  if (slack) {
    backup.amount = SlackShare{std::move(*slack)};
  } else if (drop) {
    backup.amount = LoopDrop{std::move(*drop)};
  } else if (length) {
    backup.amount = LoopLength{std::move(*length)};
  }
}

}  // namespace

MainSpec read_main(TableReader table, const std::vector<Webbing>& webbings, MainSpec main) {
  main.run = read_run(table, webbings, std::move(main.run));
  const std::string given = table.only_one_of({"tension", "natural_length"});
  main.tension = table.quantity("tension", kForce);
  const auto natural_length = table.quantity("natural_length", kLength);
  if (table.has("segments")) {
    if (natural_length) {
      table.complain("natural_length", "a length in every segment instead", "move it into \"segments\"");
    }
  } else if (given.empty()) {
    table.miss("tension", "\"tension\" or \"natural_length\"", "say how tight the main stands");
  } else if (!main.run.segments.empty()) {
    main.run.segments[0].natural_length = natural_length;
  }
  set_if_stated(main.hand_tight, table.quantity("hand_tight", kSmallForce));
  table.refuse_unknown_keys();
  return main;
}

BackupSpec read_backup(TableReader table, const std::vector<Webbing>& webbings, BackupSpec backup) {
  backup.run = read_run(table, webbings, std::move(backup.run));
  read_amount(table, backup);
  set_if_stated(backup.joint,
                table.choice<Joint>("joint", {{"taped", Joint::taped}, {"ring", Joint::ring}}));
  set_if_stated(backup.near_offset, read_three_lengths(table, "near_offset"));
  set_if_stated(backup.far_offset, read_three_lengths(table, "far_offset"));
  set_if_stated(backup.tape_strength, table.quantity("tape_strength", kSmallForce));
  set_if_stated(backup.ring_friction, table.number("ring_friction", kFriction));
  set_if_stated(backup.tape_mass, table.quantity("tape_mass", kSmallMass));
  table.refuse_unknown_keys();
  return backup;
}

}  // namespace spanloom
