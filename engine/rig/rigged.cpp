#include "rig/rigged.h"

#include <numeric>

namespace spanloom {
namespace {

std::vector<Piece> pieces(const WebbingRun& run, const std::vector<double>& segment_length) {
  std::vector<Piece> out;
  const auto add_link = [&](const Link& link, std::size_t index) {
    if (link.length > 0.0) out.push_back({Piece::Kind::link, index, link.length});
  };
  add_link(run.near_hardware, 0);
  for (std::size_t i = 0; i < run.segments.size(); ++i) {
    out.push_back({Piece::Kind::webbing, run.segments[i].webbing, segment_length[i]});
    if (i < run.connectors.size()) add_link(run.connectors[i], i + 1);
  }
  add_link(run.far_hardware, run.connectors.size() + 1);
  return out;
}

double webbing_length(const WebbingRun& run, const std::vector<double>& segment_length) {
  double length = std::accumulate(segment_length.begin(), segment_length.end(), 0.0);
  for (const Link& connector : run.connectors) length += connector.length;
  return length;
}

}  // namespace

std::vector<Piece> main_pieces(const Rig& rig, const Rigged& rigged) {
  return pieces(rig.main.run, rigged.main_segment_length);
}

std::vector<Piece> backup_pieces(const Rig& rig, const Rigged& rigged) {
  return pieces(rig.backup.run, rigged.backup_segment_length);
}

double main_webbing_length(const Rig& rig, const Rigged& rigged) {
  return webbing_length(rig.main.run, rigged.main_segment_length);
}

double backup_webbing_length(const Rig& rig, const Rigged& rigged) {
  return webbing_length(rig.backup.run, rigged.backup_segment_length);
}

}  // namespace spanloom
