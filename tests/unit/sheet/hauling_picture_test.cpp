#include "sheet/hauling_picture.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/hauling_sample.h"
#include "svg_reading.h"

namespace spanloom {
namespace {

using fixture::groups_of;
using fixture::hauled;
using fixture::ReadText;

bool has_text(const std::string& svg, const std::string& words) {
  const auto texts = fixture::texts_of(svg);
  return std::any_of(texts.begin(), texts.end(),
                     [&](const ReadText& t) { return t.words.find(words) != std::string::npos; });
}

std::size_t circles_in(const std::string& svg) {
  std::size_t count = 0;
  for (std::size_t at = svg.find("<circle"); at != std::string::npos; at = svg.find("<circle", at + 1)) ++count;
  return count;
}

TEST(HaulingPicture, IsSoundAndGreyAndKeepsItsWordsApart) {
  for (const Rig& rig : {short_rig(), plain_rig()}) {
    for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
      const std::string svg = hauling_picture(rig, hauled(rig, {.units = units}), units);
      EXPECT_EQ(fixture::xml_fault(svg), "");
      EXPECT_TRUE(fixture::colours_of(svg).empty());
      EXPECT_EQ(fixture::texts_that_run_into_another(svg), std::vector<std::string>{});
      for (const ReadText& text : fixture::texts_of(svg)) {
        EXPECT_GE(text.left(), 0.0) << text.words;
        EXPECT_LE(text.right(), kHaulingPictureWidth) << text.words;
      }
    }
  }
}

TEST(HaulingPicture, HasADotForEachStepInBothPanels) {
  const HaulingReport report = hauled(short_rig());
  const std::string svg = hauling_picture(short_rig(), report, UnitSystem::metric);
  for (const char* panel : {"tension-panel", "sag-panel"}) {
    const auto groups = groups_of(svg, panel);
    ASSERT_EQ(groups.size(), 1u) << panel;
    EXPECT_EQ(circles_in(groups[0]), report.steps.size()) << panel;
  }
  EXPECT_TRUE(has_text(svg, "hand-tight 0.50 kN"));
  EXPECT_TRUE(has_text(svg, "standing 2.50 kN"));
}

TEST(HaulingPicture, IsInTheUnitsAskedFor) {
  const std::string svg = hauling_picture(short_rig(), hauled(short_rig()), UnitSystem::us);
  EXPECT_TRUE(has_text(svg, "[lbf]"));
  EXPECT_TRUE(has_text(svg, "[ft]"));
  EXPECT_FALSE(has_text(svg, "[kN]"));
}

}  // namespace
}  // namespace spanloom
