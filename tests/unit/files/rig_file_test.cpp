#include "files/rig_file.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

namespace spanloom {
namespace {

namespace fs = std::filesystem;

const fs::path kExamples = fs::path(SPANLOOM_SOURCE_DIR) / "examples";

TEST(Examples, HeronGorgeStatesEverything) {
  const Rig rig = read_rig_file(kExamples / "heron-gorge" / "rig.toml").rig;
  EXPECT_DOUBLE_EQ(rig.site.gap, 62.0);
  EXPECT_GT(rig.site.ground.size(), 10u);
  ASSERT_EQ(rig.webbings.size(), 3u);
  for (const Webbing& webbing : rig.webbings) EXPECT_FALSE(webbing.wet_keeps.assumed) << webbing.name;
  EXPECT_TRUE(rig.near_anchor.strength && rig.far_anchor.strength);
  EXPECT_FALSE(rig.limits.ratio.assumed || rig.limits.backup_tension.assumed);
  EXPECT_FALSE(rig.limits.body_force.assumed || rig.limits.wall_reserve.assumed);
  EXPECT_EQ(rig.webbings.at(rig.walker.leash_webbing.value()).name, "reedmace");
  EXPECT_FALSE(rig.walker.leash_ring.assumed || rig.walker.body.assumed);
  EXPECT_TRUE(rig.backup.tape_strength && rig.near_anchor.wall && rig.far_anchor.wall);
  EXPECT_EQ(rig.near_anchor.points.size(), 2u);
  EXPECT_EQ(rig.near_anchor.legs.value, LegKind::fixed);
  EXPECT_EQ(rig.far_anchor.points.size(), 2u);
  EXPECT_EQ(rig.far_anchor.legs.value, LegKind::equalising);
}

TEST(Examples, PracticeLineIsEvenlyTaped) {
  const Rig rig = read_rig_file(kExamples / "practice-line" / "rig.toml").rig;
  EXPECT_DOUBLE_EQ(rig.site.gap, 16.0);
  EXPECT_TRUE(std::holds_alternative<EvenBays>(rig.spacing.pattern));
  EXPECT_EQ(rig.webbings.at(rig.walker.leash_webbing.value()).name, "sedge");
  EXPECT_EQ(rig.backup.tape_strength, std::nullopt);
  EXPECT_TRUE(rig.near_anchor.points.empty() && rig.far_anchor.points.empty());
}

TEST(Examples, TheOneInTheDocumentationIsRead) {
  std::ifstream stream(fs::path(SPANLOOM_SOURCE_DIR) / "docs" / "rig-file.md");
  const std::string page{std::istreambuf_iterator<char>(stream), {}};
  const std::size_t start = page.find("```toml\n");
  ASSERT_NE(start, page.npos);
  const std::string text = page.substr(start + 8, page.find("```", start + 8) - start - 8);
  EXPECT_EQ(read_rig(text, "rig-file.md", [](const std::string&) { return SideFile{}; }).rig.title, "Test gap");
}

TEST(RigFile, SaysThatThereIsNone) {
  try {
    read_rig_file("no/such/rig.toml");
    FAIL() << "there is no such file";
  } catch (const FileError& error) {
    EXPECT_STREQ(error.what(),
                 "no/such/rig.toml:1:1: read nothing, expected a rig file (there is no file no/such/rig.toml)");
  }
}

TEST(RigFile, IsNoFolder) { EXPECT_THROW(read_rig_file(kExamples), FileError); }

TEST(RigFile, LooksForSideFilesBesideIt) {
  const fs::path folder = fs::temp_directory_path() / "spanloom_rig_file_test";
  fs::create_directories(folder);
  std::ofstream(folder / "rig.toml") << "[site]\nground = \"nowhere.csv\"\n";
  try {
    read_rig_file(folder / "rig.toml");
    FAIL() << "the side file is missing";
  } catch (const FileError& error) {
    EXPECT_NE(std::string(error.what()).find("there is no file " + (folder / "nowhere.csv").string()),
              std::string::npos);
  }
  fs::remove_all(folder);
}

}  // namespace
}  // namespace spanloom
