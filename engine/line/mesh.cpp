#include "line/mesh.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>

#include <fmt/format.h>

#include "base/constants.h"
#include "base/input_error.h"

namespace spanloom {
namespace {

constexpr double kLinkWidth = 0.03;      // a shackle in the wind [m]
constexpr double kSamePlace = 1e-9;      // nodes closer than this are one [m]

// One run of webbing along its natural coordinate, 0 at its start.
class Strip {
 public:
  // longest: bar where bars are cut by length, else 0.
  Strip(const Rig& rig, const WebbingRun& run, const std::vector<Piece>& pieces, double longest)
      : rig_(rig), run_(run), pieces_(pieces), longest_(longest) {
    border_.push_back(0.0);
    for (const Piece& piece : pieces) border_.push_back(border_.back() + piece.natural_length);
  }

  double length() const { return border_.back(); }

  struct Cut {
    std::vector<BarSpec> bars;
    std::vector<int> piece;
    std::vector<double> border;  // natural coordinates of the nodes
  };

  // Bars from `from` to `to`, with nodes at the breaks inside and at every joint.
  Cut cut(double from, double to, int bars, std::vector<double> breaks) const {
    for (double joint : border_) breaks.push_back(joint);
    std::erase_if(breaks, [&](double at) { return at <= from + kSamePlace || at >= to - kSamePlace; });
    breaks.push_back(from);
    breaks.push_back(to);
    std::sort(breaks.begin(), breaks.end());
    breaks.erase(std::unique(breaks.begin(), breaks.end(),
                             [](double a, double b) { return b - a < kSamePlace; }),
                 breaks.end());
    Cut cut;
    cut.border.push_back(from);
    const bool joined = piece_at(from + kSamePlace) != piece_at(to - kSamePlace);
    for (std::size_t i = 0; i + 1 < breaks.size(); ++i) {
      const int piece = piece_at(0.5 * (breaks[i] + breaks[i + 1]));
      const int count = joined ? bars_of_joined(piece, breaks[i + 1] - breaks[i], bars) : bars_by_share(breaks[i + 1] - breaks[i], to - from, bars);
      const double length = (breaks[i + 1] - breaks[i]) / count;
      for (int k = 0; k < count; ++k) {
        cut.bars.push_back({length, law(piece), mass_per_length(piece), 0.0});
        cut.piece.push_back(piece);
        cut.border.push_back(k + 1 == count ? breaks[i + 1] : breaks[i] + length * (k + 1));
      }
    }
    add_point_masses(cut);
    return cut;
  }

  double drag_width(int piece) const {
    const Piece& p = pieces_[piece];
    return p.kind == Piece::Kind::webbing ? rig_.webbings[p.index].width.value : kLinkWidth;
  }

 private:
  static int bars_by_share(double length, double whole, int bars) {
    return std::max(1, int(std::lround(length / whole * bars)));
  }
  // Where materials meet, bars must not be counted out by length: a joint that moves a hair while lengths
  // are being found would change their number and with it what it is moved by (bars cut by length are for motion,
  // where a hair more or less of tension does not matter).
  int bars_of_joined(int piece, double length, int bars) const {
    if (pieces_[piece].kind == Piece::Kind::link) return 1;
    return longest_ > 0.0 ? std::max(1, int(std::ceil(length / longest_))) : bars;
  }
  int piece_at(double at) const {
    int piece = 0;
    while (piece + 1 < int(pieces_.size()) && at > border_[piece + 1]) ++piece;
    return piece;
  }
  int law(int piece) const {
    const Piece& p = pieces_[piece];
    return p.kind == Piece::Kind::webbing ? int(p.index) : int(rig_.webbings.size());
  }
  double mass_per_length(int piece) const {
    const Piece& p = pieces_[piece];
    if (p.kind == Piece::Kind::webbing) return rig_.webbings[p.index].mass_per_length;
    return link_of(run_, p.index).mass / p.natural_length;
  }
  // A connector of no length is a mass at the joint of its segments.
  void add_point_masses(Cut& cut) const {
    double at = run_.near_hardware.length;
    std::size_t segment = 0;
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      if (pieces_[i].kind != Piece::Kind::webbing) continue;
      at = border_[i + 1];
      if (segment < run_.connectors.size() && run_.connectors[segment].length == 0.0) {
        for (std::size_t bar = 0; bar < cut.bars.size(); ++bar) {
          if (std::abs(cut.border[bar + 1] - at) < kSamePlace) cut.bars[bar].end_mass += run_.connectors[segment].mass;
        }
      }
      ++segment;
    }
  }

  const Rig& rig_;
  const WebbingRun& run_;
  const std::vector<Piece>& pieces_;
  double longest_;
  std::vector<double> border_;
};

std::size_t bay_of(const std::vector<double>& tape_s, double s) {
  const auto above = std::upper_bound(tape_s.begin() + 1, tape_s.end() - 1, s);
  return std::size_t(above - tape_s.begin()) - 1;
}

std::size_t node_at(const std::vector<double>& border, double s) {
  std::size_t nearest = 0;
  for (std::size_t i = 1; i < border.size(); ++i) {
    if (std::abs(border[i] - s) < std::abs(border[nearest] - s)) nearest = i;
  }
  return nearest;
}

int main_bars(double length, const MeshOptions& options) {
  if (options.longest_main_bar <= 0.0) return options.main_bars;
  return std::max(1, int(std::ceil(length / options.longest_main_bar)));
}

int loop_bars(double length, const MeshOptions& options) {
  if (options.longest_loop_bar <= 0.0) return options.loop_bars;
  const int least = length < kLongLoop ? options.least_loop_bars : options.least_long_loop_bars;
  return std::max(least, int(std::ceil(length / options.longest_loop_bar)));
}

LineEnds line_ends(const Rig& rig) {
  const Vec3 far{rig.site.gap, 0.0, rig.site.rise};
  return {{}, far, rig.backup.near_offset, far + rig.backup.far_offset};
}

}  // namespace

