// What is said about a rig file that is wrong: place, key, what was read, what was expected, cure.
#include <gtest/gtest.h>

#include <string>

#include "files/limits.h"
#include "files/rig_toml.h"
#include "rig_texts.h"

namespace spanloom {
namespace {

using test::complaints;
using test::problems_of;
using test::small_rig;
using test::with;

TEST(RigErrors, ThereAreNoneInARightFile) { EXPECT_EQ(complaints(small_rig()), ""); }

TEST(RigErrors, NumberWithoutUnit) {
  EXPECT_EQ(complaints(with(small_rig(), "\"3 kN\"", "\"4.5\"")),
            "rig.toml:11:11: main.tension: read \"4.5\", expected a force with its unit, such as \"4.5 kN\" (add the "
            "unit)\n");
  EXPECT_EQ(complaints(with(small_rig(), "\"3 kN\"", "4.5")),
            "rig.toml:11:11: main.tension: read 4.5, expected a force with its unit, such as \"4.5 kN\" (a value with a "
            "unit stands in quotes)\n");
}

TEST(RigErrors, UnitOfAnotherQuantity) {
  EXPECT_EQ(complaints(with(small_rig(), "\"70 kg\"", "\"70 kN\"")),
            "rig.toml:18:8: walker.mass: read \"70 kN\", expected a mass in kg, g, lb or oz (\"kN\" is a unit of force)\n");
}

TEST(RigErrors, UnknownKeyWithTheNearest) {
  EXPECT_EQ(complaints(small_rig() + "leesh = \"1.4 m\"\n"),
            "rig.toml:19:1: walker.leesh: read \"leesh\", expected a known key (did you mean \"leash\"?)\n");
  EXPECT_EQ(complaints(small_rig() + "[limit]\n"),
            "rig.toml:19:2: limit: read \"limit\", expected a known key (did you mean \"limits\"?)\n");
}

TEST(RigErrors, UnknownKeyWithoutANearOneListsThem) {
  EXPECT_EQ(complaints(small_rig() + "[wind]\nspeed = \"3 m/s\"\nbeaufort = 3\n"),
            "rig.toml:21:1: wind.beaufort: read \"beaufort\", expected a known key (the keys here are speed, gust, gust_time)\n");
}

TEST(RigErrors, GustsShakesAndLossesBeyondTheirLimits) {
  EXPECT_EQ(complaints(small_rig() + "[wind]\nspeed = \"8 m/s\"\ngust = \"7 m/s\"\n[shake]\nswing = \"2 m\"\n"),
            "rig.toml:21:8: wind.gust: read \"7 m/s\", expected at least the steady 8 m/s (a gust is the greatest speed, "
            "steady wind included)\n"
            "rig.toml:23:9: shake.swing: read \"2 m\", expected less than a tenth of the gap, 2 m\n");
  EXPECT_EQ(complaints(small_rig() + "[wind]\nspeed = \"8 m/s\"\ngust = \"9 m/s\"\ngust_time = \"6\"\n"),
            "rig.toml:22:13: wind.gust_time: read \"6\", expected a time with its unit, such as \"6 s\" (add the unit)\n");
  const std::string lossy = complaints(with(small_rig(), "mass = \"60 g/m\"", "mass = \"60 g/m\"\nloss = \"60 %\""));
  EXPECT_EQ(lossy.rfind("rig.toml:7:8: webbing.reed.loss: read \"60 %\", expected at least 0 % and at most 50 %", 0), 0u)
      << lossy;
}

TEST(RigErrors, OfTheLeash) {
  EXPECT_EQ(complaints(small_rig() + "leash_webbing = \"red\"\n"),
            "rig.toml:19:17: walker.leash_webbing: read \"red\", expected the name of a [webbing.NAME] table (did you mean "
            "\"reed\"?)\n");
  EXPECT_EQ(complaints(small_rig() + "leash_ring = \"mian\"\nbody = \"two\"\n"),
            "rig.toml:19:14: walker.leash_ring: read \"mian\", expected \"both\" or \"main\" (did you mean \"main\"?)\n"
            "rig.toml:20:8: walker.body: read \"two\", expected \"one mass\" or \"two masses\"\n");
  EXPECT_EQ(complaints(small_rig() + "leash_keeps = \"0 %\"\nleash_ring_mass = \"0 g\"\nleash_ring_friction = 1.5\n"),
            "rig.toml:19:15: walker.leash_keeps: read \"0 %\", expected more than 0 % and at most 100 %\n"
            "rig.toml:20:19: walker.leash_ring_mass: read \"0 g\", expected a mass from 10 g to 5 kg\n"
            "rig.toml:21:23: walker.leash_ring_friction: read 1.5, expected at least 0 and at most 1\n");
  EXPECT_EQ(complaints(small_rig() + "leash_ring_friction = \"15 %\"\n"),
            "rig.toml:19:23: walker.leash_ring_friction: read \"15 %\", expected a plain number, such as 0.15\n");
}

std::string with_point(const std::string& point, const std::string& anchor = "far") {
  return small_rig() + "[anchor." + anchor + "]\npoints = [" + point + "]\n";
}

TEST(RigErrors, OfThePointsOfAnAnchor) {
  EXPECT_EQ(complaints(with_point("{ at = [\"1 m\", \"0 m\"] }")),
            "rig.toml:20:11: anchor.far.points[0].name: read nothing, expected what it is, such as \"left bolt\" (add the "
            "key)\n"
            "rig.toml:20:18: anchor.far.points[0].at: read a list, expected three lengths: along the gap, left, up (such as "
            "[\"0 m\", \"0.3 m\", \"-0.2 m\"])\n");
  EXPECT_EQ(complaints(with_point("{ name = \"tree\" }")),
            "rig.toml:20:11: anchor.far.points[0].at: read nothing, expected \"at\" or \"length\" (say where the point "
            "is)\n");
  EXPECT_EQ(complaints(with_point("{ name = \"tree\", length = \"2 m\" }")),
            "rig.toml:20:11: anchor.far.points[0].angle: read nothing, expected an angle with its unit, such as \"20 deg\" "
            "(add the key)\n");
  EXPECT_EQ(complaints(with_point("{ name = \"tree\", length = \"-2 m\", angle = \"0 deg\" }")),
            "rig.toml:20:37: anchor.far.points[0].length: read \"-2 m\", expected more than 0 m (the length of the leg)\n");
  EXPECT_EQ(complaints(with_point("{ name = \"tree\", at = [\"2 m\", \"0 m\", \"0 m\"], angle = \"5 deg\" }")),
            "rig.toml:20:64: anchor.far.points[0].angle: read \"5 deg\", expected no angle beside \"at\" (take it out)\n");
}

TEST(RigErrors, PointsThatCannotPullBackAreSaidAtTheirPlace) {
  const std::string ahead = complaints(with_point("{ name = \"tree\", at = [\"-2 m\", \"0 m\", \"0 m\"] }"));
  EXPECT_EQ(ahead.substr(0, ahead.find(" (")),
            "rig.toml:20:10: anchor.far.points: read no point behind the anchor, expected at least one leg that "
            "pulls back against the line\n"
            "rig.toml:20:11: anchor.far.points[0]: read 2 m towards the gap, expected a point behind the anchor");
  EXPECT_EQ(complaints(with_point("{ name = \"a\", length = \"2 m\", angle = \"0 deg\" }, "
                                  "{ name = \"b\", length = \"2 m\", angle = \"100 deg\" }", "near")).substr(0, 45),
            "rig.toml:20:60: anchor.near.points[1]: read 0");
  EXPECT_EQ(complaints(with_point("{ name = \"a\", length = \"2 m\", angle = \"90 deg\" }", "near")),
            "rig.toml:20:10: anchor.near.points: read no point behind the anchor, expected at least one leg that "
            "pulls back against the line\n");
  EXPECT_EQ(complaints(small_rig() + "[anchor.near]\nwall = \"20 m\"\n"),
            "rig.toml:20:8: anchor.near.wall: read \"20 m\", expected less than the gap\n");
}

TEST(RigErrors, MissingKey) {
  EXPECT_EQ(complaints(with(small_rig(), "gap = \"20 m\"\n", "")),
            "rig.toml:2:1: site.gap: read nothing, expected a length with its unit, such as \"62 m\" (add the key)\n");
}

TEST(RigErrors, MissingTable) {
  EXPECT_EQ(complaints(with(small_rig(), "[walker]\nmass = \"70 kg\"\n", "")),
            "rig.toml:1:1: walker: read nothing, expected the table [walker] (add the key)\n");
}

TEST(RigErrors, EmptyFileNamesAllThatIsMissing) {
  const auto problems = problems_of("");
  ASSERT_EQ(problems.size(), 7u);
  EXPECT_EQ(problems[0].problem.key, "title");
  EXPECT_EQ(problems[6].problem.key, "walker");
}

TEST(RigErrors, DuplicateKey) {
  EXPECT_EQ(complaints(with(small_rig(), "rise = \"1 m\"", "gap = \"21 m\"")),
            "rig.toml:4:7: gap: read \"gap = \"21 m\"\", expected each key once (keep one of the two)\n");
}

TEST(RigErrors, WrongType) {
  EXPECT_EQ(complaints(with(small_rig(), "\"Test gap\"", "3")),
            "rig.toml:1:9: title: read 3, expected a text in quotes\n");
  EXPECT_EQ(complaints(with(small_rig(), "\"20 m\"", "[\"20 m\"]")),
            "rig.toml:3:7: site.gap: read a list, expected a length with its unit, such as \"62 m\"\n");
  EXPECT_EQ(complaints(with(small_rig(), "\"20 m\"", "true")),
            "rig.toml:3:7: site.gap: read true, expected a length with its unit, such as \"62 m\"\n");
  EXPECT_EQ(complaints(with(small_rig(), "tension", "near_end = \"knot\"\ntension")),
            "rig.toml:11:12: main.near_end: read \"knot\", expected a table, { key = value, ... } or "
            "[main.near_end]\n");
  EXPECT_EQ(complaints(with(small_rig(), "even = \"2 m\"", "repeat = [1, \"2\"]")),
            "rig.toml:16:14: spacing.repeat[1]: read \"2\", expected a plain number of arm spans, such as 1.5 (take the "
            "quotes away)\n");
  EXPECT_EQ(complaints(with(small_rig(), "even = \"2 m\"", "at = \"2 m\"")),
            "rig.toml:16:6: spacing.at: read \"2 m\", expected a list of lengths (put it into [ ])\n");
}

TEST(RigErrors, ValueOutOfRangeIsShownAsWritten) {
  EXPECT_EQ(complaints(with(small_rig(), "\"20 m\"", "\"-200 cm\"")).substr(0, 63),
            "rig.toml:3:7: site.gap: read \"-200 cm\", expected more than 0 m\n");
  EXPECT_EQ(complaints(small_rig() + "[limits]\nratio = 0.5\n").substr(0, 49),
            "rig.toml:20:9: limits.ratio: read 0.5, expected a");
  EXPECT_EQ(complaints(with(small_rig(), "strength", "wet_keeps = \"120 %\"\nstrength")),
            "rig.toml:7:13: webbing.reed.wet_keeps: read \"120 %\", expected more than 0 % and at most 100 %\n");
}

TEST(RigErrors, NumbersThatAreNotFinite) {
  for (const char* number : {"inf", "nan", "-inf"}) {
    EXPECT_EQ(complaints(small_rig() + "[limits]\nratio = " + number + "\n"),
              "rig.toml:20:9: limits.ratio: read " + std::string(number) + ", expected a plain ratio, such as 3\n");
  }
}

TEST(RigErrors, CurveThatDoesNotRise) {
  const std::string text = complaints(with(small_rig(), "[\"10 kN\", \"7 %\"]", "[\"10 kN\", \"1 %\"]"));
  EXPECT_EQ(text.substr(0, 48), "rig.toml:8:29: webbing.reed.stretch[1]: read 100");
  EXPECT_NE(text.find("more tension and more stretch than the point before"), std::string::npos);
}

TEST(RigErrors, CurveThatDoesNotRiseCountsAWrittenOrigin) {
  const std::string rows = "[\"0 kN\", \"0 %\"], [\"2 kN\", \"2 %\"], [\"1 kN\", \"7 %\"]";
  EXPECT_EQ(complaints(with(small_rig(), "[\"2 kN\", \"2 %\"], [\"10 kN\", \"7 %\"]", rows)).substr(0, 40),
            "rig.toml:8:46: webbing.reed.stretch[2]: ");
}

TEST(RigErrors, CurveRowsOfAnotherShape) {
  EXPECT_EQ(complaints(with(small_rig(), "[\"10 kN\", \"7 %\"]", "[\"10 kN\"]")),
            "rig.toml:8:29: webbing.reed.stretch[1]: read a list, expected a row of two values in [ ]: a force with its "
            "unit, such as \"4.5 kN\", and a share with its unit, such as \"8 %\"\n");
  EXPECT_EQ(complaints(with(small_rig(), "\"7 %\"", "\"7 kN\"")),
            "rig.toml:8:39: webbing.reed.stretch[1][1]: read \"7 kN\", expected a share in % (\"kN\" is a unit of force)\n");
}

TEST(RigErrors, TapesOutOfOrder) {
  EXPECT_EQ(complaints(with(small_rig(), "even = \"2 m\"", "at = [\"2 m\", \"1.5 m\", \"4 m\"]")).substr(0, 58),
            "rig.toml:16:14: spacing.at[1]: read \"1.5 m\", expected tape");
}

TEST(RigErrors, UnknownWebbingWithTheNearest) {
  EXPECT_EQ(complaints(with(small_rig(), "webbing = \"reed\"\nslack", "webbing = \"red\"\nslack")),
            "rig.toml:13:11: backup.webbing: read \"red\", expected the name of a [webbing.NAME] table (did you mean "
            "\"reed\"?)\n");
  EXPECT_EQ(complaints(with(small_rig(), "webbing = \"reed\"\nslack", "webbing = \"hemp\"\nslack")),
            "rig.toml:13:11: backup.webbing: read \"hemp\", expected the name of a [webbing.NAME] table (add the table "
            "[webbing.hemp])\n");
}

TEST(RigErrors, KeysThatExcludeEachOther) {
  EXPECT_EQ(complaints(with(small_rig(), "slack", "drop = \"10 cm\"\nslack")),
            "rig.toml:14:8: backup.drop: read \"10 cm\", expected \"slack\" or \"drop\", not both (take one of the two "
            "out)\n");
  EXPECT_EQ(complaints(with(small_rig(), "tension", "natural_length = \"19 m\"\ntension")),
            "rig.toml:11:18: main.natural_length: read \"19 m\", expected \"tension\" or \"natural_length\", not both "
            "(take one of the two out)\n");
}

TEST(RigErrors, NeitherTensionNorLength) {
  EXPECT_EQ(complaints(with(small_rig(), "tension = \"3 kN\"\n", "")),
            "rig.toml:9:1: main.tension: read nothing, expected \"tension\" or \"natural_length\" (say how tight the "
            "main stands)\n");
}

TEST(RigErrors, SegmentLengths) {
  const std::string two = "segments = [{ webbing = \"reed\" }, { webbing = \"reed\", length = \"5 m\" }]\n"
                          "connectors = [{ name = \"link\", mass = \"50 g\", length = \"10 cm\" }]\n";
  const std::string text = with(small_rig(), "webbing = \"reed\"\ntension", two + "tension");
  const auto problems = problems_of(text);
  ASSERT_EQ(problems.size(), 2u);
  EXPECT_EQ(problems[0].problem.key, "main.segments[0].length");
  EXPECT_EQ(problems[0].place, (Place{10, 13}));
  EXPECT_EQ(problems[1].problem.key, "main.segments[1].length");
  EXPECT_EQ(problems[1].problem.read, "\"5 m\"");
  EXPECT_EQ(problems[1].place, (Place{10, 64}));
}

TEST(RigErrors, ConnectorsMissing) {
  const std::string two = "segments = [{ webbing = \"reed\", length = \"5 m\" }, { webbing = \"reed\" }]\n";
  EXPECT_EQ(complaints(with(small_rig(), "webbing = \"reed\"\ntension", two + "tension")).substr(0, 36),
            "rig.toml:9:1: main.connectors: read ");
}

TEST(RigErrors, LengthOfASingleWebbingIsSaidAtItsOwnKey) {
  EXPECT_EQ(complaints(with(small_rig(), "tension = \"3 kN\"", "natural_length = \"-1 m\"")),
            "rig.toml:11:18: main.natural_length: read \"-1 m\", expected more than 0 m\n");
}

TEST(RigErrors, Offsets) {
  EXPECT_EQ(complaints(with(small_rig(), "slack", "near_offset = [\"0 m\", \"1 m\"]\nslack")),
            "rig.toml:14:15: backup.near_offset: read a list, expected three lengths: along the gap, left, up (such as "
            "[\"0 m\", \"0.3 m\", \"-0.2 m\"])\n");
}

TEST(RigErrors, SideFileThatIsNotThere) {
  EXPECT_EQ(complaints(with(small_rig(), "rise = \"1 m\"", "ground = \"g.csv\"")),
            "rig.toml:4:10: site.ground: read \"g.csv\", expected a CSV file beside the rig file (there is no such "
            "file)\n");
}

TEST(RigErrors, CellsOfASideFileAreSaidAtTheirOwnPlace) {
  const std::string text = with(small_rig(), "rise = \"1 m\"", "ground = \"g.csv\"\nrise = 7");
  EXPECT_EQ(complaints(text, [](const std::string&) { return SideFile{"distance [m],height [m]\n0,x\n", ""}; }),
            "rig.toml:5:8: site.rise: read 7, expected a length with its unit, such as \"7 m\" (a value with a unit "
            "stands in quotes)\n"
            "g.csv:2:3: site.ground: read \"x\", expected a plain number for \"height\" (the unit stands in the header "
            "only)\n");
}

TEST(RigErrors, RowsOfASideFileThatDoNotFitAreSaidThere) {
  const std::string ground = with(small_rig(), "rise = \"1 m\"", "ground = \"g.csv\"");
  const auto back = problems_of(ground, [](const std::string&) {
    return SideFile{"# two comments\n# above\ndistance [m],height [m]\n0,-1\n30,-1\n29,-1\n", ""};
  });
  ASSERT_EQ(back.size(), 1u);
  EXPECT_EQ(back[0].file, "g.csv");
  EXPECT_EQ(back[0].place, (Place{6, 1}));

  const std::string curve = with(small_rig(), "stretch = [[\"2 kN\", \"2 %\"], [\"10 kN\", \"7 %\"]]", "stretch_csv = \"c.csv\"");
  const auto falls = problems_of(
      curve, [](const std::string&) { return SideFile{"tension [kN],stretch [%]\n2,2\n1,3\n", ""}; });
  ASSERT_EQ(falls.size(), 1u);
  EXPECT_EQ(falls[0].file, "c.csv");
  EXPECT_EQ(falls[0].place, (Place{3, 1}));
}

TEST(RigErrors, AreToldAllAtOnceInTheOrderOfTheFile) {
  std::string text = with(small_rig(), "\"20 m\"", "20");
  text = with(text, "\"60 g/m\"", "\"-60 g/m\"");
  text = with(text, "\"3 kN\"", "\"3 kM\"");
  text = with(text, "\"2 m\"", "\"-2 m\"");
  text += "leesh = \"1 m\"\n";
  const auto problems = problems_of(text);
  ASSERT_EQ(problems.size(), 5u);
  EXPECT_EQ(problems[0].problem.key, "site.gap");
  EXPECT_EQ(problems[1].problem.key, "webbing.reed.mass");
  EXPECT_EQ(problems[2].problem.key, "main.tension");
  EXPECT_EQ(problems[3].problem.key, "spacing.even");
  EXPECT_EQ(problems[4].problem.key, "walker.leesh");
}

TEST(RigErrors, AreNotToldTwiceOrFollowedByOthers) {
  // An unreadable gap leaves 0 m in the rig; what that does to rise and edge is nobody's fault.
  const std::string text = with(small_rig(), "\"20 m\"", "\"20\"") + "[anchor.near]\nedge = \"2 m\"\n";
  const auto problems = problems_of(text);
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].problem.key, "site.gap");
}

