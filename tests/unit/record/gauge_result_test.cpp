// What `spanloom gauge --json` prints, and what it never prints.
#include <gtest/gtest.h>

#include "files/file_error.h"
#include "record/gauge_result.h"

namespace spanloom {
namespace {

std::string result(const std::string& tension = "2481.5",
                   const std::string& by = R"([{"method": "pulse", "tension_N": 2480, "sd_N": 15}])",
                   const std::string& name = "spanloom-gauge") {
  return R"({"format": {"name": ")" + name + R"(", "number": 1}, "tension_N": )" + tension +
         R"(, "tension_sd_N": 12.5, "by": )" + by + "}";
}

TEST(GaugeResult, GivesTheTensionByAllAndByEachMethod) {
  const Measured measured = read_gauge_result(result(), "gauge.json");
  EXPECT_EQ(measured.tension, 2481.5);
  EXPECT_EQ(measured.tension_sd, 12.5);
  ASSERT_EQ(measured.by.size(), 1u);
  EXPECT_EQ(measured.by[0].method, "pulse");
  EXPECT_EQ(measured.by[0].sd, 15.0);
  EXPECT_EQ(measured.json, result());
}

TEST(GaugeResult, NamesTheKeyThatIsWrong) {
  for (const auto& [text, key] : {std::pair{std::string("spam"), "file"},
                                  {std::string("[]"), "format"},
                                  {result("\"5 kN\""), "tension_N"},
                                  {result("0"), "tension_N"},
                                  {result("-3"), "tension_N"},
                                  {result("1e30"), "tension_N"},
                                  {result("{}"), "tension_N"},
                                  {result("5", "{}"), "by"},
                                  {result("5", "[4]"), "by[0].method"},
                                  {result("5", "[{\"method\": 4}]"), "by[0].method"},
                                  {result("5", "[]", "spanloom-plan"), "format.name"}}) {
    try {
      read_gauge_result(text, "gauge.json");
      ADD_FAILURE() << text;
    } catch (const FileError& error) {
      EXPECT_EQ(error.problems()[0].problem.key, key) << text;
    }
  }
}

}  // namespace
}  // namespace spanloom
