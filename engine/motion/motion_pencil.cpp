#include "motion/motion_pencil.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>

#include "base/input_error.h"

namespace spanloom {
namespace {

// Sideways part of a bar's direction that is still none: what rounding of places leaves.
constexpr double kInPlane = 1e-9;

std::string node_key(const char* what, std::size_t node) {
  return std::string(what) + "[" + std::to_string(node) + "]";
}

double tension(const MotionLine& line, std::size_t bar, double length) {
  return std::max(line.laws[std::size_t(line.law[bar])].tension(length / line.length[bar] - 1.0), 0.0);
}

// Places along the line by which main and backup are numbered side by side: a node of the main by its number,
// one of the backup in proportion between the ties on either side of it.
std::vector<double> rank(const MotionLine& line) {
  std::vector<double> at(line.nodes());
  std::iota(at.begin(), at.begin() + std::ptrdiff_t(line.main_nodes), 0.0);
  if (line.backup_nodes() == 0) return at;
  Tie from{0, line.main_nodes};
  std::vector<Tie> ties = line.ties;
  ties.push_back({line.main_nodes - 1, line.nodes() - 1});
  for (const Tie& to : ties) {
    const double step = double(to.main - from.main) / double(std::max<std::size_t>(to.backup - from.backup, 1));
    for (std::size_t i = from.backup; i <= to.backup; ++i) at[i] = double(from.main) + step * double(i - from.backup);
    from = to;
  }
  return at;
}

void number(MotionPencil& pencil, const MotionLine& line) {
  std::vector<std::size_t> main_of(line.nodes());
  std::iota(main_of.begin(), main_of.end(), std::size_t{0});
  std::vector<char> held = line.held;
  for (const Tie& tie : line.ties) {
    main_of[tie.backup] = tie.main;
    held[tie.main] = held[tie.main] || held[tie.backup];
  }
  const std::vector<double> at = rank(line);
  std::vector<std::size_t> order(line.nodes());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return at[a] < at[b]; });

  const std::size_t per_node = pencil.axes.size();
  pencil.slot.assign(line.nodes(), -1);
  for (const std::size_t i : order) {
    if (held[i] || main_of[i] != i) continue;
    pencil.slot[i] = std::ptrdiff_t(pencil.unknowns);
    pencil.unknowns += per_node;
  }
  for (const Tie& tie : line.ties) pencil.slot[tie.backup] = pencil.slot[tie.main];
  std::ptrdiff_t widest = 0;
  for (std::size_t i = 0; i < line.bars(); ++i) {
    if (!line.is_bar(i) || pencil.slot[i] < 0 || pencil.slot[i + 1] < 0) continue;
    widest = std::max(widest, std::abs(pencil.slot[i + 1] - pencil.slot[i]));
  }
  pencil.half = std::size_t(widest) + per_node - 1;
}

void add_bar(MotionPencil& pencil, const MotionLine& line, const std::vector<Vec3>& places, std::size_t bar) {
  const Vec3 reach = places[bar + 1] - places[bar];
  const double l = norm(reach), across = tension(line, bar, l) / l;
  const double along = line.laws[std::size_t(line.law[bar])].stiffness(l / line.length[bar] - 1.0) / line.length[bar];
  const double n[3] = {reach.x / l, reach.y / l, reach.z / l};
  const std::size_t width = 2 * pencil.half + 1;
  for (std::size_t a = 0; a < pencil.axes.size(); ++a) {
    for (std::size_t b = 0; b < pencil.axes.size(); ++b) {
      const double k = (along - across) * n[pencil.axes[a]] * n[pencil.axes[b]] + (a == b ? across : 0.0);
      for (const std::size_t p : {bar, bar + 1}) {
        for (const std::size_t q : {bar, bar + 1}) {
          if (pencil.slot[p] < 0 || pencil.slot[q] < 0) continue;
          const std::size_t row = std::size_t(pencil.slot[p]) + a, column = std::size_t(pencil.slot[q]) + b;
          pencil.stiffness[row * width + (column + pencil.half - row)] += p == q ? k : -k;
        }
      }
    }
  }
}

}  // namespace

void check_places(const MotionLine& line, const std::vector<Vec3>& places, Swing swing) {
  if (places.size() != line.nodes()) {
    throw InputError("places", std::to_string(places.size()) + " places",
                     "one for each of " + std::to_string(line.nodes()) + " nodes");
  }
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (!is_finite(places[i])) throw InputError(node_key("places", i), "not finite", "a finite place [m]");
    if (!(line.mass[i] >= 0.0) || !std::isfinite(line.mass[i])) {
      throw InputError(node_key("mass", i), std::to_string(line.mass[i]) + " kg", "a mass of 0 kg or more");
    }
  }
  for (std::size_t i = 0; i < line.bars(); ++i) {
    if (!line.is_bar(i)) continue;
    const Vec3 reach = places[i + 1] - places[i];
    const double l = norm(reach);
    if (!(l > 0.0)) throw InputError(node_key("places", i), "a bar of no length", "neighbours apart");
    if (swing != Swing::all && std::abs(reach.y) > kInPlane * l) {
      throw InputError(node_key("places", i), "a bar out of the vertical plane", "a line in one plane y = const",
                       "ask for all swings together");
    }
  }
}

double cross_spring(const MotionLine& line, const std::vector<Vec3>& places, std::size_t bar) {
  const double l = norm(places[bar + 1] - places[bar]);
  return tension(line, bar, l) / l;
}

MotionPencil motion_pencil(const MotionLine& line, const std::vector<Vec3>& places, Swing swing) {
  check_places(line, places, swing);
  MotionPencil pencil;
  pencil.axes = swing == Swing::lateral ? std::vector<int>{1} : swing == Swing::in_plane ? std::vector<int>{0, 2}
                                                                                          : std::vector<int>{0, 1, 2};
  number(pencil, line);
  pencil.stiffness.assign(pencil.unknowns * (2 * pencil.half + 1), 0.0);
  pencil.mass.assign(pencil.unknowns, 0.0);
  std::vector<double> taut(pencil.unknowns, 0.0);  // springs across the bars beside each unknown
  for (std::size_t i = 0; i < line.bars(); ++i) {
    if (!line.is_bar(i)) continue;
    add_bar(pencil, line, places, i);
    const double across = cross_spring(line, places, i);
    for (const std::size_t p : {i, i + 1}) {
      if (pencil.slot[p] >= 0) taut[std::size_t(pencil.slot[p])] += across;
    }
  }
  for (std::size_t i = 0; i < line.nodes(); ++i) {
    if (pencil.slot[i] < 0) continue;
    for (std::size_t a = 0; a < pencil.axes.size(); ++a) pencil.mass[std::size_t(pencil.slot[i]) + a] += line.mass[i];
  }
  for (std::size_t i = 0; i < line.nodes(); ++i) {
    const std::ptrdiff_t at = pencil.slot[i];
    if (at < 0 || pencil.mass[std::size_t(at)] > 0.0 || taut[std::size_t(at)] > 0.0) continue;
    throw InputError(node_key("mass", i), "0 kg on a node between slack bars", "a mass, or a taut bar beside it",
                     "give the node the mass of its webbing");
  }
  return pencil;
}

}  // namespace spanloom
