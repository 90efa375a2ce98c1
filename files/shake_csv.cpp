#include "files/shake_csv.h"

#include <algorithm>
#include <optional>
#include <vector>

#include <fmt/format.h>

namespace spanloom {
namespace {

/// Indices from 0 to count - 1, both included, spread evenly, at most `most` of them.
std::vector<std::size_t> spread(std::size_t count, std::size_t most) {
  std::vector<std::size_t> indices;
  const std::size_t shown = std::min(count, most);
  for (std::size_t i = 0; i < shown; ++i) {
    indices.push_back(shown < 2 ? 0 : (i * (count - 1) + (shown - 1) / 2) / (shown - 1));
  }
  return indices;
}

std::string settling_cell(const ReportedShake& shake) {
  const std::optional<double> time = shake.settling_time();
  return time ? fmt::format("{:.2f}", *time) : "";
}

}  // namespace

std::string shakes_csv(const ShakeReport& report) {
  std::string out =
      "line,frequency [Hz],place [m],direction,return,energy share,settling [s],force [N],first swing [m],"
      "round trip [s],put in [J],lost [J],drift [J]\n";
  for (const ReportedShake& shake : report.shakes) {
    const ShakeResult& r = shake.result;
    out += fmt::format("{},{:.4f},{:.3f},{},{:.4f},{:.4f},{},{:.3f},{:.4f},{:.4f},{:.5f},{:.5f},{:.2e}\n",
                       name_of(shake.line), r.shake.frequency, r.place_m, name_of(r.shake.direction), r.returned,
                       r.energy_share, settling_cell(shake), r.force, r.swing,
                       r.round_trip, r.ledger.put_in, r.ledger.lost_in_webbing + r.ledger.lost_to_air, r.ledger.drift);
  }
  return out;
}

std::string history_csv(const ShakeReport& report) {
  const ShakeHistory& history = report.history;
  const std::vector<std::size_t> nodes = spread(history.along.size(), kHistoryPlaces);
  std::string out = "time [s]";
  for (const std::size_t node : nodes) out += fmt::format(",at {:.3f} m [m]", history.along[node]);
  out += '\n';
  for (std::size_t i = 0; i < history.time.size(); ++i) {
    out += fmt::format("{:.4f}", history.time[i]);
    for (const std::size_t node : nodes) out += fmt::format(",{:.5f}", history.displacement[i][node]);
    out += '\n';
  }
  return out;
}

}  // namespace spanloom
