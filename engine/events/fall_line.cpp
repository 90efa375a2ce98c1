#include "events/fall_line.h"

#include <algorithm>

#include "base/input_error.h"

namespace spanloom {
namespace {

// Bar of the mesh that a bar of the main is.
std::size_t mesh_bar(const MovingRig& rig, std::size_t bar) {
  const std::size_t bay = bay_of(rig, bar + 1);
  return rig.mesh.line.main_chain(bay).first + bar - rig.tape_node[bay];
}

const Piece& piece_of(const MovingRig& rig, std::size_t bar) {
  return rig.mesh.main_piece[std::size_t(rig.mesh.piece_of_bar[mesh_bar(rig, bar)])];
}

}  // namespace

EndBars end_bars(const MovingRig& rig) {
  const Mesh& mesh = rig.mesh;
  // Bars of hardware at one end of a chain.
  const auto hardware = [&](const ChainRange& chain, const std::vector<Piece>& pieces, bool from_far) {
    std::size_t count = 0;
    while (count + 1 < chain.count) {
      const std::size_t bar = from_far ? chain.first + chain.count - 1 - count : chain.first + count;
      if (pieces[std::size_t(mesh.piece_of_bar[bar])].kind != Piece::Kind::link) break;
      ++count;
    }
    return count;
  };
  const std::size_t last = mesh.line.bays() - 1, main_bars = rig.line.main_nodes - 1;
  EndBars ends{};
  ends.main_near = hardware(mesh.line.main_chain(0), mesh.main_piece, false);
  ends.main_far = main_bars - 1 - hardware(mesh.line.main_chain(last), mesh.main_piece, true);
  ends.backup_near = rig.line.main_nodes + hardware(mesh.line.loop_chain(0), mesh.backup_piece, false);
  ends.backup_far = rig.line.bars() - 1 - hardware(mesh.line.loop_chain(last), mesh.backup_piece, true);
  return ends;
}

std::size_t bay_of(const MovingRig& rig, std::size_t node) {
  const auto tape = std::lower_bound(rig.tape_node.begin() + 1, rig.tape_node.end() - 1, node);
  return std::size_t(tape - rig.tape_node.begin()) - 1;
}

NodeAt node_at(const MovingRig& rig, std::size_t node) {
  const std::size_t bay = bay_of(rig, node);
  return {bay, node - rig.tape_node[bay]};
}

CutPlace cut_place(const MovingRig& rig, std::size_t bar) {
  const std::size_t bars = rig.line.main_nodes - 1;
  if (bar >= bars) throw InputError("cut", std::to_string(bar), "a bar of the main, 0 to " + std::to_string(bars - 1));
  CutPlace place{bar, 0.5 * (rig.rest[bar].x + rig.rest[bar + 1].x), "webbing"};
  const Piece& piece = piece_of(rig, bar);
  if (bar == 0) place.words = "at the near anchor";
  else if (bar + 1 == bars) place.words = "at the far anchor";
  else if (piece.kind == Piece::Kind::link) place.words = link_of(rig.rig.main.run, piece.index).name;
  return place;
}

std::vector<std::size_t> connector_bars(const MovingRig& rig) {
  const std::vector<Link>& connectors = rig.rig.main.run.connectors;
  std::vector<std::size_t> bars;
  std::size_t bar = 0;
  const std::size_t last = rig.line.main_nodes - 2;
  const auto is_webbing = [&](std::size_t at) { return piece_of(rig, at).kind == Piece::Kind::webbing; };
  const auto same_piece = [&](std::size_t a, std::size_t b) { return &piece_of(rig, a) == &piece_of(rig, b); };
  while (bar < last && !is_webbing(bar)) ++bar;
  for (const Link& connector : connectors) {
    // To the end of the segment before it.
    while (bar < last && same_piece(bar, bar + 1)) ++bar;
    if (connector.length == 0.0) {
      bars.push_back(bar++);
      continue;
    }
    bars.push_back(++bar);
    while (bar < last && !is_webbing(bar)) ++bar;
  }
  return bars;
}

}  // namespace spanloom
