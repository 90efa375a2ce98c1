#include "line/mesh.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/constants.h"
#include "base/input_error.h"
#include "support/plain_rig.h"

namespace spanloom {
namespace {

struct Case { Rig rig; Rigged rigged; };

// Two segments and a connector each, hardware at all ends, one connector of no length. 27 m of main.
Case jointed() {
  Case c{plain_rig(), {}};
  c.rig.main.run.segments = {{0, 12.0}, {1, 8.0}, {0, std::nullopt}};
  c.rig.main.run.connectors = {{"long", 0.5, 0.2, {}}, {"point", 0.3, 0.0, {}}};
  c.rig.main.run.near_hardware = {"near", 2.0, 0.8, {}};
  c.rig.main.run.far_hardware = {"far", 1.0, 0.3, {}};
  c.rig.backup.run.segments = {{1, 15.0}, {0, std::nullopt}};
  c.rig.backup.run.connectors = {{"joint", 0.4, 0.1, {}}};
  c.rig.backup.run.near_hardware = {"b near", 0.6, 0.5, {}};
  c.rig.backup.tape_mass = 0.02;
  c.rigged.main_segment_length = {12.0, 8.0, 6.8};
  c.rigged.tape_s = {5.0, 9.0, 14.0, 21.0};
  c.rigged.loop_length = {6.0, 4.2, 5.2, 7.3, 6.5};  // 29.2 m with hardware and connector
  c.rigged.backup_segment_length = {15.0, 29.2 - 15.0 - 0.1 - 0.5};
  return c;
}

double weight(const Line& line) {
  double z = 0.0;
  for (const Vec3& v : line.load) z += v.z;
  for (const Vec3& v : line.tape_load) z += v.z;
  return -z / kGravity;
}

double length(const Line& line, bool loops) {
  double sum = 0.0;
  for (std::size_t c = loops; c < line.chains.size(); c += 2) {
    for (std::size_t i = 0; i < line.chains[c].count; ++i) sum += line.length[line.chains[c].first + i];
  }
  return sum;
}

TEST(CutLine, KeepsLengthAndWeightForAnyMeshAndPlaces) {
  const Case c = jointed();
  // main 18.8 m of river, 8 m of brook, 3.8 kg of metal; backup 15 m brook, 13.6 m river, 1 kg; 4 tapes.
  const double mass = 18.8 * 0.060 + 8.0 * 0.050 + 3.8 + 15.0 * 0.050 + 13.6 * 0.060 + 1.0 + 4 * 0.02;
  for (int main_bars : {2, 8, 16}) {
    for (int loop_bars : {1, 7, 16}) {
      for (const std::vector<double>& asked : {std::vector<double>{}, {0.0, 1.234, 5.0, 12.1, 27.0}}) {
        const Mesh mesh = cut_line(c.rig, c.rigged, {main_bars, loop_bars}, asked);
        EXPECT_NEAR(weight(mesh.line), mass, 1e-12);
        EXPECT_NEAR(length(mesh.line, false), 12.0 + 0.2 + 8.0 + 6.8 + 0.8 + 0.3, 1e-12);
        EXPECT_NEAR(length(mesh.line, true), 29.2, 1e-12);
      }
    }
  }
}

TEST(CutLine, PutsNodesAtJointsMiddlesAndAskedPlaces) {
  const Case c = jointed();
  const Mesh mesh = cut_line(c.rig, c.rigged, {8, 8}, {6.789, 20.5});
  const auto s_of = [&](const NodeAt& at) {
    double s = -0.8;  // the strip starts at the anchor, s at the connector
    for (std::size_t k = 0; k <= at.bay; ++k) {
      const ChainRange range = mesh.line.main_chain(k);
      for (std::size_t i = 0; i < (k == at.bay ? at.bar : range.count); ++i) s += mesh.line.length[range.first + i];
    }
    return s;
  };
  EXPECT_NEAR(s_of(mesh.asked[0]), 6.789, 1e-12);
  EXPECT_NEAR(s_of(mesh.asked[1]), 20.5, 1e-12);
  for (std::size_t k = 0; k < 5; ++k) {
    EXPECT_NEAR(s_of(mesh.middle[k]), mesh.middle_s[k], 1e-12);
    EXPECT_NEAR(mesh.middle_s[k], 0.5 * (mesh.tape_s[k] + mesh.tape_s[k + 1]), 1e-12);
  }
  // No bar lies across a joint: each has the mass of one material.
  double s = -0.8;
  for (std::size_t k = 0; k < 5; ++k) {
    const ChainRange range = mesh.line.main_chain(k);
    for (std::size_t i = range.first; i < range.first + range.count; ++i) {
      const double to = s + mesh.line.length[i];
      for (double joint : {0.0, 12.0, 12.2, 20.2, 27.0}) EXPECT_FALSE(s < joint - 1e-9 && to > joint + 1e-9) << joint;
      s = to;
    }
  }
}

TEST(CutLine, HangsAConnectorOfNoLengthOnItsJoint) {
  Case with = jointed(), without = jointed();
  without.rig.main.run.connectors[1].mass = 0.0;
  const Mesh a = cut_line(with.rig, with.rigged, {8, 8}), b = cut_line(without.rig, without.rigged, {8, 8});
  EXPECT_NEAR(weight(a.line) - weight(b.line), 0.3, 1e-12);
  int places = 0;
  for (std::size_t i = 0; i < a.line.load.size(); ++i) places += std::abs(a.line.load[i].z - b.line.load[i].z) > 1e-9;
  EXPECT_EQ(places, 1);
}

TEST(CutLine, RefusesPlacesBeyondTheMain) {
  const Case c = jointed();
  try {
    (void)cut_line(c.rig, c.rigged, {8, 8}, {3.0, 27.5});
    FAIL() << "no error";
  } catch (const InputError& error) {
    EXPECT_EQ(error.problems().front().key, "places.walker[1]");
  }
}

TEST(Lengthen, GivesWhatAFreshCutGives) {
  Case c = jointed();
  c.rig.main.run.connectors[1].mass = 0.0;  // a joint inside the last bay keeps its share, the tape its place
  Mesh mesh = cut_line(c.rig, c.rigged, {8, 8});
  lengthen(mesh, 8, 4, 0.35);   // last main segment: piece 0 hardware, 1 river, 2 link, 3 brook, 4 river
  lengthen(mesh, 3, -1, -0.11);  // a loop of one webbing
  c.rigged.main_segment_length[2] += 0.35;
  c.rigged.loop_length[1] -= 0.11;
  c.rigged.backup_segment_length[1] -= 0.11;
  const Mesh fresh = cut_line(c.rig, c.rigged, {8, 8});
  EXPECT_NEAR(length(mesh.line, false), length(fresh.line, false), 1e-12);
  EXPECT_NEAR(weight(mesh.line), weight(fresh.line) + 0.11 * (0.060 - 0.050), 1e-12);  // the joint moves in a fresh cut
}

TEST(Lengthen, MovesEveryNodeLoadAsAFreshCutDoes) {
  Case c{plain_rig(), {}};
  c.rigged.main_segment_length = {12.0};
  c.rigged.tape_s = {4.0, 8.0};
  c.rigged.loop_length = {4.1, 4.2, 4.3};
  c.rigged.backup_segment_length = {12.6};
  Mesh mesh = cut_line(c.rig, c.rigged, {8, 8});
  lengthen(mesh, 4, 0, 0.5);
  lengthen(mesh, 1, -1, 0.2);
  lengthen(mesh, 5, -1, -0.3);
  c.rigged.main_segment_length = {12.5};
  c.rigged.loop_length = {4.3, 4.2, 4.0};
  c.rigged.backup_segment_length = {12.5};
  const Mesh fresh = cut_line(c.rig, c.rigged, {8, 8});
  ASSERT_EQ(mesh.line.bars(), fresh.line.bars());
  for (std::size_t i = 0; i < fresh.line.bars(); ++i) {
    EXPECT_NEAR(mesh.line.length[i], fresh.line.length[i], 1e-13);
    EXPECT_NEAR(mesh.line.load[i].z, fresh.line.load[i].z, 1e-13);
  }
  for (std::size_t k = 0; k <= 3; ++k) EXPECT_NEAR(mesh.line.tape_load[k].z, fresh.line.tape_load[k].z, 1e-13);
  const EndLoads &a = mesh.line.end_loads, &b = fresh.line.end_loads;
  EXPECT_NEAR(a.main_far.z, b.main_far.z, 1e-13);
  EXPECT_NEAR(a.backup_near.z, b.backup_near.z, 1e-13);
  EXPECT_NEAR(a.backup_far.z, b.backup_far.z, 1e-13);
}

TEST(Lengthen, NeverLeavesAPieceOfNothing) {
  const Case c = jointed();
  Mesh mesh = cut_line(c.rig, c.rigged, {8, 8});
  EXPECT_THROW(lengthen(mesh, 3, -1, -4.2), InputError);
}

}  // namespace
}  // namespace spanloom
