#include "files/webbing_toml.h"

#include <gtest/gtest.h>

#include "files/csv.h"
#include "rig_texts.h"
#include "webbing/fibres.h"
#include "webbing/pull_test.h"
#include "support/pull_sample.h"

namespace spanloom {
namespace {

KnownWebbing pulled() {
  KnownWebbing webbing;
  webbing.name = "river";
  webbing.mass_per_length = 0.061;
  webbing.strength = 32e3;
  webbing.width = 0.025;
  webbing.loss = 0.0812;
  webbing.curve = analyse_pull_test(fixture::three_pulls()).curve;
  return webbing;
}

/// The small rig with a table behind it.
Webbing read_in_rig(const std::string& table) {
  const RigFile file = read_rig(test::small_rig() + "\n" + table, "rig.toml", [](const std::string&) { return SideFile{}; });
  return file.rig.webbings.back();
}

TEST(WebbingTable, ReadsBackAsTheSameWebbing) {
  const KnownWebbing webbing = pulled();
  const Webbing read = read_in_rig(webbing_table(webbing, {"a comment", ""}));
  EXPECT_EQ(read.name, "river");
  EXPECT_DOUBLE_EQ(read.mass_per_length, 0.061);
  EXPECT_DOUBLE_EQ(read.strength, 32e3);
  EXPECT_DOUBLE_EQ(*read.loss, 0.0812);
  EXPECT_FALSE(read.width.assumed);
  EXPECT_TRUE(read.thickness.assumed);
  EXPECT_FALSE(read.generic);
  const double last = webbing.curve.points().back().stretch;
  for (int i = 0; i <= 50; ++i) {
    const double e = last * i / 50.0;
    EXPECT_NEAR(read.curve.tension(e), webbing.curve.tension(e), 1e-6) << e;
  }
}

TEST(WebbingTable, LeavesWhatNobodySaidToBeFilledIn) {
  KnownWebbing webbing = pulled();
  webbing.mass_per_length.reset();
  webbing.strength.reset();
  const std::string table = webbing_table(webbing, {});
  EXPECT_NE(table.find("\n# mass = \"... g/m\"   # fill in: weigh a known length\n"), std::string::npos);
  EXPECT_NE(table.find("\n# strength = \"... kN\""), std::string::npos);
  try {
    read_in_rig(table);
    FAIL() << "a rig without a mass of its webbing";
  } catch (const FileError& error) {
    EXPECT_EQ(error.problems().size(), 2u) << error.what();
  }
}

TEST(WebbingTable, MarksHandbookValues) {
  const YarnWebbing yarn = yarn_webbing(fibre_named("hmpe"), 0.03);
  KnownWebbing webbing;
  webbing.name = "generic-hmpe";
  webbing.mass_per_length = 0.03;
  webbing.strength = yarn.strength;
  webbing.curve = yarn.curve;
  webbing.generic = true;
  EXPECT_TRUE(read_in_rig(webbing_table(webbing, {})).generic);
}

TEST(WebbingTable, RefusesANameThatIsNone) {
  KnownWebbing webbing = pulled();
  for (const char* name : {"", "my river", "a.b", "x]\n[site"}) {
    webbing.name = name;
    EXPECT_THROW(webbing_table(webbing, {}), InputError) << name;
  }
}

TEST(CurveCsvFile, ReadsBackPointByPoint) {
  const StretchCurve curve = pulled().curve;
  Findings findings;
  const auto rows = read_curve_csv(curve_csv(curve, {"made up"}), "curve.csv", "webbing.river", findings);
  EXPECT_TRUE(findings.empty());
  ASSERT_EQ(rows.rows.size(), curve.points().size());
  for (std::size_t i = 0; i < rows.rows.size(); ++i) {
    EXPECT_DOUBLE_EQ(rows.rows[i].tension, curve.points()[i].tension);
    EXPECT_DOUBLE_EQ(rows.rows[i].stretch, curve.points()[i].stretch);
  }
}

TEST(GenericKey, IsTrueOrFalse) {
  const std::string table = webbing_table(pulled(), {});
  EXPECT_TRUE(read_in_rig(table + "generic = true\n").generic);
  EXPECT_FALSE(read_in_rig(table + "generic = false\n").generic);
  for (const char* wrong : {"generic = \"true\"\n", "generic = 1\n", "generic = [true]\n"}) {
    try {
      read_in_rig(table + wrong);
      ADD_FAILURE() << wrong;
    } catch (const FileError& error) {
      EXPECT_NE(std::string(error.what()).find("webbing.river.generic: read"), std::string::npos) << error.what();
      EXPECT_NE(std::string(error.what()).find("expected true or false"), std::string::npos) << error.what();
    }
  }
}

}  // namespace
}  // namespace spanloom
