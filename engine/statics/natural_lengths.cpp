#include "statics/natural_lengths.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <variant>

#include <fmt/format.h>

#include "base/constants.h"
#include "base/input_error.h"
#include "rig/tape_layout.h"
#include "statics/loop_geometry.h"
#include "statics/rings.h"

namespace spanloom {
namespace {

constexpr int kMostRounds = 60;
constexpr double kTensionTolerance = 1e-10;  // relative
constexpr double kSlackTolerance = 1e-12;    // of the loop's length
constexpr double kDropTolerance = 1e-8;      // [m]
constexpr double kRoughRest = 1e-3;          // of the greatest force

constexpr const char* kRingsDoNotRest =
    "With the rings running free no place of rest was proven: the loops are so slack that webbing keeps "
    "running to the lowest one. Use less slack, or tape.";

double per_bay(const std::vector<double>& values, std::size_t bay) {
  return values.size() == 1 ? values.front() : values[bay];
}


// First natural length of the main: a parabola under everything that hangs, at the asked tension.
Rigged first_lengths(const Rig& rig) {
  Rigged rigged;
  const WebbingRun& run = rig.main.run;
  for (const Segment& s : run.segments) rigged.main_segment_length.push_back(s.natural_length.value_or(0.0));
  if (!rig.main.tension) return rigged;
  const double tension = *rig.main.tension;
  const double chord = std::hypot(rig.site.gap, rig.site.rise);
  const double weight = kGravity * (rig.webbings[run.segments.back().webbing].mass_per_length +
                                    1.05 * rig.webbings[rig.backup.run.segments.back().webbing].mass_per_length);
  double left = chord * (1.0 + std::pow(weight * rig.site.gap / tension, 2) / 24.0);
  left -= run.near_hardware.length + run.far_hardware.length;
  for (const Link& connector : run.connectors) left -= connector.length;
  for (std::size_t i = 0; i + 1 < run.segments.size(); ++i) {
    const Webbing& w = rig.webbings[run.segments[i].webbing];
    left -= rigged.main_segment_length[i] * (1.0 + w.curve.stretch_at(tension).stretch);
  }
  const Webbing& w = rig.webbings[run.segments.back().webbing];
  const double last = left / (1.0 + w.curve.stretch_at(tension).stretch);
  if (!(last > 0.01)) {
    throw InputError("main.segments", fmt::format("{:.2f} m more webbing than the gap takes at {:.2f} kN", -left,
                                                  tension / 1000.0),
                     "segments that leave room for the last one", "shorten or leave out a segment");
  }
  rigged.main_segment_length.back() = last;
  return rigged;
}

void check_bay_count(const Rig& rig, std::size_t bays) {
  const auto check = [&](const char* key, const std::vector<double>& values) {
    if (values.size() == 1 || values.size() == bays) return;
    throw InputError(fmt::format("backup.{}", key), fmt::format("{} values", values.size()),
                     fmt::format("one value, or {}: the spacing makes so many bays", bays));
  };
  if (const auto* a = std::get_if<SlackShare>(&rig.backup.amount)) check("slack", a->of_bay);
  if (const auto* a = std::get_if<LoopDrop>(&rig.backup.amount)) check("drop", a->of_bay);
  if (const auto* a = std::get_if<LoopLength>(&rig.backup.amount)) check("length", a->of_bay);
}

// First loop lengths from a straight main at the asked tension and the shallow loop's 8 d^2 / 3 l.
void first_loops(const Rig& rig, Rigged& rigged) {
  const double stretched = std::hypot(rig.site.gap, rig.site.rise);
  const double natural = main_webbing_length(rig, rigged);
  const double hardware = rig.main.run.near_hardware.length + rig.main.run.far_hardware.length;
  std::vector<double> at = rigged.tape_s;
  at.insert(at.begin(), 0.0);
  at.push_back(natural);
  for (std::size_t k = 0; k + 1 < at.size(); ++k) {
    double bay = (at[k + 1] - at[k]) * std::max(1.0, (stretched - hardware) / natural);
    if (k == 0) bay += rig.main.run.near_hardware.length;
    if (k + 2 == at.size()) bay += rig.main.run.far_hardware.length;
    double length = bay;
    if (const auto* a = std::get_if<SlackShare>(&rig.backup.amount)) length = bay * (1.0 + per_bay(a->of_bay, k));
    if (const auto* a = std::get_if<LoopDrop>(&rig.backup.amount)) {
      length = bay + 8.0 * std::pow(per_bay(a->of_bay, k), 2) / (3.0 * bay);
    }
    if (const auto* a = std::get_if<LoopLength>(&rig.backup.amount)) length = per_bay(a->of_bay, k);
    rigged.loop_length.push_back(length);
  }
}

void first_backup(const Rig& rig, Rigged& rigged) {
  const WebbingRun& run = rig.backup.run;
  double left = std::accumulate(rigged.loop_length.begin(), rigged.loop_length.end(), 0.0);
  left -= run.near_hardware.length + run.far_hardware.length;
  for (const Link& connector : run.connectors) left -= connector.length;
  for (std::size_t i = 0; i + 1 < run.segments.size(); ++i) {
    rigged.backup_segment_length.push_back(*run.segments[i].natural_length);
    left -= *run.segments[i].natural_length;
  }
  if (!(left > 0.01)) {
    throw InputError("backup.segments", fmt::format("{:.2f} m more webbing than the loops take", -left),
                     "segments that leave room for the last one", "shorten or leave out a segment");
  }
  rigged.backup_segment_length.push_back(left);
}

// What the lengths must bring about.
struct Asked {
  std::optional<double> tension;   // main at the near anchor [N]
  int last_main_piece = 0;         // the one that is lengthened for it
  std::variant<SlackShare, LoopDrop, LoopLength> amount;
  bool last_loop_follows = false;  // the backup is let out with the main
};

int last_webbing_piece(const Mesh& mesh) {
  const int last = int(mesh.main_piece.size()) - 1;
  return mesh.main_piece[last].kind == Piece::Kind::webbing ? last : last - 1;
}

// Rounds of Newton steps and corrections of lengths on one mesh.
class Rounds {
 public:
  Rounds(Asked asked, Mesh& mesh)
      : asked_(std::move(asked)), mesh_(mesh), solver_(mesh.line), state_(solver_.start()), loops_(mesh.line.bays()) {}

