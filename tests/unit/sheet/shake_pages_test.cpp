#include "sheet/shake_pages.h"

#include <gtest/gtest.h>

#include "plan_fixture.h"
#include "sheet/sheet.h"
#include "support/shake_sample.h"
#include "svg_reading.h"

namespace spanloom {
namespace {

using fixture::groups_of;
using fixture::quick_sample;
using fixture::ReadText;
using fixture::shake_sample;

std::vector<std::string> pages_with(const ShakeReport* report) {
  const auto [rig, plan, checks] = fixture::sample();
  return draw_sheet(rig, plan, checks, {"heron-gorge.toml", "0.1.0", "2026-05-01"}, report);
}

std::string figure_of(const ShakeReport& report) {
  std::string all;
  for (const std::string& page : pages_with(&report)) {
    for (const std::string& figure : groups_of(page, "shake-figure")) all += figure;
  }
  return all;
}

int count_of(const std::string& text, const std::string& piece) {
  int count = 0;
  for (std::size_t at = text.find(piece); at != std::string::npos; at = text.find(piece, at + 1)) ++count;
  return count;
}

TEST(ShakePages, AddOneFigureToTheSheetAndNoneWithoutAShake) {
  const ShakeReport report = shake_sample();
  int with = 0, without = 0;
  for (const std::string& page : pages_with(&report)) with += static_cast<int>(groups_of(page, "shake-figure").size());
  for (const std::string& page : pages_with(nullptr)) without += static_cast<int>(groups_of(page, "shake-figure").size());
  EXPECT_EQ(with, 1);
  EXPECT_EQ(without, 0);
}

TEST(ShakePages, AreWellFormedLegibleAndGrey) {
  const ShakeReport report = shake_sample();
  for (const std::string& page : pages_with(&report)) {
    EXPECT_EQ(fixture::xml_fault(page), "");
    for (const std::string& pair : fixture::texts_that_run_into_another(page)) ADD_FAILURE() << pair;
    for (const std::string& colour : fixture::colours_of(page)) ADD_FAILURE() << colour;
    for (const ReadText& text : fixture::texts_of(page)) {
      EXPECT_GE(text.size, 9.0) << text.words;
      EXPECT_GE(text.left(), 20.0) << text.words;
      EXPECT_LE(text.right(), kPageWidth - 20.0) << text.words;
    }
  }
}

TEST(ShakePages, StayLegibleWhereMoreComesBackThanWasSent) {
  for (const double returned : {0.02, 0.55, 1.15, 1.21, 2.6, 7.0}) {
    ShakeReport report = shake_sample();
    for (ReportedShake& shake : report.shakes) shake.result.returned = returned;
    for (const std::string& page : pages_with(&report)) {
      for (const std::string& pair : fixture::texts_that_run_into_another(page)) ADD_FAILURE() << returned << ": " << pair;
    }
  }
}

// A mark for each frequency and one in the legend, of another shape for each line.
TEST(ShakePages, MarkEveryReturnAndTellLinesApartByShapeAndDashes) {
  const std::string figure = figure_of(shake_sample());
  EXPECT_EQ(count_of(figure, "<circle"), 11);
  EXPECT_EQ(count_of(figure, "<rect"), 11);
  EXPECT_EQ(count_of(figure, "<polygon"), 11);
  EXPECT_EQ(count_of(figure, "<polyline"), 3);
  for (const char* words : {"this rig", "evenly taped", "no loops", "return [%]", "3.15"}) {
    EXPECT_NE(figure.find(words), std::string::npos) << words;
  }
}

TEST(ShakePages, DrawAHigherReturnHigherUp) {
  ShakeReport report = shake_sample({ComparedLine::rig}, {ShakeDirection::sideways});
  for (ReportedShake& shake : report.shakes) shake.result.returned = shake.result.shake.frequency < 1.0 ? 0.5 : 0.1;
  const std::string figure = figure_of(report);
  std::vector<double> heights;
  for (std::size_t at = figure.find("cy=\""); at != std::string::npos; at = figure.find("cy=\"", at + 1)) {
    heights.push_back(std::stod(figure.substr(at + 4)));
  }
  ASSERT_EQ(heights.size(), 11u);  // the legend's first
  for (int i = 1; i <= 3; ++i) {
    for (int k = 4; k <= 10; ++k) EXPECT_LT(heights[i] + 20.0, heights[k]);
  }
}

TEST(ShakePages, LeaveAGapWhereAShakeGaveNoNumber) {
  ShakeReport report = shake_sample({ComparedLine::rig}, {ShakeDirection::sideways});
  std::erase_if(report.shakes, [](const ReportedShake& shake) { return shake.result.shake.frequency == 1.0; });
  const std::string figure = figure_of(report);
  EXPECT_EQ(count_of(figure, "<circle"), 10);
  EXPECT_EQ(count_of(figure, "<polyline"), 2);
}

std::string words_on(const std::vector<std::string>& pages) {
  std::string all;
  for (const std::string& page : pages) {
    for (const ReadText& text : fixture::texts_of(page)) all += text.words + ' ';
  }
  return all;
}

TEST(ShakePages, CarryEverySentenceSwingAndNoteOnceTheOneAboutTheFigureFirst) {
  const ShakeReport report = shake_sample();
  const std::string all = words_on(pages_with(&report));
  for (const auto* list : {&report.sentences, &report.swing_sentences, &report.notes}) {
    for (const std::string& words : *list) EXPECT_EQ(count_of(all, words), 1) << words;
  }
  EXPECT_LT(all.find("Shaken sideways, over all"), all.find(report.sentences.front()));
  EXPECT_LT(all.find(report.sentences.front()), all.find("Worst case"));
  EXPECT_NE(all.find("clear any loop that lies over the main before anyone walks"), std::string::npos);
}

TEST(ShakePages, RunOnToFurtherPagesWithManyNotes) {
  ShakeReport report = shake_sample();
  for (int i = 0; i < 90; ++i) report.notes.push_back("Note number " + std::to_string(i) + ".");
  const std::vector<std::string> pages = pages_with(&report);
  EXPECT_GT(pages.size(), pages_with(nullptr).size() + 1);
  for (const std::string& words : report.notes) EXPECT_EQ(count_of(words_on(pages), words), 1) << words;
  for (const std::string& page : pages) {
    for (const std::string& pair : fixture::texts_that_run_into_another(page)) ADD_FAILURE() << pair;
    for (const ReadText& text : fixture::texts_of(page)) EXPECT_LE(text.y, kPageHeight - 20.0) << text.words;
  }
}

TEST(ShakePages, SayOfAQuickLookWhatItIsAndClaimNoWorstInTheHeadline) {
  const ShakeReport report = quick_sample();
  const std::vector<std::string> pages = pages_with(&report);
  const std::string all = words_on(pages);
  EXPECT_NE(all.find("QUICK LOOK: this rig alone, shaken sideways only."), std::string::npos);
  EXPECT_NE(all.find("Gust and bounce: not computed in a quick look."), std::string::npos);
  EXPECT_LT(all.find("Shaken sideways, over all frequencies and places 41 % comes back."), all.find("Most of these"));
  EXPECT_EQ(figure_of(report).find("evenly taped"), std::string::npos);
  for (const std::string& page : pages) {
    for (const std::string& pair : fixture::texts_that_run_into_another(page)) ADD_FAILURE() << pair;
  }
}

}  // namespace
}  // namespace spanloom