TEST(RigErrors, HugeLists) {
  std::string list = "[";
  for (std::size_t i = 0; i <= kMostEntries; ++i) list += "1,";
  EXPECT_EQ(complaints(with(small_rig(), "even = \"2 m\"", "repeat = " + list + "]")),
            "rig.toml:16:10: spacing.repeat: read a list of 20001 entries, expected 1 to 20000 entries\n");
  EXPECT_EQ(complaints(with(small_rig(), "even = \"2 m\"", "repeat = []")),
            "rig.toml:16:10: spacing.repeat: read a list of 0 entries, expected 1 to 20000 entries\n");
}

TEST(RigErrors, HugeNumbersOfTables) {
  std::string webbings, segments;
  for (std::size_t i = 0; i <= kMostTables; ++i) {
    webbings += "[webbing.w" + std::to_string(i) + "]\n";
    segments += "{ webbing = \"reed\" },";
  }
  EXPECT_EQ(problems_of(webbings + small_rig().substr(small_rig().find("[main]")))[2].problem.read,
            "101 webbings");
  EXPECT_EQ(complaints(with(small_rig(), "webbing = \"reed\"\ntension", "segments = [" + segments + "]\ntension")),
            "rig.toml:10:12: main.segments: read a list of 101 entries, expected 1 to 100 entries\n");
}

