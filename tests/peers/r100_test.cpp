// R100 in CalculiX 2.20 on the same mesh. Tolerances: sag and anchor forces 1e-5 relative, loop tension
// 1e-4. CalculiX stops at 1e-7 of the mean force and prints seven digits, so it is good to about 1e-6.
#include <gtest/gtest.h>

#include <cmath>
#include <memory>

#include "peers/r100_model.h"
#include "statics/equilibrium.h"
#include "support/r100.h"

namespace spanloom {
namespace {

struct Both {
  Equilibrium ours;
  Shape shape;
  peers::PeerState peer;
};

// Main bars from each tape that the peer's nodes and ours have in common.
class R100InCalculix : public testing::TestWithParam<std::size_t> {
 protected:
  static void SetUpTestSuite() {
    model_ = std::make_unique<peers::R100Model>(peers::r100_model());
    try {
      run_ = std::make_unique<peers::PeerRun>(peers::run_calculix(model_->model));
    } catch (const peers::PeerError& error) {
      why_not_ = error.what();
    }
  }
  static void TearDownTestSuite() {
    model_.reset();
    run_.reset();
  }
  void SetUp() override {
    ASSERT_TRUE(run_) << why_not_;
    const Line line = GetParam() == 0 ? r100::standing() : r100::walked();
    EquilibriumSolver solver(line);
    both_.ours = solver.solve();
    ASSERT_TRUE(both_.ours.certified());
    both_.shape = solver.shape(both_.ours);
    both_.peer = run_->states[GetParam()];
  }

  // Tension of the two bars at an inner node of a loop, from their directions and the weight of the node.
  static double tension_before(const peers::PeerState& state, const std::vector<std::size_t>& nodes, std::size_t i) {
    const Vec3 a = state.node[nodes[i - 1]] - state.node[nodes[i]], b = state.node[nodes[i + 1]] - state.node[nodes[i]];
    const double weight = r100::kLoopNaturalLength / double(r100::kLoopBars) * r100::kLoopMass * kGravity;
    // T_a a/|a| + T_b b/|b| = (0, weight)
    return weight * b.x / (b.x * a.z - a.x * b.z) * norm(a);
  }

  static std::unique_ptr<peers::R100Model> model_;
  static std::unique_ptr<peers::PeerRun> run_;
  static std::string why_not_;
  Both both_;
};
std::unique_ptr<peers::R100Model> R100InCalculix::model_;
std::unique_ptr<peers::PeerRun> R100InCalculix::run_;
std::string R100InCalculix::why_not_;

TEST_P(R100InCalculix, AgreesOnTheSagAtEveryNodeOfTheMain) {
  const double sag = -both_.shape.main[r100::kBays / 2].front().z;
  for (std::size_t k = 0; k < r100::kBays; ++k) {
    for (std::size_t i = 0; i <= r100::kMainBars; ++i) {
      const Vec3 peer = both_.peer.node[k * r100::kMainBars + i], ours = both_.shape.main[k][i];
      ASSERT_NEAR(ours.z, peer.z, 1e-5 * sag) << "bay " << k << " node " << i;
      ASSERT_NEAR(ours.x, peer.x, 1e-5 * sag) << "bay " << k << " node " << i;
    }
  }
}

TEST_P(R100InCalculix, AgreesOnTheMainsForceOnBothAnchors) {
  const Vec3 near = both_.ours.near_force.front(), far = both_.ours.far_force[2 * r100::kBays - 2];
  const Vec3 peer_near = both_.peer.held_force[0], peer_far = both_.peer.held_force[1];
  // The peer gives what the anchor does to the line: the other way round.
  EXPECT_NEAR(-peer_near.x / near.x, 1.0, 1e-5);
  EXPECT_NEAR(-peer_near.z / near.z, 1.0, 1e-5);
  EXPECT_NEAR(peer_far.x / far.x, 1.0, 1e-5);
  EXPECT_NEAR(peer_far.z / far.z, 1.0, 1e-5);
}

TEST_P(R100InCalculix, AgreesOnTheBackupsForceOnBothAnchors) {
  const Vec3 near = both_.ours.near_force[1], far = both_.ours.far_force[2 * r100::kBays - 1];
  const Vec3 peer_near = both_.peer.held_force[2], peer_far = both_.peer.held_force[3];
  EXPECT_NEAR(-peer_near.x / near.x, 1.0, 1e-4);
  EXPECT_NEAR(-peer_near.z / near.z, 1.0, 1e-4);
  EXPECT_NEAR(peer_far.x / far.x, 1.0, 1e-4);
  EXPECT_NEAR(peer_far.z / far.z, 1.0, 1e-4);
}

TEST_P(R100InCalculix, AgreesOnTheTensionOfEveryLoop) {
  for (std::size_t k = 0; k < r100::kBays; ++k) {
    const double peer = tension_before(both_.peer, model_->loop_node[k], 1);
    EXPECT_NEAR(norm(both_.ours.near_force[2 * k + 1]) / peer, 1.0, 1e-4) << "bay " << k;
  }
}

INSTANTIATE_TEST_SUITE_P(States, R100InCalculix, testing::Values(0u, 1u),
                         [](const auto& info) { return info.param == 0 ? "Standing" : "Walked"; });

}  // namespace
}  // namespace spanloom
