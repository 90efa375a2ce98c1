// Properties that hold for every line, over thousands of random ones far wider than anything rigged:
// 5 m to 3 km, slack to overtight, as steep as wide, straight and bent curves from 15 kN to 10 MN,
// wind, heavy joints, loops pulled taut. Seeds are fixed.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "statics/equilibrium.h"
#include "support/random_line.h"

namespace spanloom {
namespace {

constexpr int kLines = 4000;

RandomLine numbered(int i, const RandomLineKind& kind = {}) {
  std::mt19937_64 random(std::uint64_t(i) + 20240901u);
  return random_line(random, kind);
}

bool all_finite(const Equilibrium& state) {
  const auto finite = [](const std::vector<Vec3>& all) { return std::all_of(all.begin(), all.end(), is_finite); };
  return finite(state.tapes) && finite(state.near_force) && finite(state.far_force);
}

// Unbalanced force of the whole line: anchors against all loads.
double unbalanced(const Line& line, const Equilibrium& state) {
  Vec3 sum;
  for (const Vec3& load : line.load) sum += load;
  for (const Vec3& load : line.tape_load) sum += load;
  const std::size_t last = line.chains.size() - 2;
  sum -= state.near_force[0] + line.tape_load.front() - state.far_force[last] + line.tape_load.back();
  if (line.chains[1].count > 0) sum -= state.near_force[1];
  if (line.chains[last + 1].count > 0) sum += state.far_force[last + 1];
  return norm(sum);
}

TEST(RandomLines, AreAllCertifiedAndBalanced) {
  int most_steps = 0;
  for (int i = 0; i < kLines; ++i) {
    const RandomLine made = numbered(i);
    EquilibriumSolver solver(made.line);
    const Equilibrium state = solver.solve();
    ASSERT_TRUE(state.certified()) << i << ": " << made.words;
    ASSERT_TRUE(all_finite(state)) << i << ": " << made.words;
    ASSERT_LT(unbalanced(made.line, state), 1e-8 * state.certificate.greatest_force) << i << ": " << made.words;
    most_steps = std::max(most_steps, state.certificate.iterations);
  }
  EXPECT_LE(most_steps, 60);
}

TEST(RandomLines, RestInTheSamePlaceByNewtonAndByDescent) {
  for (int i = 0; i < kLines / 10; ++i) {
    const RandomLine made = numbered(i, {.most_bays = 20});
    EquilibriumSolver solver(made.line);
    const Equilibrium newton = solver.solve(), descent = solver.solve_by_descent();
    ASSERT_TRUE(newton.certified() && descent.certified()) << i << ": " << made.words;
    const double size = norm(made.line.ends.main_far);
    for (std::size_t k = 0; k < newton.tapes.size(); ++k) {
      ASSERT_LT(norm(newton.tapes[k] - descent.tapes[k]), 1e-7 * size) << i << ": " << made.words;
    }
  }
}

// The line seen from the other end: chains and their bars in reverse, x turned round.
Line mirrored(const Line& line) {
  const auto turn = [&](Vec3 v) { return Vec3{-v.x, v.y, v.z}; };
  const auto place = [&](Vec3 v) { return turn(v - line.ends.main_far); };
  Line turned;
  turned.laws = line.laws;
  turned.ends = {place(line.ends.main_far), place(line.ends.main_near), place(line.ends.backup_far), place(line.ends.backup_near)};
  for (std::size_t k = line.bays(); k-- > 0;) {
    for (const ChainRange& chain : {line.main_chain(k), line.loop_chain(k)}) {
      turned.chains.push_back({turned.length.size(), chain.count});
      for (std::size_t i = chain.count; i-- > 0;) {
        turned.length.push_back(line.length[chain.first + i]);
        turned.law.push_back(line.law[chain.first + i]);
        turned.load.push_back(i == 0 ? Vec3{} : turn(line.load[chain.first + i - 1]));
      }
    }
  }
  for (std::size_t k = line.tape_load.size(); k-- > 0;) turned.tape_load.push_back(turn(line.tape_load[k]));
  return turned;
}

TEST(RandomLines, HangTheSameSeenFromTheOtherEnd) {
  for (int i = 0; i < kLines / 4; ++i) {
    const RandomLine made = numbered(i + kLines);
    const Line& line = made.line;
    EquilibriumSolver solver(line), turned(mirrored(line));
    const Equilibrium here = solver.solve(), there = turned.solve();
    ASSERT_TRUE(here.certified() && there.certified()) << i << ": " << made.words;
    const double size = norm(line.ends.main_far);
    for (std::size_t k = 0; k < here.tapes.size(); ++k) {
      const Vec3 back = there.tapes[line.bays() - k];
      const Vec3 image = Vec3{-back.x, back.y, back.z} + line.ends.main_far;
      ASSERT_LT(norm(image - here.tapes[k]), 1e-7 * size) << i << ": " << made.words;
    }
  }
}

TEST(RandomLines, NeverSagLessUnderAHeavierWalker) {
  // Where the walker stands: of two equilibria under loads that differ by a weight there, the convex
  // energy lets the heavier one hang lower or as low.
  for (int i = 0; i < kLines / 8; ++i) {
    const RandomLine made = numbered(i + 2 * kLines);
    const std::size_t bay = std::size_t(i) % made.line.bays();
    const std::size_t bar = made.line.main_chain(bay).count / 2;
    EquilibriumSolver solver(made.line);
    Equilibrium state = solver.solve();
    double before = INFINITY;
    for (double weight : {0.0, 1.0, 300.0, 800.0, 1600.0, 3000.0}) {
      Line line = made.line;
      add_main_load(line, {bay, bar}, {0.0, 0.0, -weight});
      solver.set_loads(line);
      state = solver.solve_from(state);
      ASSERT_TRUE(state.certified()) << i << ": " << made.words << ", " << weight << " N more";
      const double height = solver.shape(state).main[bay][bar].z;
      ASSERT_LE(height, before + 1e-9 * norm(line.ends.main_far)) << i << ": " << made.words;
      before = height;
    }
  }
}

TEST(RandomLines, MoveSidewaysOnlyInTheWind) {
  for (int i = 0; i < kLines / 10; ++i) {
    const RandomLine made = numbered(i + 3 * kLines, {.most_wind = 0.0});
    if (made.line.ends.backup_near.y != 0.0 || made.line.ends.backup_far.y != 0.0) continue;
    EquilibriumSolver solver(made.line);
    const Equilibrium state = solver.solve();
    ASSERT_TRUE(state.certified()) << i << ": " << made.words;
    for (const Vec3& tape : state.tapes) ASSERT_EQ(tape.y, 0.0) << i << ": " << made.words;
  }
}

}  // namespace
}  // namespace spanloom
