#include "sheet/catch_pages.h"

#include <gtest/gtest.h>

#include "checks/check_catch.h"
#include "plan_fixture.h"
#include "sheet/catch_numbers.h"
#include "sheet/sheet.h"
#include "support/catch_sample.h"
#include "svg_reading.h"

namespace spanloom {
namespace {

using fixture::catch_sample;
using fixture::groups_of;
using fixture::ReadText;

std::vector<std::string> pages_with(const CatchReport* report, UnitSystem units = UnitSystem::metric) {
  const auto [rig, plan, checks] = fixture::sample({.gap = 50.0});
  CatchVerdicts verdicts{checks, {}};
  if (report != nullptr) verdicts.falls = judge_catch(rig, *report, units);
  return draw_sheet(rig, plan, verdicts.all(), {"rig.toml", "0.1.0", "2026-05-01", units}, nullptr, report);
}

std::string words_on(const std::vector<std::string>& pages) {
  std::string all;
  for (const std::string& page : pages) {
    for (const ReadText& text : fixture::texts_of(page)) all += text.words + ' ';
  }
  return all;
}

std::size_t groups_on(const std::vector<std::string>& pages, const std::string& name) {
  std::size_t count = 0;
  for (const std::string& page : pages) count += groups_of(page, name).size();
  return count;
}

TEST(CatchPages, AddOnePictureAndTheClearHeightToTheSheetAndNoneWithoutACatch) {
  const CatchReport report = catch_sample();
  for (const char* group : {"fall", "clear-height-needed"}) {
    EXPECT_EQ(groups_on(pages_with(&report), group), 1u) << group;
    EXPECT_EQ(groups_on(pages_with(nullptr), group), 0u) << group;
  }
}

TEST(CatchPages, AreWellFormedLegibleAndGrey) {
  const CatchReport report = catch_sample();
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
    for (const std::string& page : pages_with(&report, units)) {
      EXPECT_EQ(fixture::xml_fault(page), "");
      for (const std::string& pair : fixture::texts_that_run_into_another(page)) ADD_FAILURE() << pair;
      for (const std::string& colour : fixture::colours_of(page)) ADD_FAILURE() << colour;
      for (const ReadText& text : fixture::texts_of(page)) {
        EXPECT_GE(text.size, 9.0) << text.words;
        EXPECT_GE(text.left(), 20.0) << text.words;
        EXPECT_LE(text.right(), kPageWidth - 20.0) << text.words;
        EXPECT_LE(text.y, kPageHeight - 20.0) << text.words;
      }
    }
  }
}

TEST(CatchPages, CarryTheNumbersOfBothKindsOfFall) {
  const CatchReport report = catch_sample();
  const std::string all = words_on(pages_with(&report));
  EXPECT_NE(all.find("Clear height needed"), std::string::npos);
  EXPECT_NE(all.find("10.40 m"), std::string::npos);
  for (const FallNumber& number : fall_numbers(fixture::catch_rig(), report, UnitSystem::metric)) {
    EXPECT_NE(all.find(number.failure), std::string::npos) << number.label;
    EXPECT_NE(all.find(number.leash), std::string::npos) << number.label;
  }
  for (const std::string& words : report.notes) EXPECT_NE(all.find(words), std::string::npos) << words;
}

TEST(CatchPages, SayNoLongerThatFallsAreInAnotherReport) {
  const CatchReport report = catch_sample();
  EXPECT_NE(words_on(pages_with(nullptr)).find("not in this report"), std::string::npos);
  const std::string all = words_on(pages_with(&report));
  EXPECT_EQ(all.find("not in this report"), std::string::npos);
  EXPECT_NE(all.find("Not computed: flutter and twist of the webbing, the body hitting the line"), std::string::npos);
}

TEST(CatchPages, WarnInBoldOfGroundAndOfALostWalker) {
  CatchReport report = catch_sample();
  report.main_failure[1].clearance = -0.4;
  report.main_failure[0].lost = true;
  std::string bold;
  for (const std::string& page : pages_with(&report)) {
    for (const ReadText& text : fixture::texts_of(page)) bold += text.bold ? text.words + ' ' : "";
  }
  EXPECT_NE(bold.find("THE WALKER HITS THE GROUND"), std::string::npos);
  EXPECT_NE(bold.find("NOTHING HOLDS THE WALKER"), std::string::npos);
}

TEST(CatchPages, WarnInBoldOfWhatBreaks) {
  CatchReport report = catch_sample();
  for (FallResult& fall : report.main_failure) fall.body = 1e6;
  std::string bold;
  for (const std::string& page : pages_with(&report)) {
    for (const ReadText& text : fixture::texts_of(page)) bold += text.bold ? text.words + ' ' : "";
  }
  EXPECT_NE(bold.find("THE LEASH BREAKS"), std::string::npos);
  EXPECT_NE(words_on(pages_with(&report)).find("only if nothing breaks: below the standing main"), std::string::npos);
}

TEST(CatchPages, GiveNoClearHeightWhereAnyWalkerIsLost) {
  CatchReport report = catch_sample();
  report.search.lost = 3;
  const std::string all = words_on(pages_with(&report));
  EXPECT_EQ(all.find("10.40 m"), std::string::npos);
  EXPECT_NE(all.find("none is enough"), std::string::npos);
}

// The greatest of the sample: 6.1 kN towards the gap and 0.7 kN down at the far anchor, in a leash fall.
TEST(CatchPages, TellClearHeightAndAnchorLoadOnPageOneAndCountFallsAndPlan) {
  const CatchReport report = catch_sample();
  const std::string first = words_on({pages_with(&report).front()});
  EXPECT_NE(first.find("Falls: clear height needed 10.40 m; an anchor carries up to 6.14 kN (leash fall)."), std::string::npos)
      << first;
  EXPECT_NE(first.find("(falls and plan: "), std::string::npos);
  EXPECT_EQ(words_on({pages_with(nullptr).front()}).find("falls and plan"), std::string::npos);
  CatchReport bad = catch_sample();
  bad.search.lost = 1;
  for (FallResult& fall : bad.main_failure) fall.body = 1e6;
  EXPECT_NE(words_on({pages_with(&bad).front()}).find("Falls: SOMETHING BREAKS; clear height needed not known, NOTHING HOLDS THE "
                                                      "WALKER"), std::string::npos);
}

TEST(CatchPages, HoldWithoutAPictureAndWithoutNumbers) {
  CatchReport report = catch_sample();
  report.main_failure[0].frames.clear();
  EXPECT_EQ(groups_on(pages_with(&report), "fall"), 1u);  // of the leash fall
  report.leash_fall.clear();
  report.main_failure.clear();
  report.clear_height_needed = 0.0;
  const std::vector<std::string> pages = pages_with(&report);
  EXPECT_EQ(groups_on(pages, "fall"), 0u);
  EXPECT_EQ(groups_on(pages, "clear-height-needed"), 1u);
  EXPECT_NE(words_on(pages).find("not known"), std::string::npos);
}

TEST(CatchPages, NameAQuickLook) {
  CatchReport report = catch_sample();
  report.quick = true;
  EXPECT_NE(words_on(pages_with(&report)).find("QUICK LOOK"), std::string::npos);
}

}  // namespace
}  // namespace spanloom
