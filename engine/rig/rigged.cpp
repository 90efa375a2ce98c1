#include "rig/rigged.h"

#include <cassert>
#include <numeric>

namespace spanloom {
namespace {

std::vector<Piece> pieces(const WebbingRun& run, const std::vector<double>& segment_length) {
  std::vector<Piece> out;
  const auto add_link = [&](std::size_t index) {
    const double length = link_of(run, index).length;
    if (length > 0.0) out.push_back({Piece::Kind::link, index, length});
  };
  add_link(0);
  for (std::size_t i = 0; i < run.segments.size(); ++i) {
    out.push_back({Piece::Kind::webbing, run.segments[i].webbing, segment_length[i]});
    add_link(i + 1);
  }
  return out;
}

double webbing_length(const WebbingRun& run, const std::vector<double>& segment_length) {
  double length = std::accumulate(segment_length.begin(), segment_length.end(), 0.0);
  for (const Link& connector : run.connectors) length += connector.length;
  return length;
}

}  // namespace

const Link& link_of(const WebbingRun& run, std::size_t index) {
  assert(index < run.connectors.size() + 2);
  if (index == 0) return run.near_hardware;
  return index > run.connectors.size() ? run.far_hardware : run.connectors[index - 1];
}

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
