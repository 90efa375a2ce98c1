#include "sheet/sheet.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "plan_fixture.h"
#include "svg_reading.h"

namespace spanloom {
namespace {

using fixture::ReadText;

std::vector<std::string> pages_of(const fixture::Shape& shape, UnitSystem units = UnitSystem::metric) {
  const auto [rig, plan, checks] = fixture::sample(shape);
  return draw_sheet(rig, plan, checks, {"heron-gorge.toml", "0.1.0", "2026-05-01", units});
}

const char* kLongTitle =
    "A very long title for a line that somebody named after a whole story and the weather of that day, and "
    "then some more words until it does not fit on two lines at all, whatever the size of its letters is";

std::vector<fixture::Shape> shapes() {
  return {{},
          {.title = kLongTitle, .bays = 42, .main_segments = 3},
          {.title = "<&\">", .gap = 16.0, .rise = 0.0, .bays = 5, .ground_depth = 2.6, .tension = 2500.0},
          {.gap = 95.0, .bays = 30, .ground_depth = 140.0, .joint = Joint::ring},
          {.ground_depth = 0.0},
          {.rise = 62.0, .ground_depth = 30.0},
          {.gap = 3000.0, .bays = 300, .ground_depth = 400.0, .tension = 2e4}};
}

class SheetOfAnyShape : public testing::TestWithParam<std::tuple<int, UnitSystem>> {
 protected:
  const std::vector<std::string> pages_ =
      pages_of(shapes()[static_cast<std::size_t>(std::get<0>(GetParam()))], std::get<1>(GetParam()));
};

INSTANTIATE_TEST_SUITE_P(Shapes, SheetOfAnyShape,
                         testing::Combine(testing::Range(0, 7),
                                          testing::Values(UnitSystem::metric, UnitSystem::us)));

TEST_P(SheetOfAnyShape, IsWellFormedXml) {
  for (const std::string& page : pages_) EXPECT_EQ(fixture::xml_fault(page), "");
}

TEST_P(SheetOfAnyShape, HasNoNumberThatIsNone) {
  for (const std::string& page : pages_) {
    for (const char* none : {"\"nan", "\"-nan", "\"inf", "\"-inf", ",nan", ",inf", ">nan", ">inf", ">-nan"}) {
      EXPECT_EQ(page.find(none), std::string::npos) << none;
    }
  }
}

TEST_P(SheetOfAnyShape, SetsNothingUnderNinePoints) {
  for (const std::string& page : pages_) {
    for (const ReadText& text : fixture::texts_of(page)) EXPECT_GE(text.size, 9.0) << text.words;
  }
}

TEST_P(SheetOfAnyShape, KeepsEveryTextOnThePaper) {
  for (const std::string& page : pages_) {
    for (const ReadText& text : fixture::texts_of(page)) {
      EXPECT_GE(text.left(), 20.0) << text.words;
      EXPECT_LE(text.right(), kPageWidth - 20.0) << text.words;
      EXPECT_LE(text.y, kPageHeight - 20.0) << text.words;
    }
  }
}

TEST_P(SheetOfAnyShape, LetsNoTextRunIntoAnother) {
  for (const std::string& page : pages_) {
    for (const std::string& pair : fixture::texts_that_run_into_another(page)) ADD_FAILURE() << pair;
  }
}

TEST_P(SheetOfAnyShape, NumbersItsPagesAndCautionsOnEachOfThem) {
  for (std::size_t i = 0; i < pages_.size(); ++i) {
    const auto feet = fixture::groups_of(pages_[i], "foot");
    ASSERT_EQ(feet.size(), 1u);
    const std::string count = "page " + std::to_string(i + 1) + " of " + std::to_string(pages_.size());
    EXPECT_NE(feet[0].find(">" + count + "<"), std::string::npos);
    EXPECT_NE(feet[0].find("2026-05-01"), std::string::npos);
    EXPECT_NE(feet[0].find("0.1.0"), std::string::npos);
    EXPECT_NE(feet[0].find("heron-gorge.toml"), std::string::npos);
    const std::vector<ReadText> texts = fixture::texts_of(feet[0]);
    EXPECT_EQ(texts.front().words.find(cautions().front()), 0u);
    EXPECT_EQ(texts[texts.size() - 3].words.back(), '.');  // whole sentences
  }
}

std::vector<std::vector<ReadText>> tape_lines(const std::vector<std::string>& pages) {
  std::vector<std::vector<ReadText>> lines;
  for (const std::string& page : pages) {
    for (const std::string& row : fixture::groups_of(page, "tape-row")) lines.push_back(fixture::texts_of(row));
  }
  return lines;
}

TEST_P(SheetOfAnyShape, ListsEveryTapeOnceInOrderAtFourteenPoints) {
  const auto lines = tape_lines(pages_);
  ASSERT_EQ(static_cast<int>(lines.size()), shapes()[static_cast<std::size_t>(std::get<0>(GetParam()))].bays);
  double last = 0.0;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    EXPECT_EQ(lines[i][0].words, i + 1 == lines.size() ? "far" : std::to_string(i + 1));
    for (const ReadText& text : lines[i]) EXPECT_EQ(text.size, 14.0);
    const std::size_t first_number = lines[i].size() - 6;  // behind number and mark, if there is one
    const double running = std::stod(lines[i][first_number].words);
    EXPECT_GT(running, last);
    last = running;
  }
}

TEST_P(SheetOfAnyShape, RepeatsTheHeadOfTheTapeListOnEveryPageOfIt) {
  for (const std::string& page : pages_) {
    const bool has_rows = !fixture::groups_of(page, "tape-row").empty();
    EXPECT_EQ(fixture::groups_of(page, "tape-head").size(), has_rows ? 1u : 0u);
  }
}

TEST(Sheet, SpreadsALongTapeListOverPages) {
  EXPECT_EQ(pages_of({}).size(), 4u);
  int pages_with_tapes = 0;
  for (const std::string& page : pages_of({.bays = 65})) {
    pages_with_tapes += !fixture::groups_of(page, "tape-row").empty();
  }
  EXPECT_EQ(pages_with_tapes, 3);
}

TEST(Sheet, PrintsTheNumbersOfTheTapeList) {
  const auto [rig, plan, checks] = fixture::sample();
  const auto lines = tape_lines(pages_of({}));
  const PlanBay& bay = plan.bays[2];
  const auto number = [&](std::size_t i) { return std::stod(lines[2][lines[2].size() - 6 + i].words); };
  EXPECT_NEAR(number(0), bay.tape_s, 0.00501);
  EXPECT_NEAR(number(1), bay.tape_s / 1.75, 0.00501);
  EXPECT_NEAR(number(2), bay.main_natural, 0.00501);
  EXPECT_NEAR(number(3), bay.backup_natural, 0.00501);
  EXPECT_NEAR(number(4), 1e3 * (bay.backup_natural - bay.main_natural), 0.501);
  EXPECT_NEAR(number(5), 1e3 * bay.drop, 0.501);
}

// 1 ft = 0.3048 m, 1 in = 25.4 mm: NIST SP 811 (2008), Appendix B.8. Tolerance: half the last digit.
TEST(Sheet, PrintsTheTapeListInFeetAndInchesOnDemand) {
  const auto [rig, plan, checks] = fixture::sample();
  const auto lines = tape_lines(pages_of({}, UnitSystem::us));
  const PlanBay& bay = plan.bays[2];
  const auto number = [&](std::size_t i) { return std::stod(lines[2][lines[2].size() - 6 + i].words); };
  EXPECT_NEAR(number(0), bay.tape_s / 0.3048, 0.00501);
  EXPECT_NEAR(number(5), 1e3 * bay.drop / 25.4, 0.0501);
}

TEST(Sheet, ShowsConnectorsOfTheMainInTheirPlaceOfTheTapeList) {
  const auto pages = pages_of({.main_segments = 3});
  const std::size_t joint = pages[1].find("main joint at");
  ASSERT_NE(joint, std::string::npos);
  EXPECT_GT(joint, pages[1].find("class=\"tape-row\""));
}

TEST(Sheet, PutsEveryTapeMarkIntoTheElevation) {
  const std::string page = pages_of({.bays = 300}).front();
  const std::string marks = fixture::groups_of(page, "tapes").front();
  std::size_t lines = 0;
  for (std::size_t at = marks.find("<line"); at != std::string::npos; at = marks.find("<line", at + 1)) ++lines;
  EXPECT_EQ(lines, 299u);
}

TEST(Sheet, SaysStopOnItsFrontPage) {
  const std::string front = pages_of({}).front();
  EXPECT_NE(front.find("STOP: do not walk this rig as planned"), std::string::npos);
  EXPECT_NE(front.find("Clearance over the ground"), std::string::npos);
}

TEST(Sheet, DoesNotSayStopWhenNoCheckDoes) {
  auto [rig, plan, checks] = fixture::sample();
  for (Check& check : checks) check.verdict = Verdict::ok;
  const auto pages = draw_sheet(rig, plan, checks, {"a.toml", "0.1.0", "2026-05-01"});
  EXPECT_EQ(pages.front().find("STOP"), std::string::npos);
}

TEST(Sheet, TellsVerdictsApartByWordAndByShape) {
  const std::string last = pages_of({}).back();
  EXPECT_EQ(fixture::groups_of(last, "mark-stop").size(), 1u);
  EXPECT_EQ(fixture::groups_of(last, "mark-caution").size(), 2u);
  EXPECT_EQ(fixture::groups_of(last, "mark-ok").size(), 1u);
  for (const char* word : {">STOP<", ">caution<", ">ok<"}) EXPECT_NE(last.find(word), std::string::npos);
}

TEST(Sheet, EscapesATitleOfMarkup) {
  const auto pages = pages_of({.title = "<&\"> ' ]]>"});
  for (const std::string& page : pages) EXPECT_EQ(fixture::xml_fault(page), "");
  EXPECT_EQ(fixture::texts_of(pages.front()).front().words, "<&\"> ' ]]>");
}

TEST(Sheet, NamesEveryDefaultThatAVerdictRestsOn) {
  const std::string last = pages_of({}).back();
  for (const char* input : {"limits.ratio = 3", "limits.reserve = 2 m", "limits.anchor_ratio = 2.5"}) {
    EXPECT_NE(last.find(input), std::string::npos) << input;
  }
}

std::string all_words(const std::vector<std::string>& pages) {
  std::string all;
  for (const std::string& page : pages) {
    for (const ReadText& text : fixture::texts_of(page)) all += text.words + " ";
  }
  return all;
}

TEST(Sheet, CarriesAllCautions) {
  const std::string all = all_words(pages_of({}));
  for (const std::string& words : cautions()) EXPECT_NE(all.find(words), std::string::npos) << words;
}

TEST(Sheet, NamesTheDefaultAtTheCheckThatRestsOnIt) {
  EXPECT_NE(all_words(pages_of({})).find("raise the line or move it. Rests on our default: limits.reserve = 2 m."),
            std::string::npos);
}

TEST(Sheet, SaysHowMuchIsCutForThePullThrough) {
  auto [rig, plan, checks] = fixture::sample();
  plan.pull_through->length = 4.38;
  const std::string all = all_words(draw_sheet(rig, plan, checks, {"a.toml", "0.1.0", "2026-05-01"}));
  EXPECT_NE(all.find("shorter than the 5.38 m it takes, 4.38 m to pull through"), std::string::npos);
}

TEST(Sheet, ShowsTheLabelsOfItsKeyNumbersWhole) {
  for (const ReadText& text : fixture::texts_of(pages_of({}).front())) {
    EXPECT_EQ(text.words.find("\u2026"), std::string::npos) << text.words;
  }
}

TEST(Sheet, UsesNoColour) {
  for (const std::string& page : pages_of({.joint = Joint::ring})) {
    for (const std::string& colour : fixture::colours_of(page)) ADD_FAILURE() << colour;
  }
}

TEST(Sheet, IsTheSameEveryTime) { EXPECT_EQ(pages_of({}), pages_of({})); }

}  // namespace
}  // namespace spanloom
