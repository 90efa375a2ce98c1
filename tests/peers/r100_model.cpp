#include "peers/r100_model.h"

#include <cmath>
#include <numbers>

#include "support/r100.h"

namespace spanloom::peers {
namespace {

// From here ten iterations suffice for both steps; at no force they do not converge, at 0.1 N they
// are fifteen.
constexpr double kDrawnLoopTension = 5.0;  // [N]

// Points of an arc of `bars` equal chords, together `length` long, its ends `span` apart.
std::vector<Vec3> arc(double span, double length, std::size_t bars) {
  const double chord = length / double(bars), m = double(bars);
  // Half the turn from chord to chord, by bisection: the span falls as the arc bends.
  double low = 1e-9, high = std::numbers::pi / m;
  for (int i = 0; i < 100; ++i) {
    const double half = 0.5 * (low + high);
    (chord * std::sin(m * half) / std::sin(half) > span ? low : high) = half;
  }
  const double radius = chord / (2.0 * std::sin(low));
  std::vector<Vec3> points;
  for (std::size_t i = 0; i <= bars; ++i) {
    const double turn = low * (2.0 * double(i) - m);
    points.push_back({0.5 * span + radius * std::sin(turn), 0.0, radius * (std::cos(m * low) - std::cos(turn))});
  }
  return points;
}

void add_bar(PeerModel& model, std::size_t near, std::size_t far, std::size_t kind, double mass_per_length) {
  model.bar.push_back({near, far, kind});
  const double half = 0.5 * model.kind[kind].natural_length * mass_per_length * kGravity;
  model.loads[0].resize(model.node.size());
  model.loads[0][near].z -= half;
  model.loads[0][far].z -= half;
}

}  // namespace

R100Model r100_model(std::size_t times) {
  const std::size_t main_bars = r100::kMainBars * times, loop_bars = r100::kLoopBars * times;
  const std::size_t last = r100::kBays * main_bars;
  const double bay = r100::kGap / double(r100::kBays);
  const double drawn_loop = r100::kLoopNaturalLength * (1.0 + kDrawnLoopTension / r100::kLoopStiffness);
  R100Model made;
  PeerModel& model = made.model;
  model.loads.resize(1);
  model.kind = {{r100::kMainStiffness, r100::kMainNaturalLength / double(last), r100::kGap / double(last)},
                {r100::kLoopStiffness, r100::kLoopNaturalLength / double(loop_bars), drawn_loop / double(loop_bars)}};
  for (std::size_t i = 0; i <= last; ++i) model.node.push_back({r100::kGap * double(i) / double(last), 0.0, 0.0});
  // The backup's ends are nodes of their own at the anchors, so that their forces are told apart.
  const std::size_t backup_near = model.node.size(), backup_far = backup_near + 1;
  model.node.push_back(model.node.front());
  model.node.push_back(model.node[last]);
  model.held = {0, last, backup_near, backup_far};
  for (std::size_t i = 0; i < last; ++i) add_bar(model, i, i + 1, 0, r100::kMainMass);
  const std::vector<Vec3> points = arc(bay, drawn_loop, loop_bars);
  for (std::size_t k = 0; k < r100::kBays; ++k) {
    std::vector<std::size_t> nodes{k == 0 ? backup_near : k * main_bars};
    for (std::size_t i = 1; i < loop_bars; ++i) {
      nodes.push_back(model.node.size());
      model.node.push_back(Vec3{bay * double(k), 0.0, 0.0} + points[i]);
    }
    nodes.push_back(k + 1 == r100::kBays ? backup_far : (k + 1) * main_bars);
    for (std::size_t i = 0; i < loop_bars; ++i) add_bar(model, nodes[i], nodes[i + 1], 1, r100::kLoopMass);
    made.loop_node.push_back(std::move(nodes));
  }
  model.loads.push_back(model.loads[0]);
  model.loads[1][last / 2].z -= r100::kWalkerWeight;
  return made;
}

PeerModel r100_release(double duration, double step, double alpha) {
  const R100Model r100 = r100_model();
  PeerModel model = r100.model;
  PeerMotion motion;
  motion.load = model.loads[0];
  for (const Vec3& load : motion.load) motion.mass.push_back(-load.z / kGravity);
  for (std::size_t held : model.held) motion.mass[held] = 0.0;
  motion.duration = duration;
  motion.step = step;
  motion.alpha = alpha;
  motion.watched = {r100::kBays * r100::kMainBars / 2};
  model.motion = std::move(motion);
  return model;
}

PeerModel trivial_model() {
  // Three bars: with fewer the matrix has nothing off its diagonal, which CalculiX's solver cannot take.
  PeerModel model;
  model.loads.resize(1);
  model.kind = {{r100::kLoopStiffness, 1.0, 1.0 + kDrawnLoopTension / r100::kLoopStiffness}};
  model.node = arc(2.5, 3.0 * model.kind[0].drawn_length, 3);
  model.held = {0, 3};
  for (std::size_t i = 0; i < 3; ++i) add_bar(model, i, i + 1, 0, r100::kLoopMass);
  model.loads.push_back(model.loads[0]);
  model.loads[1][1].z -= 0.01;
  return model;
}

}  // namespace spanloom::peers
