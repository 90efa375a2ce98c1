#include "files/catch_csv.h"

#include <cmath>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "checks/catch_words.h"

namespace spanloom {
namespace {

const char* kind_name(const FallResult& fall) {
  return fall.what.kind == FallKind::main_failure ? "main failure" : "leash fall";
}

std::string cell(const std::optional<double>& value, int digits) {
  return value ? fmt::format("{:.{}f}", *value, digits) : "";
}

// Names of links come from the rig file.
std::string quoted(const std::string& words) {
  if (words.find_first_of(",\"\n\r") == std::string::npos) return words;
  std::string out = "\"";
  for (const char c : words) out += c == '"' ? "\"\"" : std::string(1, c);
  return out + '"';
}

std::string row_of(const Rig& rig, const FallResult& fall) {
  const bool failure = fall.what.kind == FallKind::main_failure;
  const auto if_held = [&](double value, int digits) { return fall.lost ? std::string() : cell(value, digits); };
  const bool tears = failure && std::isfinite(fall.what.tape_strength);
  return fmt::format("{},{:.3f},{},{},{},{},{},{},{},{},{},{},{:.1f},{:.1f},{:.1f},{:.1f},{},{},{},{},{:.3f},{:.2e},{}\n",
                     kind_name(fall), fall.walker_m, cell(fall.cut_m, 3), quoted(fall.cut_words),
                     name_of(fall.what.posture), failure ? "" : name_of(fall.what.step_off), name_of(fall.what.ring),
                     failure ? tapes_word(rig, fall) : "", tears ? cell(fall.what.tape_strength, 1) : "",
                     fall.lost ? "yes" : "no", if_held(fall.fall, 3), if_held(fall.body, 1), fall.backup, fall.main,
                     norm(fall.near), norm(fall.far), if_held(fall.clear_height, 3),
                     fall.lost ? "" : cell(fall.clearance, 3), fall.lost ? "" : cell(fall.wall, 3),
                     if_held(fall.lowest_time, 3), fall.time, fall.ledger.drift,
                     fall.in_anchor_zone ? "yes" : "no");
}

void add_path(const FallResult* fall, std::string& out) {
  if (fall == nullptr) return;
  for (const FallPoint& p : fall->path) {
    out += fmt::format("{},{:.4f},{:.4f},{:.4f},{:.4f},{:.4f},{:.4f},{:.4f},{:.1f}\n", kind_name(*fall), p.time, p.hip.x,
                       p.hip.y, p.hip.z, p.ring.x, p.ring.y, p.ring.z, p.leash);
  }
}

}  // namespace

std::string falls_csv(const Rig& rig, const CatchReport& report) {
  std::string out =
      "kind,walker [m],cut [m],cut at,posture,step off,ring,tapes,tape strength [N],lost,fall [m],body [N],backup [N],"
      "main [N],near anchor [N],far anchor [N],clear height [m],over the ground [m],to a wall [m],lowest [s],"
      "followed [s],drift [J],from an anchor zone\n";
  for (const FallResult& fall : report.main_failure) out += row_of(rig, fall);
  for (const FallResult& fall : report.leash_fall) out += row_of(rig, fall);
  return out;
}

std::string fall_path_csv(const CatchReport& report) {
  std::string out = "kind,time [s],hip x [m],hip y [m],hip z [m],ring x [m],ring y [m],ring z [m],leash [N]\n";
  add_path(held_fall_at(report.main_failure, report.worst_failure.body), out);
  add_path(held_fall_at(report.leash_fall, report.worst_leash_fall.body), out);
  return out;
}

}  // namespace spanloom
