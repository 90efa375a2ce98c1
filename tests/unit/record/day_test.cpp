// Days of the calendar against SQLite's date functions, which know nothing of ours.
#include <gtest/gtest.h>

#include "record/database.h"
#include "record/day.h"

namespace spanloom {
namespace {

class Calendar : public testing::Test {
 protected:
  Calendar() : file_(testing::TempDir() + "spanloom-calendar.sqlite"), database_(file_, Access::write) {}
  ~Calendar() override { std::filesystem::remove(file_); }
  std::string file_;
  Database database_;
};

TEST_F(Calendar, KnowsExactlyTheDaysThatSqliteKnows) {
  Statement all(database_,
                "WITH RECURSIVE y(y) AS (SELECT 1999 UNION ALL SELECT y + 1 FROM y WHERE y < 2101),"
                " m(m) AS (SELECT 0 UNION ALL SELECT m + 1 FROM m WHERE m < 13),"
                " d(d) AS (SELECT 0 UNION ALL SELECT d + 1 FROM d WHERE d < 32)"
                " SELECT t, date(t, '+0 days') IS t FROM (SELECT printf('%04d-%02d-%02d', y, m, d) AS t FROM y, m, d)");
  int days = 0;
  while (all.next()) {
    const std::string text = all.text();
    const bool exists = all.whole() == 1;
    const auto day = parse_day(text);
    ASSERT_EQ(day.has_value(), exists) << text;
    if (!day) continue;
    ASSERT_EQ(day_text(*day), text);
    ++days;
  }
  EXPECT_EQ(days, 103 * 365 + 25);  // leap years 2000, 2004 ... 2096; 2100 is none
}

TEST_F(Calendar, CountsDaysAsSqliteDoes) {
  for (const auto& [from, to] :
       {std::pair{"2024-02-28", "2024-03-01"}, {"2026-05-01", "2026-05-01"}, {"1999-12-31", "2026-11-27"}}) {
    Statement days(database_, "SELECT CAST(julianday(?2) - julianday(?1) + 1 AS INTEGER)");
    days << from << to;
    ASSERT_TRUE(days.next());
    EXPECT_EQ(days_from_to(*parse_day(from), *parse_day(to)), days.whole()) << from;
  }
}

TEST(Day, IsWrittenInOneWayOnly) {
  for (const char* text : {"2026-5-1", "2026-05-01 ", "01.05.2026", "2026/05/01", "+026-05-01", "", "2026-05-1a",
                           "1899-12-31", "2026-02-30"}) {
    EXPECT_FALSE(parse_day(text)) << text;
  }
}

TEST(Day, OfAMonthThatIsTooShortIsItsLast) {
  EXPECT_EQ(day_text(months_after(*parse_day("2024-02-29"), 12)), "2025-02-28");
  EXPECT_EQ(day_text(months_after(*parse_day("2026-01-31"), 1)), "2026-02-28");
  EXPECT_EQ(day_text(months_after(*parse_day("2023-05-01"), 36)), "2026-05-01");
}

}  // namespace
}  // namespace spanloom
