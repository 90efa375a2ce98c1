// `spanloom read` as it is run.
#include <gtest/gtest.h>

#include "command_run.h"

namespace spanloom {
namespace {

TEST(ReadCommand, SaysThatADistanceToAnEdgeNobodyStatedIsNotChecked) {
  const fixture::TemporaryFolder folder;
  fixture::put_file(folder.path() / "rig.toml",
                    "title = \"Test line\"\n[site]\ngap = \"16 m\"\n"
                    "[webbing.river]\nmass = \"61 g/m\"\nstrength = \"32 kN\"\n"
                    "stretch = [[\"5 kN\", \"4.0 %\"], [\"32 kN\", \"15 %\"]]\n"
                    "[main]\nwebbing = \"river\"\ntension = \"2.5 kN\"\n"
                    "[backup]\nwebbing = \"river\"\nslack = \"3 %\"\n"
                    "[spacing]\neven = \"2 m\"\n[walker]\nmass = \"78 kg\"\n");
  const fixture::Ran ran = fixture::run_spanloom(folder.path(), "read rig.toml");
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_NE(ran.out.find("near anchor, edge at"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("the distance to that edge is not checked"), std::string::npos) << ran.out;
  EXPECT_EQ(ran.out.find("judged by the anchor zone"), std::string::npos);
}

}  // namespace
}  // namespace spanloom