  // False where the line did not settle or the lengths did not come to rest.
  bool run() {
    // While the lengths still move, resting to a part in a thousand is enough.
    bool exact = false;
    for (int round = 0; round < kMostRounds; ++round) {
      if (!solver_.settle(state_, iterations_, exact ? EquilibriumSolver::kLastStepAt : kRoughRest)) {
        state_ = solver_.solve_by_descent();
        if (!state_.certified()) return false;
      }
      const bool main_done = correct_main(), loops_done = correct_loops();
      if (main_done && loops_done && exact) return true;
      exact = main_done && loops_done;
      solver_.set_lengths_and_loads(mesh_.line);
    }
    return false;
  }
  Equilibrium proven() { return solver_.prove(state_, iterations_); }

 private:
  struct Loop {
    double last_length = 0.0, last_drop = 0.0;
    bool started = false;
  };

  // The whole main as one spring between its anchors: how its pull falls when it gets longer.
  bool correct_main() {
    if (!asked_.tension) return true;
    const Vec3 pull = state_.near_force.front();
    const double miss = norm(pull) - *asked_.tension;
    if (std::abs(miss) <= kTensionTolerance * *asked_.tension) return true;
    Sym3 compliance;
    for (std::size_t k = 0; k < mesh_.line.bays(); ++k) {
      compliance += solver_.chains().evaluate(2 * k, state_.near_force[2 * k]).compliance;
    }
    const Vec3 along = (1.0 / norm(pull)) * pull;
    const double slope = dot(along, inverse(compliance) * along);  // [N/m]
    const std::size_t last_chain = 2 * (mesh_.line.bays() - 1);
    const double now = solver_.chains().natural_length(last_chain);
    const double by = std::clamp(miss / slope, -0.3 * now, 2.0 * now);
    lengthen(mesh_, last_chain, asked_.last_main_piece, by);
    if (asked_.last_loop_follows) lengthen(mesh_, last_chain + 1, -1, by);
    return false;
  }

  bool correct_loops() {
    if (std::holds_alternative<LoopLength>(asked_.amount)) return true;
    const auto* slack = std::get_if<SlackShare>(&asked_.amount);
    const Shape shape = slack ? Shape{} : solver_.shape(state_);
    bool done = true;
    for (std::size_t k = 0; k < mesh_.line.bays(); ++k) {
      const double length = solver_.chains().natural_length(2 * k + 1);
      double by = 0.0;
      if (slack) {
        const double main = solver_.chains().stretched_length(2 * k, state_.near_force[2 * k]);
        by = main * (1.0 + per_bay(slack->of_bay, k)) - length;
        if (std::abs(by) <= kSlackTolerance * length) continue;
      } else {
        const double wanted = per_bay(std::get<LoopDrop>(asked_.amount).of_bay, k);
        const double drop = loop_drop(shape.main[k], shape.loop[k]);
        if (std::abs(drop - wanted) <= kDropTolerance) continue;
        by = drop_correction(loops_[k], length, drop, wanted);
      }
      lengthen(mesh_, 2 * k + 1, -1, std::clamp(by, -0.3 * length, 0.5 * length));
      done = false;
    }
    return done;
  }

