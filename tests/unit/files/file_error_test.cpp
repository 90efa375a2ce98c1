#include "files/file_error.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "base/utf8.h"

namespace spanloom {
namespace {

TEST(FileError, ReadsLikeACompilersError) {
  const FileProblem problem{"rig.toml", {12, 11}, {"main.tension", "\"4.5\"", "a force", "add the unit"}};
  EXPECT_EQ(to_text(problem), "rig.toml:12:11: main.tension: read \"4.5\", expected a force (add the unit)");
}

TEST(FileError, IsOneLineWhateverTheKey) {
  const std::string text = to_text({"r", {1, 1}, {"a\nb" + std::string(5000, 'k'), "x", "y", ""}});
  EXPECT_TRUE(text.starts_with("r:1:1: a?bkkk"));
  EXPECT_TRUE(text.ends_with("kkk..."));
  EXPECT_EQ(text.size(), 1003u);
}

TEST(FileError, CountsWhatItDoesNotShow) {
  const std::vector<FileProblem> many(250, {"r", {1, 1}, {"k", "x", "y", ""}});
  const std::string text = FileError(many).what();
  EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 100);
  EXPECT_TRUE(text.ends_with("\n... and 150 more problems"));
}

TEST(InQuotes, KeepsControlCharactersAndBrokenBytesOffTheTerminal) {
  EXPECT_EQ(in_quotes("a\x1B[31m\n\x7F\xFFz"), "\"a?[31m???z\"");
  EXPECT_EQ(in_quotes("é€"), "\"é€\"");
  EXPECT_EQ(in_quotes("\xC3"), "\"?\"");
}

TEST(InQuotes, CutsLongTexts) { EXPECT_EQ(in_quotes(std::string(99, 'x')), '"' + std::string(60, 'x') + "...\""); }

TEST(Findings, StandInTheOrderOfTheFiles) {
  Findings findings;
  findings.add("rig.toml", {9, 1}, {"b", "x", "y", ""});
  findings.add("ground.csv", {1, 1}, {"c", "x", "y", ""});
  findings.add("rig.toml", {2, 7}, {"a", "x", "y", ""});
  const auto all = findings.in_reading_order();
  ASSERT_EQ(all.size(), 3u);
  EXPECT_EQ(all[0].problem.key, "a");
  EXPECT_EQ(all[1].problem.key, "b");
  EXPECT_EQ(all[2].problem.key, "c");
}

TEST(Findings, KnowWhatTheyTouch) {
  Findings findings;
  findings.add("r", {}, {"main.near_end", "x", "y", ""});
  EXPECT_TRUE(findings.touches("main.near_end"));
  EXPECT_TRUE(findings.touches("main.near_end.keeps"));
  EXPECT_TRUE(findings.touches("main"));
  EXPECT_FALSE(findings.touches("main.near_ending"));
  EXPECT_FALSE(findings.touches("main.far_end"));
  EXPECT_FALSE(findings.touches("mai"));
}

// RFC 3629, section 4: shortest forms only, no surrogates, nothing above U+10FFFF.
TEST(Utf8, KnowsWhatIsACharacter) {
  EXPECT_EQ(utf8_character_size("a", 0), 1u);
  EXPECT_EQ(utf8_character_size("é", 0), 2u);
  EXPECT_EQ(utf8_character_size("€", 0), 3u);
  EXPECT_EQ(utf8_character_size("\xF0\x9F\x8C\xB2", 0), 4u);
  for (const char* broken : {"\xC0\xAF", "\xE0\x80\xAF", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\x80", "\xC3"}) {
    EXPECT_EQ(utf8_character_size(broken, 0), 0u);
  }
  EXPECT_EQ(utf8_length("é\xFF€"), 3u);
}

}  // namespace
}  // namespace spanloom
