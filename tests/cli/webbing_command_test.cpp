#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "command_run.h"

namespace spanloom {
namespace {

using fixture::bytes_of;
using fixture::put_file;
using fixture::Ran;
using Json = nlohmann::json;

class WebbingCommand : public testing::Test {
 protected:
  WebbingCommand() { put_file(folder_.path() / "pull.csv", bytes_of(SPANLOOM_SOURCE_DIR "/examples/webbing/pull-test.csv")); }
  Ran run(const std::string& arguments) { return fixture::run_spanloom(folder_.path(), arguments); }
  std::string file(const std::string& name) { return bytes_of(folder_.path() / name); }

  fixture::TemporaryFolder folder_;
};

constexpr const char* kExample = "webbing pull.csv --gauge-length '1.5 m' --date 2026-05-01 ";

TEST_F(WebbingCommand, TellsTheExampleByTheFormulaItWasMadeBy) {
  const Ran ran = run(std::string(kExample) + "--json");
  ASSERT_EQ(ran.exit_code, 0) << ran.err;
  const Json json = Json::parse(ran.out);
  EXPECT_EQ(json["format"]["name"], "spanloom-webbing");
  const Json& test = json["pull_test"];
  EXPECT_EQ(test["cycles"].size(), 4u);
  EXPECT_EQ(test["curve_of_cycle"], 4);
  EXPECT_LE(test["points"].size(), 12u);
  // x^1.43 up and x^1.65 down: areas 1/2.43 and 1/2.65, so 0.0867 of their mean.
  const double up = 1.0 / 2.43, down = 1.0 / 2.65;
  EXPECT_NEAR(test["loss"].get<double>(), (up - down) / (0.5 * (up + down)), 0.01);
  EXPECT_NEAR(test["cycles"][0]["stretch_after"].get<double>(), 0.0092, 0.002);
  // 35 N and 0.35 mm of noise; 1 mm is up to 180 N.
  EXPECT_LT(test["residual_rms_N"].get<double>(), 110.0);
}

TEST_F(WebbingCommand, WritesATableThatARigTakes) {
  const Ran ran = run(std::string(kExample) + "--name river2 --mass '61 g/m' --strength '32 kN' -o out");
  ASSERT_EQ(ran.exit_code, 0) << ran.err;
  for (const char* name : {"out/webbing.toml", "out/curve.csv", "out/webbing.json", "out/pull-test.svg", "out/pull-test.png"}) {
    EXPECT_FALSE(file(name).empty()) << name;
  }
  std::string rig = bytes_of(SPANLOOM_SOURCE_DIR "/examples/practice-line/rig.toml");
  rig.replace(rig.find("webbing = \"reed\""), std::string("webbing = \"reed\"").size(), "webbing = \"river2\"");
  put_file(folder_.path() / "rig.toml", rig + "\n" + file("out/webbing.toml"));
  const Ran plan = run("plan rig.toml --json");
  EXPECT_NE(plan.exit_code, 2) << plan.err;
  EXPECT_EQ(plan.out.find("generic"), std::string::npos);
}

TEST_F(WebbingCommand, MarksARigOfHandbookWebbingInEveryReport) {
  const Ran ran = run("webbing --fibre polyester --mass '58 g/m' --date 2026-05-01 -o out");
  ASSERT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_NE(ran.out.find("GENERIC"), std::string::npos);
  std::string rig = bytes_of(SPANLOOM_SOURCE_DIR "/examples/practice-line/rig.toml");
  rig.replace(rig.find("webbing = \"reed\""), std::string("webbing = \"reed\"").size(), "webbing = \"generic-polyester\"");
  put_file(folder_.path() / "rig.toml", rig + "\n" + file("out/webbing.toml"));
  const Ran plan = run("plan rig.toml --json");
  ASSERT_TRUE(plan.exit_code == 0 || plan.exit_code == 1) << plan.err;
  const Json document = Json::parse(plan.out);
  for (const Json& check : document["plan"]["checks"]) {
    if (check["name"] == "spacing") continue;
    EXPECT_NE(check["verdict"], "ok") << check["name"];
    EXPECT_NE(check["assumed"].dump().find("generic-polyester"), std::string::npos) << check["name"];
  }
  EXPECT_NE(run("plan rig.toml").out.find("webbing generic-polyester is generic handbook data"), std::string::npos);
  EXPECT_NE(run("read rig.toml").out.find("generic handbook data"), std::string::npos);
}

TEST_F(WebbingCommand, KeepsGenericInTheName) {
  EXPECT_NE(run("webbing --fibre nylon --mass '60 g/m' --name dusk").out.find("[webbing.generic-dusk]"), std::string::npos);
}

TEST_F(WebbingCommand, RefusesWrongOptionsAndWritesNothing) {
  const std::pair<const char*, const char*> cases[] = {
      {"webbing", "neither PULL.csv nor --fibre"},
      {"webbing pull.csv --fibre nylon", "both"},
      {"webbing pull.csv -o out", "give --gauge-length"},
      {"webbing pull.csv --gauge-length 1.5 -o out", "--gauge-length"},
      {"webbing pull.csv --gauge-length '1.5 m' --cycle 9 -o out", "--cycle: read 9"},
      {"webbing pull.csv --gauge-length '1.5 m' --cycle best -o out", "first, last"},
      {"webbing pull.csv --gauge-length '1.5 m' --name 'a b' -o out", "letters, digits"},
      {"webbing pull.csv --gauge-length '1.5 m' --mass '61 kg' --strength '0 kN' -o out", "--strength"},
      {"webbing pull.csv --gauge-length '15 mm' -o out", "gauge length"},
      {"webbing gone.csv", "gone.csv"},
      {"webbing --fibre steel --mass '60 g/m'", "{nylon,polyester,hmpe}"},
      {"webbing --fibre nylon", "--mass"},
      {"webbing --fibre nylon --mass '60 g/m' --strength '90 kN'", "at most the 50.40 kN"},
      {"webbing --fibre nylon --mass '60 g/m' --wet-keeps '120 %'", "at most 100 %"},
      {"webbing --fibre nylon --mass '60 g/m' --cycle 2", "leave them out"},
  };
  for (const auto& [arguments, words] : cases) {
    const Ran ran = run(arguments);
    EXPECT_EQ(ran.exit_code, 2) << arguments;
    EXPECT_NE(ran.err.find(words), std::string::npos) << arguments << '\n' << ran.err;
    EXPECT_TRUE(ran.out.empty()) << arguments;
  }
  EXPECT_EQ(folder_.listing().find("out"), std::string::npos) << folder_.listing();
}

TEST_F(WebbingCommand, SaysTheUnitsAskedFor) {
  const Ran ran = run(std::string(kExample) + "--units us");
  EXPECT_NE(ran.out.find("lbf"), std::string::npos);
}

}  // namespace
}  // namespace spanloom
