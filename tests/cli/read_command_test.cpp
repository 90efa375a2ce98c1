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

TEST(ReadCommand, SaysThatNoLossIsComputedWhereNoneIsStated) {
  const std::string out = read().out;
  EXPECT_NE(out.find("loss in one load cycle    not stated"), std::string::npos) << out;
  EXPECT_NE(out.find("none is computed in webbing river"), std::string::npos) << out;
}

}  // namespace
}  // namespace spanloom
