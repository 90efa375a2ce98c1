#include "statics/natural_lengths.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <variant>

#include <fmt/format.h>

#include "base/constants.h"
#include "base/input_error.h"
#include "rig/tape_layout.h"
#include "statics/length_rounds.h"
#include "statics/rings.h"

namespace spanloom {
namespace {

constexpr double kTensionTolerance = 1e-10;  // relative, with the rings let go

constexpr const char* kJointHangsNowhere =
    "A joint of the backup comes to lie at a tape, and on neither side of it does the loop hang as asked: give the "
    "segment before the joint another length.";
constexpr const char* kRingsDoNotRest =
    "With the rings running free no place of rest was proven: the loops are so slack that webbing keeps "
    "running to the lowest one. Use less slack, or tape.";

std::string force_text(double force, UnitSystem units) { return quantity_text(force, Measure::force, units); }
std::string length_text(double length, UnitSystem units) { return quantity_text(length, Measure::length, units); }

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
    if (const auto* a = std::get_if<SlackShare>(&rig.backup.amount)) length = bay * (1.0 + of_bay(a->of_bay, k));
    if (const auto* a = std::get_if<LoopDrop>(&rig.backup.amount)) {
      length = bay + 8.0 * std::pow(of_bay(a->of_bay, k), 2) / (3.0 * bay);
    }
    if (const auto* a = std::get_if<LoopLength>(&rig.backup.amount)) length = of_bay(a->of_bay, k);
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

// How far a joint may have moved between two results: by all the loops before it together.
double furthest_apart(const Rigged& a, const Rigged& b) {
  double apart = std::abs(a.main_segment_length.back() - b.main_segment_length.back()), shift = 0.0;
  for (std::size_t k = 0; k < a.loop_length.size(); ++k) {
    shift += a.loop_length[k] - b.loop_length[k];
    apart = std::max(apart, std::abs(shift));
  }
  return apart;
}

std::string too_strong(const Rig& rig, UnitSystem units) {
  for (const Segment& segment : rig.main.run.segments) {
    const Webbing& w = rig.webbings[segment.webbing];
    if (rig.main.tension && *rig.main.tension >= w.strength) {
      return fmt::format("The asked standing tension of {} is not below the strength of {} ({}): "
                         "ask for less tension or rig a stronger main.",
                         force_text(*rig.main.tension, units), w.name, force_text(w.strength, units));
    }
  }
  return "";
}

// A main stretched past its strength, or a backup that does not hang.
std::string broken_or_taut(const Rig& rig, const StandingRig& out, UnitSystem units) {
  const Line& line = out.mesh.line;
  for (std::size_t k = 0; k < line.bays(); ++k) {
    const ChainRange range = line.main_chain(k);
    const double tension = std::max(norm(out.standing.near_force[2 * k]), norm(out.standing.far_force[2 * k]));
    for (std::size_t i = range.first; i < range.first + range.count; ++i) {
      const Piece& piece = out.mesh.main_piece[out.mesh.piece_of_bar[i]];
      if (piece.kind != Piece::Kind::webbing || tension < rig.webbings[piece.index].strength) continue;
      return fmt::format("The main cannot reach across: {} of webbing in a gap of {} would have to "
                         "carry {}, and {} breaks at {}. Cut it longer.",
                         length_text(main_webbing_length(rig, out.rigged), units), length_text(rig.site.gap, units),
                         force_text(tension, units), rig.webbings[piece.index].name,
                         force_text(rig.webbings[piece.index].strength, units));
    }
  }
  for (std::size_t k = 0; k < line.bays(); ++k) {
    const Vec3 near = k == 0 ? line.ends.backup_near : out.standing.tapes[k];
    const Vec3 far = k + 1 == line.bays() ? line.ends.backup_far : out.standing.tapes[k + 1];
    const double apart = norm(far - near);
    if (out.rigged.loop_length[k] > apart) continue;
    return fmt::format("The backup does not hang: in bay {} its {} are pulled taut between tapes {} "
                       "apart, and it carries {} of the standing line. Ask for more slack or a larger drop.",
                       k + 1, length_text(out.rigged.loop_length[k], units), length_text(apart, units),
                       force_text(norm(out.standing.near_force[2 * k + 1]), units));
  }
  return "";
}

std::string why_not(const Rig& rig) {
  if (std::holds_alternative<LoopDrop>(rig.backup.amount)) {
    return "No lengths give the asked drops and tension together. A drop that is too small pulls the "
           "backup taut so that it carries the line instead of hanging below it: ask for a larger drop.";
  }
  if (std::holds_alternative<LoopLength>(rig.backup.amount)) {
    return "No length of main gives the asked tension with loops of the given lengths: ask for longer loops or "
           "another tension.";
  }
  return "No lengths give the asked slack and tension together: ask for more slack or another tension.";
}

}  // namespace

namespace {

// Lengths with every joint holding. `tension` may differ from the rig's to make up for rings that slide.
StandingOutcome find_locked(const Rig& rig, const MeshOptions& options, std::optional<double> tension,
                            UnitSystem units) {
  StandingRig out;
  out.rigged = first_lengths(rig);
  TapeLayout layout = lay_out_tapes(rig.spacing, main_webbing_length(rig, out.rigged), units);
  out.rigged.tape_s = std::move(layout.at);
  out.notes = std::move(layout.notes);
  out.leftover_bays = std::move(layout.leftover_bays);
  out.close_bays = std::move(layout.close_bays);
  check_bay_count(rig, out.rigged.tape_s.size() + 1);
  first_loops(rig, out.rigged);
  // Joints shift with the lengths before them, so the mesh is cut again until they stay: at once where
  // there is no joint.
  const bool joints = rig.backup.run.segments.size() > 1 || rig.main.run.segments.size() > 1;
  constexpr int kMostCuts = 5;
  constexpr double kSameJoint = 1e-6;    // [m]; the drops are met to a hundredth of that
  constexpr double kJointAtTape = 0.02;  // [m]
  for (int cuts = 0;; ++cuts) {
    const Rigged before = out.rigged;
    out.rigged.backup_segment_length.clear();
    first_backup(rig, out.rigged);
    out.mesh = cut_line(rig, out.rigged, options, rig.extra_places);
    std::optional<Equilibrium> found = find_lengths({tension, rig.backup.amount, false}, out.mesh);
    if (!found) return {std::nullopt, {false, why_not(rig)}};
    collect(rig, out);
    out.standing = std::move(*found);
    const double apart = joints ? furthest_apart(before, out.rigged) : 0.0;
    if (apart <= kSameJoint) break;
    if (cuts < kMostCuts) continue;
    // A joint that hangs to one side of a tape makes its loop longer and so comes to the other side.
    if (apart > kJointAtTape) return {std::nullopt, {false, kJointHangsNowhere}};
    out.notes.push_back(fmt::format("A joint lies at a tape; it may come to hang up to {} to either side.",
                                    quantity_text(apart, Measure::small_length, units)));
    break;
  }
  if (!out.standing.certified()) {
    return {std::nullopt, {true, fmt::format("The standing line was not proven: {:.3g} N are left unbalanced.",
                                             out.standing.certificate.residual)}};
  }
  if (const std::string words = broken_or_taut(rig, out, units); !words.empty()) return {std::nullopt, {false, words}};
  return {std::move(out), {}};
}

}  // namespace

StandingOutcome find_natural_lengths(const Rig& rig, const MeshOptions& options, UnitSystem units) {
  if (const std::string words = too_strong(rig, units); !words.empty()) return {std::nullopt, {false, words}};
  std::optional<double> tension = rig.main.tension;
  constexpr int kMostTries = 12;
  for (int attempt = 0; attempt < kMostTries; ++attempt) {
    StandingOutcome found = find_locked(rig, options, tension, units);
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
    out.notes.push_back(fmt::format("Rings run free: up to {} of backup ran through one until the standing "
                                    "line was at rest.", length_text(slid.slid_max, units)));
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
  std::optional<Equilibrium> found = find_lengths({tension, LoopLength{{1.0}}, true}, out.mesh);
  if (!found || !found->certified()) return std::nullopt;
  out.line = std::move(*found);
  out.length = length(out.mesh) - length(standing.mesh);
  return out;
}

}  // namespace spanloom
