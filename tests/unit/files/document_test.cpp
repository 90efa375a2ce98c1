#include "files/document.h"

#include <gtest/gtest.h>

#include "files/limits.h"

namespace spanloom {
namespace {

std::string complaint(const std::string& text) {
  try {
    parse_document(text, "rig.toml");
  } catch (const FileError& error) {
    return error.what();
  }
  return "none";
}

TEST(Document, KnowsThePlacesOfKeysAndValues) {
  const Value document = parse_document("title = \"x\"\n[main]\n  tension = \"4.5 kN\"\n", "rig.toml");
  const Value* main = document.find("main");
  ASSERT_NE(main, nullptr);
  EXPECT_EQ(main->key_place, (Place{2, 2}));
  EXPECT_EQ(main->place, (Place{2, 1}));
  const Value* tension = main->find("tension");
  ASSERT_NE(tension, nullptr);
  EXPECT_EQ(tension->key_place, (Place{3, 3}));
  EXPECT_EQ(tension->place, (Place{3, 13}));
  EXPECT_EQ(tension->text, "4.5 kN");
}

TEST(Document, KeepsTheOrderOfTheFile) {
  const Value document = parse_document("b = 1\na = 2\n", "rig.toml");
  ASSERT_EQ(document.children.size(), 2u);
  EXPECT_EQ(document.children[0].key, "b");
  EXPECT_EQ(document.children[1].key, "a");
}

TEST(Document, KeepsNumbersAsWritten) {
  const Value document = parse_document("\"é\" = 1\nx = \"é\" # é\ny = 1_0.50\n", "rig.toml");
  EXPECT_EQ(document.find("y")->as_read(), "1_0.50");
  EXPECT_DOUBLE_EQ(document.find("y")->number, 10.5);
}

TEST(Document, CountsColumnsInCharacters) {
  EXPECT_EQ(parse_document("t = [\"äöü\", 5]\n", "rig.toml").find("t")->children[1].place, (Place{1, 13}));
}

TEST(Document, IgnoresByteOrderMarkAndCarriageReturns) {
  const Value document = parse_document("\xEF\xBB\xBF" "a = 1\r\nb = 2\r\n", "rig.toml");
  EXPECT_EQ(document.find("a")->place, (Place{1, 5}));
  EXPECT_EQ(document.find("b")->place, (Place{2, 5}));
}

TEST(Document, TellsWhereTheTomlIsBroken) {
  EXPECT_EQ(complaint("[main]\ntension = 4.5 kN\n"),
            "rig.toml:2:15: read \"tension = 4.5 kN\", expected valid TOML (parsing key-value pair: expected a comment "
            "or whitespace, saw 'k'; a value with a unit stands in quotes)");
  EXPECT_EQ(complaint("a = [1, 2\n").substr(0, 39), "rig.toml:2:1: read the end of the file,");
  EXPECT_EQ(complaint("[main\n").substr(0, 12), "rig.toml:1:6");
}

TEST(Document, RefusesAKeyTwice) {
  EXPECT_EQ(complaint("gap = \"1 m\"\ngap = \"2 m\"\n"),
            "rig.toml:2:7: gap: read \"gap = \"2 m\"\", expected each key once (keep one of the two)");
  EXPECT_NE(complaint("[main]\n[site]\n[main]\n").find("rig.toml:3:1: main: "), std::string::npos);
}

TEST(Document, RefusesWhatIsNotUtf8) {
  EXPECT_EQ(complaint("a = 1\nb = \"é\xFF\"\n"),
            "rig.toml:2:7: read a byte that is not UTF-8, expected a text file in UTF-8 (save it as UTF-8)");
  EXPECT_EQ(complaint("\xFF\xFE" "a\0=\0").substr(0, 12), "rig.toml:1:1");
}

TEST(Document, RefusesTreesTooDeepToWalk) {
  std::string dotted = "a";
  for (int i = 0; i < 200000; ++i) dotted += ".a";
  EXPECT_EQ(complaint("x = 1\n" + dotted + " = 1\n"),
            "rig.toml:2:16: read a key of many parts, expected keys of at most three parts");
  EXPECT_NE(complaint("[" + dotted + "]\n"), "none");
  EXPECT_NE(complaint("a = " + std::string(200000, '[')), "none");
  std::string inline_tables = "a = ";
  for (int i = 0; i < 100000; ++i) inline_tables += "{a=";
  EXPECT_NE(complaint(inline_tables), "none");
}

TEST(Document, TakesDotsInTextsAndCommentsAsTheyAre) {
  EXPECT_EQ(complaint("title = \"a.b.c.d.e.f.g.h.i.j.k\" # a.b.c.d.e.f.g.h.i.j\n"), "none");
  EXPECT_EQ(complaint("t = '''\n'a.b.c.d.e.f.g.h.i.j.k'\n'''\nx = [1.5, 2.5, 1.5, 2.5, 1.5, 2.5, 1.5, 2.5, 1.5]\n"), "none");
}

// toml++ 3.3 asserts on these, which in a release build lets the compiler assume they do not happen.
TEST(Document, RefusesABraceWhereAValueShouldBe) {
  EXPECT_EQ(complaint("\ne = [2, 1,}\n"),
            "rig.toml:2:11: read \"}\", expected a value (take the comma or the brace out)");
  EXPECT_EQ(complaint("e = [ # here\n }\n").substr(0, 12), "rig.toml:2:2");
}

TEST(Document, RefusesHugeFiles) {
  EXPECT_NE(complaint(std::string(kLargestFile + 1, ' ')).find("a rig file of at most 1 MB"), std::string::npos);
}

}  // namespace
}  // namespace spanloom