TEST(RigErrors, HugeFilesAreReadInASplitSecond) {
  std::string text = small_rig() + "x = \"é\"\ny = [\"é\"";
  while (text.size() < kLargestFile - 100) text += ",1";
  EXPECT_EQ(problems_of(text + "]\n").size(), 2u);
}

TEST(RigErrors, ThoseOfTheEngineAreFoundInTheFileLater) {
  const RigFile file = read_rig(with(small_rig(), "even = \"2 m\"", "at = [\"2 m\", \"30 m\"]"), "rig.toml",
                                test::no_side_files);
  const FileError error = file.locate(InputError("spacing.at[1]", "30.00 m", "a place on the main", "shorten it"));
  EXPECT_STREQ(error.what(),
               "rig.toml:16:14: spacing.at[1]: read \"30 m\", expected a place on the main (shorten it)");
  const FileError whole = file.locate(InputError("", "a rig", "another rig"));
  EXPECT_STREQ(whole.what(), "rig.toml:1:1: read a rig, expected another rig");
}

TEST(RigErrors, WebbingNamesWithDotsAreFound) {
  std::string text = small_rig();
  text = with(text, "[webbing.reed]\nmass = \"60 g/m\"", "[webbing.\"reed.2\"]\nmass = \"-60 g/m\"");
  for (int i = 0; i < 2; ++i) text = with(text, "webbing = \"reed\"", "webbing = \"reed.2\"");
  EXPECT_EQ(complaints(text).substr(0, 60), "rig.toml:6:8: webbing.reed.2.mass: read \"-60 g/m\", expected ");
}

}  // namespace
}  // namespace spanloom
