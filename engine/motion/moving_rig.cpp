#include "motion/moving_rig.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/constants.h"
#include "base/input_error.h"
#include "line/chain.h"
#include "statics/loop_geometry.h"

namespace spanloom {
namespace {

constexpr int kMostRounds = 30;
constexpr double kTensionTolerance = 1e-8;  // relative

MovingRig made(const Rig& rig, Mesh mesh, const Equilibrium& standing, const EquilibriumSolver& solver) {
  MovingRig moving;
  moving.rig = rig;
  moving.line = motion_line(mesh, rig, standing, Facing::as_taped);
  const Shape shape = solver.shape(standing);
  moving.rest = node_places(moving.line, shape);
  moving.tension = norm(standing.near_force[0]);
  const std::size_t last = moving.line.main_nodes - 1;
  moving.main_share.assign(last + 1, 0.0);
  moving.main_mass.assign(last + 1, 0.0);
  moving.tape_node = {0};
  double length = 0.0, mass = 0.0;
  std::size_t node = 0;
  for (std::size_t bay = 0; bay < mesh.line.bays(); ++bay) {
    double bay_length = 0.0;
    const ChainRange main = mesh.line.main_chain(bay), loop = mesh.line.loop_chain(bay);
    for (std::size_t i = 0; i < main.count; ++i, ++node) {
      const double stretched = norm(moving.rest[node + 1] - moving.rest[node]);
      const double its_mass = mesh.line.length[main.first + i] * mesh.mass_per_length[main.first + i];
      for (const std::size_t end : {node, node + 1}) {
        moving.main_share[end] += 0.5 * stretched;
        moving.main_mass[end] += 0.5 * its_mass;
      }
      bay_length += stretched;
      if (mesh.main_piece[std::size_t(mesh.piece_of_bar[main.first + i])].kind == Piece::Kind::webbing) {
        mass += its_mass;
        length += stretched;
      }
    }
    for (std::size_t i = 0; i < loop.count; ++i) {
      if (mesh.backup_piece[std::size_t(mesh.piece_of_bar[loop.first + i])].kind != Piece::Kind::webbing) continue;
      mass += mesh.line.length[loop.first + i] * mesh.mass_per_length[loop.first + i];
    }
    moving.tape_node.push_back(node);
    moving.bay_length.push_back(bay_length);
    if (loop.count > 0) moving.drop.push_back(loop_drop(shape.main[bay], shape.loop[bay]));
  }
  moving.mass_per_length = mass / length;
  moving.round_trip = 2.0 * rig.site.gap / std::sqrt(moving.tension / moving.mass_per_length);
  moving.mesh = std::move(mesh);
  moving.standing = standing;
  return moving;
}

MovingOutcome stand(const Rig& rig, const MotionMesh& mesh) {
  MeshOptions options;
  options.longest_main_bar = mesh.main_bar;
  options.longest_loop_bar = mesh.loop_bar;
  options.least_long_loop_bars = mesh.loop_bars;
  StandingOutcome found = find_natural_lengths(rig, options);
  if (!found.rig) return {std::nullopt, found.why.words};
  const EquilibriumSolver solver(found.rig->mesh.line);
  return {made(rig, std::move(found.rig->mesh), found.rig->standing, solver), {}};
}

// The mesh with its loops, tapes and their weights left out.
Mesh main_alone(const Mesh& mesh) {
  Mesh bare = mesh;
  const Line& line = mesh.line;
  LineBuilder builder(line.laws, line.ends);
  bare.piece_of_bar.clear(), bare.mass_per_length.clear(), bare.drag_width.clear();
  for (std::size_t bay = 0; bay < line.bays(); ++bay) {
    const ChainRange main = line.main_chain(bay);
    std::vector<BarSpec> bars;
    for (std::size_t bar = main.first; bar < main.first + main.count; ++bar) {
      BarSpec spec{line.length[bar], line.law[bar], mesh.mass_per_length[bar], 0.0};
      if (bar + 1 < main.first + main.count) {
        // A connector is what the node weighs beyond its halves of the bars.
        const double halves = 0.5 * (spec.length * spec.mass_per_length + line.length[bar + 1] * mesh.mass_per_length[bar + 1]);
        spec.end_mass = std::max(0.0, -line.load[bar].z / kGravity - halves);
      }
      bars.push_back(spec);
      bare.piece_of_bar.push_back(mesh.piece_of_bar[bar]);
      bare.mass_per_length.push_back(mesh.mass_per_length[bar]);
      bare.drag_width.push_back(mesh.drag_width[bar]);
    }
    builder.add_bay(bars, {});
  }
  bare.line = std::move(builder).build();
  return bare;
}

}  // namespace

std::size_t MovingRig::node_near(double along) const {
  std::size_t best = 1;
  for (std::size_t i = 1; i + 1 < line.main_nodes; ++i) {
    if (std::abs(rest[i].x - along) < std::abs(rest[best].x - along)) best = i;
  }
  return best;
}

double slack_over_all(const MovingRig& rig) {
  const Line& line = rig.mesh.line;
  double loops = 0.0;
  for (std::size_t bay = 0; bay < line.bays(); ++bay) {
    const auto first = line.length.begin() + std::ptrdiff_t(line.loop_chain(bay).first);
    loops += std::accumulate(first, first + std::ptrdiff_t(line.loop_chain(bay).count), 0.0);
  }
  return loops / std::accumulate(rig.bay_length.begin(), rig.bay_length.end(), 0.0) - 1.0;
}

MovingOutcome moving_rig(const Rig& rig, const MotionMesh& mesh) {
  Rig shaken = rig;
  shaken.extra_places.clear();  // a node at each would only shorten the time step
  return stand(shaken, mesh);
}

MovingOutcome evenly_taped(const MovingRig& from, const MotionMesh& mesh) {
  Rig rig = from.rig;
  const double webbing = from.mesh.tape_s.back();
  TapesAt even;
  for (std::size_t k = 1; k < from.bays(); ++k) even.positions.push_back(webbing * double(k) / double(from.bays()));
  rig.spacing.pattern = even;
  rig.spacing.close.reset();
  rig.backup.amount = SlackShare{{slack_over_all(from)}};
  if (rig.main.tension) rig.main.tension = from.tension;
  try {
    MovingOutcome even = stand(rig, mesh);
    if (even.rig) even.rig->round_trip = from.round_trip;
    return even;
  } catch (const InputError& error) {
    // The crew's file is right; it is our even layout that meets a joint or the like.
    return {std::nullopt, error.what()};
  }
}

MovingOutcome without_loops(const MovingRig& from) {
  Mesh mesh = main_alone(from.mesh);
  const std::size_t last_chain = 2 * mesh.line.bays() - 2;
  // The tension falls with the length nearly as that of a straight main would.
  for (std::size_t round = 0; round < kMostRounds; ++round) {
    EquilibriumSolver solver(mesh.line);
    const Equilibrium standing = solver.solve();
    if (!standing.certified()) return {std::nullopt, "the line without loops found no proven rest"};
    const double tension = norm(standing.near_force[0]), miss = tension - from.tension;
    if (std::abs(miss) <= kTensionTolerance * from.tension) {
      MovingRig bare = made(from.rig, std::move(mesh), standing, solver);
      bare.round_trip = from.round_trip;
      return {std::move(bare), {}};
    }
    double compliance = 0.0;
    for (std::size_t bay = 0; bay < mesh.line.bays(); ++bay) {
      compliance += solver.chains().natural_length(2 * bay) * solver.chains().mean_stretch(2 * bay, tension).compliance;
    }
    try {
      lengthen(mesh, last_chain, -1, miss * compliance);
    } catch (const InputError&) {
      return {std::nullopt, "the last bay is too short to give the line without loops the tension of the rig"};
    }
  }
  return {std::nullopt, "no length gives the line without loops the tension of the rig"};
}

}  // namespace spanloom
