#include "statics/force_ledger.h"

#include <fmt/format.h>

namespace spanloom {
namespace {

void add_entries(const Rig& rig, const WebbingRun& run, const std::vector<Piece>& pieces, bool on_backup,
                 std::vector<PieceForce>& forces) {
  const char* line = on_backup ? "backup" : "main";
  std::size_t segment = 0;
  for (const Piece& piece : pieces) {
    PieceForce entry;
    entry.kind = piece.kind;
    entry.on_backup = on_backup;
    if (piece.kind == Piece::Kind::webbing) {
      entry.index = segment;
      entry.at_near_anchor = segment == 0;
      entry.at_far_anchor = segment + 1 == run.segments.size();
      entry.name = fmt::format("{} segment {} ({})", line, segment + 1, rig.webbings[piece.index].name);
      entry.key = fmt::format("{}.segments[{}]", line, segment++);
    } else {
      entry.index = piece.index;
      const bool near = piece.index == 0, far = piece.index == run.connectors.size() + 1;
      const Link& link = near ? run.near_hardware : far ? run.far_hardware : run.connectors[piece.index - 1];
      entry.name = fmt::format("{} {}", line, link.name);
      entry.key = near  ? fmt::format("{}.near_hardware", line)
                  : far ? fmt::format("{}.far_hardware", line)
                        : fmt::format("{}.connectors[{}]", line, piece.index - 1);
    }
    forces.push_back(std::move(entry));
  }
}

}  // namespace

ForceLedger::ForceLedger(const Rig& rig, const Mesh& mesh) {
  add_entries(rig, rig.main.run, mesh.main_piece, false, forces_);
  const std::size_t backup_first = forces_.size();
  add_entries(rig, rig.backup.run, mesh.backup_piece, true, forces_);
  for (std::size_t c = 0; c < mesh.line.chains.size(); ++c) {
    const ChainRange range = mesh.line.chains[c];
    std::size_t from = 0;
    while (from < range.count) {
      const int piece = mesh.piece_of_bar[range.first + from];
      std::size_t to = from;
      while (to < range.count && mesh.piece_of_bar[range.first + to] == piece) ++to;
      stretches_.push_back({c, from, to, std::size_t(piece) + (c % 2 == 1 ? backup_first : 0)});
      from = to;
    }
  }
}

void ForceLedger::enter(const ChainSet& chains, const Equilibrium& at, const std::string& state) {
  for (const Stretch& s : stretches_) {
    const double tension = chains.greatest_force(s.chain, at.near_force[s.chain], s.from, s.to);
    if (tension > forces_[s.entry].tension) {
      forces_[s.entry].tension = tension;
      forces_[s.entry].state = state;
    }
  }
}

}  // namespace spanloom
