// Strength of the backup in a main failure and of the main in a leash fall.
#include <algorithm>

#include <fmt/format.h>

#include "checks/catch_checks.h"
#include "checks/catch_words.h"
#include "checks/run_strength.h"

namespace spanloom {
namespace {

// A fall says how much a run carries at the most, not where: every piece of it has to hold that.
std::vector<PieceForce> pieces_under(const Rig& rig, const WebbingRun& run, const char* line, double tension,
                                     const std::string& state) {
  std::vector<PieceForce> forces;
  for (std::size_t i = 0; i < run.segments.size(); ++i) {
    PieceForce force;
    force.name = segment_name(rig, run, line, i);
    force.index = i;
    force.at_near_anchor = i == 0;
    force.at_far_anchor = i + 1 == run.segments.size();
    forces.push_back(std::move(force));
  }
  for (std::size_t i = 0; i < run.connectors.size() + 2; ++i) {
    const Link& link = link_of(run, i);
    if (link.length == 0.0 && link.mass == 0.0 && !link.strength) continue;
    PieceForce force;
    force.name = link_name(run, line, i);
    force.kind = Piece::Kind::link;
    force.index = i;
    forces.push_back(std::move(force));
  }
  for (PieceForce& force : forces) force.tension = tension, force.state = state;
  return forces;
}

PulledRun backup_of(const JudgedCatch& of) {
  PulledRun run{of.rig, of.rig.backup.run, "backup", "Main failure: backup", of.units, {}};
  if (const FallResult* fall = fall_at(of.report.main_failure, of.report.worst_failure.backup)) {
    run.forces = pieces_under(of.rig, run.run, run.key, fall->backup, event_words(of.rig, *fall, of.units));
  }
  run.webbing_cure = of.report.costs.empty()
                         ? " Use a stronger backup or better ends."
                         : " Use a stronger backup or better ends; the table of costs in the report says what other slack "
                           "does.";
  run.link_cure = " Use a stronger one.";
  return run;
}

PulledRun main_of(const JudgedCatch& of) {
  PulledRun run{of.rig, of.rig.main.run, "main", "Leash fall: main", of.units, {}};
  const auto& falls = of.report.leash_fall;
  const auto fall = std::max_element(falls.begin(), falls.end(),
                                     [](const FallResult& a, const FallResult& b) { return a.main < b.main; });
  if (fall != falls.end()) {
    run.forces = pieces_under(of.rig, run.run, run.key, fall->main, event_words(of.rig, *fall, of.units));
  }
  run.webbing_cure = " Rig less tension, better ends or a stronger main.";
  run.link_cure = " Use a stronger one or less tension.";
  return run;
}

void add_run(const JudgedCatch& of, PulledRun run, FallKind kind, std::vector<Check>& checks) {
  run.check_prefix = "catch_";
  for (Check& check : strengths(run)) {
    if (run.forces.empty()) leave_without_falls(of, kind, check);
    add_fall_inputs(of, kind, check);
    checks.push_back(std::move(check));
  }
}

}  // namespace

std::vector<Check> check_caught_line(const JudgedCatch& of) {
  std::vector<Check> checks;
  add_run(of, backup_of(of), FallKind::main_failure, checks);
  add_run(of, main_of(of), FallKind::leash_fall, checks);
  return checks;
}

}  // namespace spanloom
