#include "sheet/hauling_text.h"

#include <gtest/gtest.h>

#include <sstream>

#include "sheet/text_table.h"
#include "support/hauling_sample.h"

namespace spanloom {
namespace {

using fixture::full_hauling_options;
using fixture::hauled;

std::string text_of(const Rig& rig, HaulingOptions options, UnitSystem units = UnitSystem::metric) {
  options.units = units;
  return hauling_text(rig, hauled(rig, options), options, {}, {"short.toml", "0.1.0", "2026-05-01", units});
}

// With line breaks and indents taken out, so that sentences are found whole.
bool says(const std::string& text, const std::string& words) {
  std::istringstream in(text);
  std::string all;
  for (std::string word; in >> word;) all += word + ' ';
  return all.find(words) != std::string::npos;
}

TEST(HaulingText, NeverRunsWiderThanEightyColumns) {
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
    for (const HaulingOptions& options : {HaulingOptions{}, full_hauling_options()}) {
      std::istringstream lines(text_of(short_rig(), options, units));
      for (std::string line; std::getline(lines, line);) EXPECT_LE(column_count(line), kTextColumns) << line;
    }
  }
}

TEST(HaulingText, GoesUpThenDown) {
  const std::string text = text_of(short_rig(), full_hauling_options());
  std::size_t last = 0;
  for (const char* heading : {"short", "Pulling up, the backup hung", "With a pulley set",
                              "Left alone, the webbing creeps", "Letting down", "Cautions"}) {
    const std::size_t at = text.find(heading);
    ASSERT_NE(at, std::string::npos) << heading;
    EXPECT_GE(at, last) << heading;
    last = at;
  }
}

TEST(HaulingText, NamesWhatIsAssumedAndNothingElse) {
  const std::string assumed = text_of(short_rig(), {});
  for (const char* option : {"--parts", "--efficiency", "--person-force"}) EXPECT_TRUE(says(assumed, option)) << option;
  EXPECT_TRUE(says(assumed, "common practice, no source"));
  EXPECT_FALSE(says(assumed, "--bend-friction"));
  EXPECT_FALSE(says(assumed, "[main] hand_tight"));  // stated in this rig
  EXPECT_FALSE(says(text_of(short_rig(), full_hauling_options()), "Assumed"));
  HaulingOptions options = full_hauling_options();
  options.bend->friction = {0.15, true};
  EXPECT_TRUE(says(text_of(short_rig(), options), "--bend-friction"));
}

TEST(HaulingText, HasAColumnOfHandForceForOneSetAlone) {
  const std::string one = text_of(short_rig(), full_hauling_options());
  EXPECT_TRUE(says(one, "ground m hand N"));
  EXPECT_FALSE(says(text_of(short_rig(), {}), "ground m hand N"));
}

TEST(HaulingText, LeavesOutTheGroundThatIsNotKnown) {
  Rig rig = short_rig();
  rig.site.ground.clear();
  const std::string text = text_of(rig, {});
  EXPECT_FALSE(says(text, "ground m"));
  EXPECT_FALSE(says(text, "above the ground"));
}

TEST(HaulingText, SpeaksOfOneHaulAndOfMany) {
  HaulingOptions options;
  options.reach = 100.0;
  EXPECT_TRUE(says(text_of(short_rig(), options), "1 haul, so the set is reset 0 times"));
  options.reach = 0.1;
  EXPECT_TRUE(says(text_of(short_rig(), options), "hauls, so the set is reset"));
}

TEST(PartsWords, NameSetsOneBehindTheOther) {
  EXPECT_EQ(parts_words({.parts = {1}}), "1 part");
  EXPECT_EQ(parts_words({.parts = {5}}), "5 parts");
  EXPECT_EQ(parts_words({.parts = {3, 3}}), "3 x 3 parts");
}

}  // namespace
}  // namespace spanloom