Mesh cut_line(const Rig& rig, const Rigged& rigged, const MeshOptions& options,
              const std::vector<double>& asked) {
  Mesh mesh;
  mesh.main_piece = main_pieces(rig, rigged);
  mesh.backup_piece = backup_pieces(rig, rigged);
  const double main_length = main_webbing_length(rig, rigged);
  mesh.tape_s = rigged.tape_s;
  mesh.tape_s.insert(mesh.tape_s.begin(), 0.0);
  mesh.tape_s.push_back(main_length);
  for (std::size_t i = 0; i < asked.size(); ++i) {
    if (!(asked[i] >= 0.0 && asked[i] <= main_length)) {
      throw InputError(fmt::format("places.walker[{}]", i), fmt::format("{:.2f} m", asked[i]),
                       fmt::format("a place on the main, 0 m to {:.2f} m", main_length));
    }
  }

  std::vector<StretchCurve> laws;
  for (const Webbing& webbing : rig.webbings) laws.push_back(webbing.curve);
  laws.push_back(StretchCurve::linear(kLinkStiffness));
  LineBuilder builder(std::move(laws), line_ends(rig));
  const Strip main(rig, rig.main.run, mesh.main_piece, options.longest_main_bar);
  const Strip backup(rig, rig.backup.run, mesh.backup_piece, options.longest_loop_bar);
  const double before = rig.main.run.near_hardware.length;  // the strip starts at the anchor
  mesh.asked.resize(asked.size());
  double loop_from = 0.0;
  for (std::size_t k = 0; k < rigged.bays(); ++k) {
    const bool last = k + 1 == rigged.bays();
    const double from = k == 0 ? 0.0 : before + mesh.tape_s[k];
    const double to = last ? main.length() : before + mesh.tape_s[k + 1];
    const double middle = 0.5 * (mesh.tape_s[k] + mesh.tape_s[k + 1]);
    std::vector<double> breaks;
    if (options.longest_main_bar <= 0.0) breaks.push_back(before + middle);
    for (double s : asked) breaks.push_back(before + s);
    const Strip::Cut cut = main.cut(from, to, main_bars(to - from, options), breaks);
    const double loop_to = last ? backup.length() : loop_from + rigged.loop_length[k];
    const Strip::Cut loop = backup.cut(loop_from, loop_to, loop_bars(loop_to - loop_from, options), {});
    loop_from = loop_to;
    builder.add_bay(cut.bars, loop.bars, last ? 0.0 : rig.backup.tape_mass);
    for (const auto& [part, strip] : {std::pair{&cut, &main}, {&loop, &backup}}) {
      for (std::size_t i = 0; i < part->bars.size(); ++i) {
        mesh.piece_of_bar.push_back(part->piece[i]);
        mesh.mass_per_length.push_back(part->bars[i].mass_per_length);
        mesh.drag_width.push_back(strip->drag_width(part->piece[i]));
      }
    }
    mesh.middle.push_back({k, node_at(cut.border, before + middle)});
    mesh.middle_s.push_back(middle);
    for (std::size_t i = 0; i < asked.size(); ++i) {
      if (bay_of(mesh.tape_s, asked[i]) == k) mesh.asked[i] = {k, node_at(cut.border, before + asked[i])};
    }
  }
  mesh.line = std::move(builder).build();
  return mesh;
}

void lengthen(Mesh& mesh, std::size_t chain, int piece, double by) {
  Line& line = mesh.line;
  const ChainRange range = line.chains[chain];
  const auto& pieces = chain % 2 == 0 ? mesh.main_piece : mesh.backup_piece;
  const auto changes = [&](std::size_t bar) {
    const int own = mesh.piece_of_bar[bar];
    return piece >= 0 ? own == piece : pieces[own].kind == Piece::Kind::webbing;
  };
  double now = 0.0;
  for (std::size_t i = 0; i < range.count; ++i) {
    if (changes(range.first + i)) now += line.length[range.first + i];
  }
  if (!(now + by > 0.0)) {
    throw InputError("", fmt::format("{:.3f} m of webbing to shorten by {:.3f} m", now, -by),
                     "a piece of webbing that stays longer than nothing");
  }
  const std::size_t bay = chain / 2;
  const bool is_loop = chain % 2 == 1;
  for (std::size_t i = 0; i < range.count; ++i) {
    const std::size_t bar = range.first + i;
    if (!changes(bar)) continue;
    const double more = line.length[bar] * by / now;
    line.length[bar] += more;
    const double half_weight = 0.5 * more * mesh.mass_per_length[bar] * kGravity;
    const bool first = i == 0, last = i + 1 == range.count;
    (first ? line.tape_load[bay] : line.load[bar - 1]).z -= half_weight;
    (last ? line.tape_load[bay + 1] : line.load[bar]).z -= half_weight;
    EndLoads& end = line.end_loads;
    if (first && bay == 0) (is_loop ? end.backup_near : end.main_near).z -= half_weight;
    if (last && bay + 1 == line.bays()) (is_loop ? end.backup_far : end.main_far).z -= half_weight;
  }
}

}  // namespace spanloom
