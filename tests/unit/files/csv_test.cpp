#include "files/csv.h"

#include <gtest/gtest.h>

#include "files/limits.h"

namespace spanloom {
namespace {

CsvRows<CurvePoint> curve(std::string_view text) {
  Findings findings;
  auto table = read_curve_csv(text, "c.csv", "webbing.reed.stretch_csv", findings);
  for (const FileProblem& p : findings.in_reading_order()) ADD_FAILURE() << to_text(p);
  return table;
}

std::string complaints(std::string_view text) {
  Findings findings;
  read_ground_csv(text, "g.csv", "site.ground", findings);
  std::string all;
  for (const FileProblem& p : findings.in_reading_order()) all += to_text(p) + '\n';
  return all;
}

TEST(CurveCsv, ReadsColumnsInTheUnitsOfTheHeader) {
  const auto table = curve("tension [kN],stretch [%]\n2,2.1\n5,4.0\n");
  ASSERT_EQ(table.rows.size(), 2u);
  EXPECT_DOUBLE_EQ(table.rows[0].tension, 2000.0);
  EXPECT_DOUBLE_EQ(table.rows[0].stretch, 0.021);
  EXPECT_DOUBLE_EQ(table.rows[1].tension, 5000.0);
}

TEST(CurveCsv, ReadsColumnsInAnyOrder) {
  const auto table = curve("stretch [%] , tension [lbf]\n 2.1 , 100 \n");
  ASSERT_EQ(table.rows.size(), 1u);
  EXPECT_NEAR(table.rows[0].tension, 444.8222, 0.5e-4);  // NIST SP 811: 1 lbf = 4.448222 N
  EXPECT_DOUBLE_EQ(table.rows[0].stretch, 0.021);
}

TEST(CurveCsv, SkipsCommentsAndEmptyLinesAndKeepsLineNumbers) {
  const auto table = curve("# made up\n\ntension [kN],stretch [%]\n  # between\n2,2.1\n\n5,4\n");
  ASSERT_EQ(table.places.size(), 2u);
  EXPECT_EQ(table.places[0], (Place{5, 1}));
  EXPECT_EQ(table.places[1], (Place{7, 1}));
}

TEST(CurveCsv, ReadsFilesOfOtherSystems) {
  const auto table = curve("\xEF\xBB\xBFtension [kN],stretch [%]\r\n2,2.1\r\n5,4");
  ASSERT_EQ(table.rows.size(), 2u);
  EXPECT_DOUBLE_EQ(table.rows[1].stretch, 0.04);
}

TEST(GroundCsv, TellsEveryBadCellWithItsPlace) {
  EXPECT_EQ(complaints("distance [m],height [m]\n0,-1\n1 m, x\n2,\n"),
            "g.csv:3:1: site.ground: read \"1 m\", expected a plain number for \"distance\" (the unit stands in the "
            "header only)\n"
            "g.csv:3:6: site.ground: read \"x\", expected a plain number for \"height\" (the unit stands in the "
            "header only)\n"
            "g.csv:4:3: site.ground: read \"\", expected a plain number for \"height\" (the unit stands in the "
            "header only)\n");
}

TEST(GroundCsv, CountsColumnsInCharacters) {
  EXPECT_EQ(complaints("distance [m],height [m]\né,é\n").substr(0, 11), "g.csv:2:1: ");
  EXPECT_NE(complaints("distance [m],height [m]\né,é\n").find("g.csv:2:3: "), std::string::npos);
}

TEST(GroundCsv, RefusesRowsOfAnotherLength) {
  EXPECT_EQ(complaints("distance [m],height [m]\n0,5,-1\n7\n"),
            "g.csv:2:1: site.ground: read 3 cells, expected 2 cells, as in the header (write decimals with a point)\n"
            "g.csv:3:1: site.ground: read 1 cells, expected 2 cells, as in the header\n");
}

TEST(GroundCsv, RefusesNumbersThatAreNotFinite) {
  for (const char* cell : {"nan", "inf", "-inf", "1e999", "0x10"}) {
    EXPECT_NE(complaints("distance [m],height [m]\n0," + std::string(cell) + "\n"), "") << cell;
  }
  EXPECT_NE(complaints("distance [km],height [m]\n1e308,0\n"), "");
}

TEST(GroundCsv, AsksForAHeader) {
  const std::string header = "expected the header \"distance [m],height [m]\"";
  EXPECT_EQ(complaints(""), "g.csv:1:1: site.ground: read no header, " + header + " (name the columns in the first line)\n");
  EXPECT_EQ(complaints("0,-1\n"), "g.csv:1:1: site.ground: read \"0\", " + header + "\n" +
                                      "g.csv:1:3: site.ground: read \"-1\", " + header + "\n");
  EXPECT_EQ(complaints("distance [m]\n"), "g.csv:1:1: site.ground: read no column \"height\", " + header + "\n");
}

TEST(GroundCsv, SuggestsTheColumnThatWasMeant) {
  EXPECT_EQ(complaints("distanse [m],height [m]\n"),
            "g.csv:1:1: site.ground: read \"distanse [m]\", expected the header \"distance [m],height [m]\" (did you "
            "mean \"distance\"?)\n");
}

TEST(GroundCsv, RefusesColumnsWithoutOrWithWrongUnit) {
  const std::string expected = "expected \"distance\" with its unit in brackets: m, cm, mm, km, ft or in";
  EXPECT_NE(complaints("distance,height [m]\n").find(expected), std::string::npos);
  EXPECT_NE(complaints("distance [kg],height [m]\n").find(expected), std::string::npos);
}

TEST(GroundCsv, RefusesAColumnTwice) {
  EXPECT_EQ(complaints("distance [m],distance [m]\n"),
            "g.csv:1:14: site.ground: read \"distance [m]\", expected each column once (take one of the two out)\n");
}

TEST(GroundCsv, RefusesOtherSeparators) {
  EXPECT_NE(complaints("distance [m];height [m]\n0,0;-1,3\n").find("separate the columns with commas"),
            std::string::npos);
}

TEST(GroundCsv, TakesNoMoreRowsThanALineCanNeed) {
  std::string text = "distance [m],height [m]\n";
  for (std::size_t i = 0; i <= kMostEntries; ++i) text += std::to_string(i) + ",0\n";
  EXPECT_EQ(complaints(text), "g.csv:20002:1: site.ground: read one row more, expected at most 20000 rows (thin the "
                              "table out)\n");
  EXPECT_NE(complaints(std::string(kLargestFile + 1, '#')).find("at most 1 MB"), std::string::npos);
}

}  // namespace
}  // namespace spanloom
