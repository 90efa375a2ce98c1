// `spanloom read` as it is run.
#include <gtest/gtest.h>

#include "command_run.h"

namespace spanloom {
namespace {

// What the command says of a small invented rig with more tables behind it.
fixture::Ran read(const std::string& more = "") {
  const fixture::TemporaryFolder folder;
  fixture::put_file(folder.path() / "rig.toml",
                    "title = \"Test line\"\n[site]\ngap = \"16 m\"\n"
                    "[webbing.river]\nmass = \"61 g/m\"\nstrength = \"32 kN\"\n"
                    "stretch = [[\"5 kN\", \"4.0 %\"], [\"32 kN\", \"15 %\"]]\n"
                    "[main]\nwebbing = \"river\"\ntension = \"2.5 kN\"\n"
                    "[backup]\nwebbing = \"river\"\nslack = \"3 %\"\n"
                    "[spacing]\neven = \"2 m\"\n[walker]\nmass = \"78 kg\"\n" + more);
  return fixture::run_spanloom(folder.path(), "read rig.toml");
}

TEST(ReadCommand, SaysThatADistanceToAnEdgeNobodyStatedIsNotChecked) {
  const fixture::Ran ran = read();
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_NE(ran.out.find("near anchor, edge at"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("the distance to that edge is not checked"), std::string::npos) << ran.out;
  EXPECT_EQ(ran.out.find("judged by the anchor zone"), std::string::npos);
}

TEST(ReadCommand, SaysHowHardTheLineIsShakenAndHowItGusts) {
  const fixture::Ran ran = read("[wind]\nspeed = \"5 m/s\"\ngust = \"9 m/s\"\n[shake]\nswing = \"150 mm\"\n");
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  for (const char* row : {"gust                      9.0 m/s", "gust comes and goes in    6.00 s (our default)",
                          "first swing of a shake    0.15 m\n", "first swing of a bounce   0.30 m (our default)"}) {
    EXPECT_NE(ran.out.find(row), std::string::npos) << row << '\n' << ran.out;
  }
}

TEST(ReadCommand, SaysWhatCatchesAFallAndWhatIsAssumedOfIt) {
  const std::string out = read("leash_ring = \"main\"\nleash_ring_mass = \"180 g\"\n[limits]\nbody_force = \"5 kN\"\n").out;
  for (const char* row :
       {"leash of                  generic leash (our default)", "ends of the leash keep    50.0 % (our default)",
        "leash ring around         the main alone\n", "leash ring, mass          180 g\n",
        "leash ring, friction      0.15 (our default)", "body in a catch           one mass (our default)",
        "most on a body in a catch 5.00 kN\n", "fall, distance to walls   1.00 m (our default)",
        "tape tears at             not stated\n", "near anchor, wall at      not stated\n",
        "near anchor, points       not stated\n"}) {
    EXPECT_NE(out.find(row), std::string::npos) << row << '\n' << out;
  }
  EXPECT_NE(read("leash_webbing = \"river\"\n").out.find("leash of                  river\n"), std::string::npos);
}

TEST(ReadCommand, SaysWhereThePointsOfAnAnchorAre) {
  const std::string out = read("[anchor.far]\nwall = \"0.5 m\"\nlegs = \"equalising\"\nleg_stiffness = \"400 kN\"\n"
                               "points = [{ name = \"bolt\", at = [\"1.2 m\", \"0.4 m\", \"-0.1 m\"], "
                               "strength = \"25 kN\" },\n"
                               "{ name = \"tree\", length = \"2 m\", angle = \"-30 deg\" }]\n").out;
  for (const char* row :
       {"far anchor, wall at       0.50 m\n", "far anchor, point 1       bolt, 1.20 m along, 0.40 m left, -0.10 m up,",
        "far anchor, point 2       tree, 1.73 m along, -1.00 m left, 0.00 m up\n",
        "far anchor, legs          equalising, EA 400.00 kN\n", "far anchor, tree: strength not stated"}) {
    EXPECT_NE(out.find(row), std::string::npos) << row << '\n' << out;
  }
}

TEST(ReadCommand, SaysThatNoLossIsComputedWhereNoneIsStated) {
  const std::string out = read().out;
  EXPECT_NE(out.find("loss in one load cycle    not stated"), std::string::npos) << out;
  EXPECT_NE(out.find("none is computed in webbing river"), std::string::npos) << out;
}

}  // namespace
}  // namespace spanloom
