#include "sheet/text_report.h"

#include <gtest/gtest.h>

#include <sstream>

#include "plan_fixture.h"
#include "sheet/text_table.h"

namespace spanloom {
namespace {

std::string report(const fixture::Sample& sample, UnitSystem units = UnitSystem::metric) {
  return text_report(sample.rig, sample.plan, sample.checks, {"heron-gorge.toml", "0.1.0", "2026-05-01", units});
}

void expect_narrow(const std::string& text) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) EXPECT_LE(column_count(line), 80) << line;
}

WindState wind_of(const Plan& plan) {
  WindState wind;
  wind.speed = 8.0;
  wind.blow_out = 0.62;
  wind.worst = plan.walker[plan.worst_tension];
  wind.tension_max = wind.worst.tension_max;
  wind.hang_clearance = 3.2;
  return wind;
}

TEST(TextReport, IsNeverWiderThanEightyColumns) {
  const std::string long_word(300, 'w');
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
    for (const fixture::Shape& shape :
         {fixture::Shape{}, {.title = "Title " + long_word, .bays = 5}, {.title = "線の長い名前 線の長い名前 線の長い名前 線の長い名前 線の長い名前 線の長い名前"},
          {.gap = 3000.0, .bays = 120, .tension = 25e3, .joint = Joint::ring, .main_segments = 3}}) {
      fixture::Sample sample = fixture::sample(shape);
      sample.plan.wind = wind_of(sample.plan);
      sample.plan.walker_other_joint = sample.plan.walker;
      sample.plan.notes.push_back(long_word);
      sample.plan.forces.front().name = long_word;
      sample.checks.front().title = long_word;
      expect_narrow(report(sample, units));
    }
  }
}

TEST(TextReport, HasAllItsParts) {
  fixture::Sample sample = fixture::sample({.joint = Joint::ring});
  sample.plan.wind = wind_of(sample.plan);
  sample.plan.walker_other_joint = sample.plan.walker;
  const std::string text = report(sample);
  for (const char* part :
       {"\nNumbers\n", "\nLengths to cut, mark and pull\n", "\nBays, standing\n", "\nOne walker\n",
        "\nLoads on the anchors, kN\n", "\nGreatest tension in every piece\n", "\nRescue: two people at one place\n",
        "\nSteady side wind\n", "\nRings free and locked\n", "\nChecks\n", "\nNotes\n",
        "\nOur defaults, not stated in the rig file\n", "\nHow good the numbers are\n", "\nCautions\n"}) {
    EXPECT_NE(text.find(part), std::string::npos) << part;
  }
}

TEST(TextReport, LeavesOutPartsThatTheRigDoesNotHave) {
  const std::string text = report(fixture::sample());
  EXPECT_EQ(text.find("Steady side wind"), std::string::npos);
  EXPECT_EQ(text.find("Rings free"), std::string::npos);
}

TEST(TextReport, GivesEachCheckItsVerdictValueLimitAndMargin) {
  const std::string text = report(fixture::sample());
  EXPECT_NE(text.find("STOP    Clearance over the ground: 1.62 m, limit 2.00 m (margin -0.38 m)"), std::string::npos);
  EXPECT_NE(text.find("caution Near anchor: strength over greatest load: not known"), std::string::npos);
}

// Words of the report without its line breaks.
std::string in_one_line(const std::string& text) {
  std::istringstream words(text);
  std::string out;
  for (std::string word; words >> word;) out += word + " ";
  return out;
}

TEST(TextReport, NamesTheDefaultsAtTheCheckThatRestsOnThem) {
  const std::string text = in_one_line(report(fixture::sample()));
  EXPECT_NE(text.find("the wanted ratio is our default. Rests on our default: limits.ratio = 3. "), std::string::npos);
  EXPECT_EQ(text.find("foot in every bay. Rests on"), std::string::npos);
}

TEST(TextReport, SaysHowMuchIsCutForThePullThrough) {
  fixture::Sample sample = fixture::sample();
  sample.plan.pull_through->length = 4.38;
  EXPECT_NE(in_one_line(report(sample)).find("shorter than the 5.38 m it takes, 4.38 m to pull through"), std::string::npos);
}

TEST(TextReport, ShowsEveryAnchorLoadThatTheFrontPageMayShow) {
  fixture::Sample sample = fixture::sample({.joint = Joint::ring});
  sample.plan.extra = {sample.plan.walker[2]};
  sample.plan.walker_other_joint = {sample.plan.walker[4]};
  sample.plan.extra[0].near.main = {7777.0, 0.0, 0.0};
  sample.plan.walker_other_joint[0].near.main = {8888.0, 0.0, 0.0};
  const std::string text = report(sample);
  const std::size_t loads = text.find("Loads on the anchors");
  const std::string table = text.substr(loads, text.find("Greatest tension in every piece") - loads);
  for (const char* part : {"\nasked, at ", " 7.78 ", "\nrings locked, at ", " 8.89 "}) {
    EXPECT_NE(table.find(part), std::string::npos) << part << table;
  }
}

TEST(TextReport, CountsTheStatesThatItSaysItCounts) {
  fixture::Sample sample = fixture::sample();
  sample.plan.wind = wind_of(sample.plan);
  const std::size_t states = 2 + sample.plan.walker.size() + sample.plan.rescue.size();
  EXPECT_NE(in_one_line(report(sample)).find("The " + std::to_string(states) + " states of rest that this plan holds"),
            std::string::npos);
}

TEST(TextReport, ListsEveryBayAndTheWorstPlaces) {
  const fixture::Sample sample = fixture::sample();
  const std::string text = report(sample);
  const std::size_t bays = text.find("Bays, standing"), walker = text.find("One walker"),
                    loads = text.find("Loads on the anchors");
  std::istringstream lines(text.substr(bays, walker - bays));
  int rows = 0;
  for (std::string line; std::getline(lines, line);) rows += line[0] >= '1' && line[0] <= '9';
  EXPECT_EQ(rows, 18);
  const std::string table = text.substr(walker, loads - walker);
  for (const char* mark : {"  TS\n", "  G\n"}) EXPECT_NE(table.find(mark), std::string::npos) << mark;
}

TEST(TextReport, ShowsMainAndBackupOnTheAnchorsApartAndTogether) {
  fixture::Sample sample = fixture::sample();
  sample.plan.standing.near = {{3000.0, 0.0, 4000.0}, {600.0, 0.0, 800.0}};  // 5 kN and 1 kN, one direction
  const std::string text = report(sample);
  const std::size_t row = text.find("\nstanding");
  ASSERT_NE(row, std::string::npos);
  std::istringstream cells(text.substr(row + 9, 40));
  double main = 0.0, backup = 0.0, both = 0.0;
  cells >> main >> backup >> both;
  EXPECT_EQ(main, 5.0);
  EXPECT_EQ(backup, 1.0);
  EXPECT_EQ(both, 6.0);
}

}  // namespace
}  // namespace spanloom
