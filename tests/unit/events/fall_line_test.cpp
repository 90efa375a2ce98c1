// Where a main can fail: what a cut is called, which bars are connectors.
#include "events/fall_line.h"

#include <gtest/gtest.h>

#include "base/input_error.h"
#include "support/jointed_rig.h"

namespace spanloom {
namespace {

MovingRig jointed(const MotionMesh& mesh) {
  const MovingOutcome made = moving_rig(jointed_rig(), mesh);
  EXPECT_TRUE(made.rig) << made.why;
  return *made.rig;
}

TEST(CutPlace, IsNamedAfterWhatFails) {
  for (const MotionMesh& mesh : {kSearchMesh, kToldMesh}) {
    const MovingRig rig = jointed(mesh);
    const std::size_t last = rig.line.main_nodes - 2;
    EXPECT_EQ(cut_place(rig, 0).words, "at the near anchor");
    EXPECT_EQ(cut_place(rig, last).words, "at the far anchor");
    const std::vector<std::size_t> connectors = connector_bars(rig);
    ASSERT_EQ(connectors.size(), 2u);
    EXPECT_EQ(cut_place(rig, connectors[0]).words, "soft link");
    EXPECT_EQ(cut_place(rig, connectors[1]).words, "steel ring");
    EXPECT_EQ(cut_place(rig, connectors[0] + 2).words, "webbing");
    EXPECT_NEAR(cut_place(rig, connectors[0]).along, 20.0, 0.8);  // 18.5 m of webbing stretched, hardware before it
    EXPECT_NEAR(cut_place(rig, connectors[1]).along, 30.0, 1.2);
    EXPECT_EQ(cut_place(rig, connectors[0]).bar, connectors[0]);
  }
}

TEST(CutPlace, LiesBetweenTheNodesOfItsBar) {
  const MovingRig rig = jointed(kSearchMesh);
  for (std::size_t bar = 0; bar + 1 < rig.line.main_nodes; ++bar) {
    const double along = cut_place(rig, bar).along;
    EXPECT_GT(along, rig.rest[bar].x);
    EXPECT_LT(along, rig.rest[bar + 1].x);
  }
}

TEST(CutPlace, RefusesABarThatTheMainHasNot) {
  const MovingRig rig = jointed(kSearchMesh);
  EXPECT_THROW(cut_place(rig, rig.line.main_nodes - 1), InputError);
}

TEST(ConnectorBars, AreNoneOfOneSegmentWithHardwareAtItsEnds) {
  Rig rig = plain_rig();
  rig.main.run.near_hardware = {"clamp", 0.8, 0.3, 30e3};
  const MovingOutcome made = moving_rig(rig, kSearchMesh);
  ASSERT_TRUE(made.rig) << made.why;
  EXPECT_TRUE(connector_bars(*made.rig).empty());
}

TEST(NodesOfBays, AreWhereTheStaticsHaveThem) {
  const MovingRig rig = jointed(kSearchMesh);
  const EquilibriumSolver solver(rig.mesh.line);
  const Shape shape = solver.shape(rig.standing);
  for (std::size_t node = 0; node < rig.line.main_nodes; ++node) {
    const NodeAt at = node_at(rig, node);
    EXPECT_LT(norm(shape.main[at.bay][at.bar] - rig.rest[node]), 1e-12) << node;
  }
  EXPECT_EQ(bay_of(rig, 1), 0u);
  EXPECT_EQ(bay_of(rig, rig.tape_node[3]), 2u);  // a tape counts to the bay before it
  EXPECT_EQ(bay_of(rig, rig.tape_node[3] + 1), 3u);
  EXPECT_EQ(bay_of(rig, rig.line.main_nodes - 1), rig.bays() - 1);
}

}  // namespace
}  // namespace spanloom