  // Secant on the squared drop, which grows in proportion to the extra length; 8 d^2 / 3 l to start.
  double drop_correction(Loop& loop, double length, double drop, double wanted) const {
    const double square = drop * std::abs(drop), target = wanted * wanted;
    double slope = 3.0 * length / 8.0;  // d(drop^2)/d(length)
    const double moved = length - loop.last_length, gained = square - loop.last_drop;
    if (loop.started && std::abs(moved) > 1e-9 && gained / moved > 0.05 * slope) slope = gained / moved;
    loop = {length, square, true};
    return (target - square) / slope;
  }

  Asked asked_;
  Mesh& mesh_;
  EquilibriumSolver solver_;
  Equilibrium state_;
  std::vector<Loop> loops_;
  int iterations_ = 0;
};

// Reads the lengths that the rounds found back out of the mesh.
void collect(const Rig& rig, StandingRig& out) {
  const auto& line = out.mesh.line;
  Rigged& rigged = out.rigged;
  double main_total = 0.0, backup_total = 0.0;
  for (std::size_t c = 0; c < line.chains.size(); ++c) {
    double length = 0.0;
    for (std::size_t i = 0; i < line.chains[c].count; ++i) length += line.length[line.chains[c].first + i];
    (c % 2 == 0 ? main_total : backup_total) += length;
    if (c % 2 == 1) rigged.loop_length[c / 2] = length;
  }
  const auto set_last = [](const WebbingRun& run, std::vector<double>& segments, double total) {
    total -= run.near_hardware.length + run.far_hardware.length;
    for (const Link& connector : run.connectors) total -= connector.length;
    for (std::size_t i = 0; i + 1 < segments.size(); ++i) total -= segments[i];
    segments.back() = total;
  };
  set_last(rig.main.run, rigged.main_segment_length, main_total);
  set_last(rig.backup.run, rigged.backup_segment_length, backup_total);
}

std::string too_strong(const Rig& rig) {
  for (const Segment& segment : rig.main.run.segments) {
    const Webbing& w = rig.webbings[segment.webbing];
    if (rig.main.tension && *rig.main.tension >= w.strength) {
      return fmt::format("The asked standing tension of {:.2f} kN is not below the strength of {} ({:.1f} kN): "
                         "ask for less tension or rig a stronger main.",
                         *rig.main.tension / 1000.0, w.name, w.strength / 1000.0);
    }
  }
  return "";
}

// A main stretched past its strength, or a backup that does not hang.
std::string broken_or_taut(const Rig& rig, const StandingRig& out) {
  const Line& line = out.mesh.line;
  for (std::size_t k = 0; k < line.bays(); ++k) {
    const ChainRange range = line.main_chain(k);
    const double tension = std::max(norm(out.standing.near_force[2 * k]), norm(out.standing.far_force[2 * k]));
    for (std::size_t i = range.first; i < range.first + range.count; ++i) {
      const Piece& piece = out.mesh.main_piece[out.mesh.piece_of_bar[i]];
      if (piece.kind != Piece::Kind::webbing || tension < rig.webbings[piece.index].strength) continue;
      return fmt::format("The main cannot reach across: {:.2f} m of webbing in a gap of {:.2f} m would have to "
                         "carry {:.1f} kN, and {} breaks at {:.1f} kN. Cut it longer.",
                         main_webbing_length(rig, out.rigged), rig.site.gap, tension / 1000.0,
                         rig.webbings[piece.index].name, rig.webbings[piece.index].strength / 1000.0);
    }
  }
  for (std::size_t k = 0; k < line.bays(); ++k) {
    const Vec3 near = k == 0 ? line.ends.backup_near : out.standing.tapes[k];
    const Vec3 far = k + 1 == line.bays() ? line.ends.backup_far : out.standing.tapes[k + 1];
    const double apart = norm(far - near);
    if (out.rigged.loop_length[k] > apart) continue;
    return fmt::format("The backup does not hang: in bay {} its {:.3f} m are pulled taut between tapes {:.3f} m "
                       "apart, and it carries {:.0f} N of the standing line. Ask for more slack or a larger drop.",
                       k + 1, out.rigged.loop_length[k], apart, norm(out.standing.near_force[2 * k + 1]));
  }
  return "";
}

std::string why_not(const Rig& rig) {
  if (std::holds_alternative<LoopDrop>(rig.backup.amount)) {
    return "No lengths give the asked drops and tension together. A drop that is too small pulls the "
           "backup taut so that it carries the line instead of hanging below it: ask for a larger drop.";
  }
  return "No lengths give the asked slack and tension together: ask for more slack or another tension.";
}

}  // namespace

namespace {

// Lengths with every joint holding. `tension` may differ from the rig's to make up for rings that slide.
StandingOutcome find_locked(const Rig& rig, const MeshOptions& options, std::optional<double> tension) {
  StandingRig out;
  out.rigged = first_lengths(rig);
  TapeLayout layout = lay_out_tapes(rig.spacing, main_webbing_length(rig, out.rigged));
  out.rigged.tape_s = std::move(layout.at);
  out.notes = std::move(layout.notes);
  out.leftover_bays = std::move(layout.leftover_bays);
  check_bay_count(rig, out.rigged.tape_s.size() + 1);
  first_loops(rig, out.rigged);
  // Joints of the backup shift with the loops before them, so the mesh is cut again with the lengths
  // that the first rounds found; with one segment a single pass is exact.
  const int passes = rig.backup.run.segments.size() > 1 || rig.main.run.segments.size() > 1 ? 3 : 1;
  for (int pass = 0; pass < passes; ++pass) {
    out.rigged.backup_segment_length.clear();
    first_backup(rig, out.rigged);
    out.mesh = cut_line(rig, out.rigged, options, rig.extra_places);
    Rounds rounds({tension, last_webbing_piece(out.mesh), rig.backup.amount, false}, out.mesh);
    if (!rounds.run()) return {std::nullopt, {false, why_not(rig)}};
    collect(rig, out);
    if (pass + 1 == passes) out.standing = rounds.proven();
  }
  if (!out.standing.certified()) {
    return {std::nullopt, {true, fmt::format("The standing line was not proven: {:.3g} N are left unbalanced.",
                                             out.standing.certificate.residual)}};
  }
  if (const std::string words = broken_or_taut(rig, out); !words.empty()) return {std::nullopt, {false, words}};
  return {std::move(out), {}};
}

}  // namespace

StandingOutcome find_natural_lengths(const Rig& rig, const MeshOptions& options) {
  if (const std::string words = too_strong(rig); !words.empty()) return {std::nullopt, {false, words}};
  std::optional<double> tension = rig.main.tension;
  constexpr int kMostTries = 12;
  for (int attempt = 0; attempt < kMostTries; ++attempt) {
    StandingOutcome found = find_locked(rig, options, tension);
    if (!found.rig || rig.backup.joint == Joint::taped) return found;
    StandingRig& out = *found.rig;
    SlidRings slid = slide_rings_from_three_starts(out.mesh, out.mesh.line, out.standing);
    if (!slid.rest.certified()) return {std::nullopt, {true, kRingsDoNotRest}};
    const double got = norm(slid.rest.near_force.front());
    if (tension && std::abs(got - *rig.main.tension) > kTensionTolerance * *rig.main.tension) {
      *tension += *rig.main.tension - got;
      continue;
    }
    out.mesh.line = std::move(slid.line);
    out.standing = std::move(slid.rest);
    collect(rig, out);
    out.notes.push_back(fmt::format("Rings run free: up to {:.3f} m of backup ran through one until the standing "
                                    "line was at rest.", slid.slid_max));
    if (!slid.starts_agree) {
      out.notes.push_back("Started from other slack, the rings came to rest elsewhere: where they stand depends on "
                          "how the line was hung. Shorter loops or tape make it one.");
    }
    return found;
  }
  return {std::nullopt, {true, kRingsDoNotRest}};
}

std::optional<Slackened> slacken(const StandingRig& standing, double tension) {
  Slackened out{0.0, standing.mesh, {}};
  const auto last = standing.mesh.line.main_chain(standing.mesh.line.bays() - 1);
  const auto length = [&](const Mesh& mesh) {
    double sum = 0.0;
    for (std::size_t i = 0; i < last.count; ++i) sum += mesh.line.length[last.first + i];
    return sum;
  };
  Rounds rounds({tension, last_webbing_piece(out.mesh), LoopLength{{1.0}}, true}, out.mesh);
  if (!rounds.run()) return std::nullopt;
  out.line = rounds.proven();
  if (!out.line.certified()) return std::nullopt;
  out.length = length(out.mesh) - length(standing.mesh);
  return out;
}

}  // namespace spanloom
