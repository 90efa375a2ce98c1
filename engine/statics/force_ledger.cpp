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
      entry.name = segment_name(rig, run, line, segment);
      ++segment;
    } else {
      entry.index = piece.index;
      entry.name = link_name(run, line, piece.index);
    }
    forces.push_back(std::move(entry));
  }
}

}  // namespace

std::string segment_name(const Rig& rig, const WebbingRun& run, const char* line, std::size_t segment) {
  return fmt::format("{} segment {} ({})", line, segment + 1, rig.webbings[run.segments[segment].webbing].name);
}

std::string link_name(const WebbingRun& run, const char* line, std::size_t link) {
  return fmt::format("{} {}", line, link_of(run, link).name);
}

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
  add_links_without_length(rig.main.run, false);
  add_links_without_length(rig.backup.run, true);
}

// A link that takes nothing of the gap is no piece of the line. It carries what the webbing beside it does.
void ForceLedger::add_links_without_length(const WebbingRun& run, bool on_backup) {
  const std::size_t entries = forces_.size();
  const auto add = [&](std::size_t index, std::size_t segment) {
    const Link& link = link_of(run, index);
    if (link.length > 0.0 || (link.mass == 0.0 && !link.strength)) return;
    for (std::size_t i = 0; i < entries; ++i) {
      const PieceForce& webbing = forces_[i];
      if (webbing.kind != Piece::Kind::webbing || webbing.on_backup != on_backup || webbing.index != segment) continue;
      PieceForce entry;
      entry.name = link_name(run, on_backup ? "backup" : "main", index);
      entry.kind = Piece::Kind::link;
      entry.on_backup = on_backup;
      entry.index = index;
      const std::size_t count = stretches_.size();
      for (std::size_t s = 0; s < count; ++s) {
        if (stretches_[s].entry == i) {
          const Stretch beside = stretches_[s];
          stretches_.push_back({beside.chain, beside.from, beside.to, forces_.size()});
        }
      }
      forces_.push_back(std::move(entry));
      return;
    }
  };
  add(0, 0);
  for (std::size_t i = 0; i < run.segments.size(); ++i) add(i + 1, i);
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
