#include "sheet/words.h"

#include <gtest/gtest.h>

#include "sheet/text_table.h"
#include "sheet/text_width.h"

namespace spanloom {
namespace {

TEST(Words, ReadAndWriteUtf8Unchanged) {
  const std::string text = "Höhe 12 m, Ελ, 線, \U0001F9D7";
  EXPECT_EQ(utf8(code_points(text)), text);
  EXPECT_EQ(code_points("é").size(), 1u);
}

// RFC 3629, sections 3 and 4: overlong forms, surrogates, lone and missing continuation bytes.
TEST(Words, ReplaceWhatIsNotUtf8) {
  const std::string replacement = "\uFFFD";
  EXPECT_EQ(utf8(code_points("a\xff" "b")), "a" + replacement + "b");
  EXPECT_EQ(utf8(code_points("a\xc3")), "a" + replacement);
  EXPECT_EQ(utf8(code_points("\xe2\x82" "b")), replacement + "b");
  EXPECT_EQ(utf8(code_points("\xc0\xaf")).substr(0, 3), replacement);
  EXPECT_EQ(utf8(code_points("\xed\xa0\x80")), replacement);
}

TEST(Words, ReplaceControlCharacters) {
  EXPECT_EQ(utf8(code_points(std::string("a\0b\x1b", 4))), "a\uFFFD" "b\uFFFD");
  EXPECT_EQ(utf8(code_points("a\nb\tc")), "a b c");
}

TEST(Words, BreakAtSpacesAndCutOnlyWhatFitsOnNoLine) {
  const auto fits = [](std::string_view line) { return line.size() <= 10; };
  EXPECT_EQ(wrap_words("one two three four", fits),
            (std::vector<std::string>{"one two", "three four"}));
  EXPECT_EQ(wrap_words("abcdefghijklmno p", fits), (std::vector<std::string>{"abcdefghij", "klmno p"}));
  EXPECT_EQ(wrap_words("", fits), (std::vector<std::string>{""}));
}

TEST(Words, CountInSingularAndPlural) {
  EXPECT_EQ(count_text(1, "bay", "bays"), "1 bay");
  EXPECT_EQ(count_text(0, "bay", "bays"), "0 bays");
}

// 1303 and 690 units of 2048 to the em: digit and full stop in the font's own table of advances,
// 1425 and 778 in the bold one.
TEST(TextWidth, FollowsTheFont) {
  EXPECT_DOUBLE_EQ(text_width("10", 2048.0), 2.0 * 1303.0);
  EXPECT_DOUBLE_EQ(text_width("10", 1024.0), 1303.0);
  EXPECT_DOUBLE_EQ(text_width("10", 2048.0, FontWeight::bold), 2.0 * 1425.0);
}

TEST(TextWidth, ShortensOnlyTextsThatDoNotFit) {
  const std::string text = "a title that is rather long";
  EXPECT_EQ(fit_text(text, text_width(text, 12.0), 12.0), text);
  for (double width = 20.0; width < 150.0; width += 7.0) {
    const std::string fitted = fit_text(text, width, 12.0);
    EXPECT_LE(text_width(fitted, 12.0), width);
    EXPECT_EQ(fitted.substr(fitted.size() - 3), "\u2026");
  }
}

TEST(TextWidth, WrapsWithinTheWidthAndLosesNoLetter) {
  const std::string text = "measure every tape from there; the pieces are to check";
  std::string joined;
  for (const std::string& line : wrap_text(text, 110.0, 11.0)) {
    EXPECT_LE(text_width(line, 11.0), 110.0);
    joined += (joined.empty() ? "" : " ") + line;
  }
  EXPECT_EQ(joined, text);
}

TEST(TextTable, ShortensWordsButNeverNumbers) {
  TextTable table({"piece", "a", "b"});
  table.add({std::string(100, 'x'), "123456789", "987654321"});
  for (const std::string& line : table.lines()) EXPECT_LE(column_count(line), kTextColumns);
  EXPECT_NE(table.lines()[1].find("123456789"), std::string::npos);
  EXPECT_NE(table.lines()[1].find("987654321"), std::string::npos);
}

}  // namespace
}  // namespace spanloom
