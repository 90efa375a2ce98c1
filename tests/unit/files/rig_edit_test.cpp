// A rig file with another layout: what is written, what stays.
#include "files/rig_edit.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <limits>
#include <numeric>
#include <string>

#include "files/limits.h"
#include "files/rig_file.h"
#include "example_rigs.h"
#include "rig_texts.h"
#include "statics/plan.h"

namespace spanloom {
namespace {

namespace fs = std::filesystem;
using test::example;
using test::plan_of;
using test::rig_beside;
using test::rig_of;
using test::small_rig;
using test::text_of;
using test::windows;
using test::with;

/// Four bays of 19 m of main.
const Layout kFourBays{{4.0, 5.0, 6.0, 4.0}, {0.015, 0.015, 0.015, 0.015}};
const std::string kAt = R"(at = ["4.00 m", "9.00 m", "15.00 m"])";

std::string edited(const std::string& text, const Layout& layout = kFourBays, const std::vector<double>& phrase = {}) {
  return with_layout_written(text, "rig.toml", layout, phrase);
}

std::string complaint(const std::string& text, const Layout& layout = kFourBays, const std::vector<double>& phrase = {}) {
  try {
    edited(text, layout, phrase);
  } catch (const FileError& error) {
    return error.what();
  } catch (const InputError& error) {
    return error.problems().at(0).key + ": " + error.problems()[0].read;
  }
  return "none";
}

const std::string kClose = R"(close = { centre = "10 m", length = "4 m", spacing = 0.5 })";

/// The small rig with these lines in [spacing] and [backup], and as it should be when edited.
std::string spaced(const std::string& spacing) { return with(small_rig(), "even = \"2 m\"", spacing); }
std::string with_new_slack(const std::string& text) { return with(text, "slack = \"2 %\"", "slack = \"1.5 %\""); }
std::string spaced_and_slack(const std::string& spacing) { return with_new_slack(spaced(spacing)); }

void expect_same_plan(const Plan& a, const Plan& b) {
  ASSERT_EQ(a.bays.size(), b.bays.size());
  EXPECT_NEAR(a.standing.main_natural_length, b.standing.main_natural_length, 1e-6);
  EXPECT_NEAR(a.standing.sag, b.standing.sag, 1e-6);
  for (std::size_t k = 0; k < a.bays.size(); ++k) {
    EXPECT_NEAR(a.bays[k].tape_s, b.bays[k].tape_s, 1.5e-6) << k;  // 1e-6 m of the text and the main's own length
    EXPECT_NEAR(a.bays[k].slack, b.bays[k].slack, 2e-9) << k;
    EXPECT_NEAR(a.bays[k].drop, b.bays[k].drop, 1e-5) << k;
  }
}

/// The text from `from` up to and with the first `to` after it, replaced.
std::string back(std::string text, const std::string& from, const std::string& to, const std::string& by) {
  const std::size_t start = text.find(from);
  if (start == text.npos) throw std::logic_error("no " + from);
  return text.replace(start, text.find(to, start) + to.size() - start, by);
}

TEST(RigEdit, RenamesEvenAndWritesOneSlackForAllBays) {
  EXPECT_EQ(edited(small_rig()), spaced_and_slack(kAt));
}

TEST(RigEdit, WritesASlackForEachBayWhereTheyDiffer) {
  const Layout layout{{4.0, 5.0, 10.0}, {0.015, 0.0, 0.12345678912}};
  EXPECT_EQ(edited(small_rig(), layout),
            with(spaced(R"(at = ["4.00 m", "9.00 m"])"),
                 "slack = \"2 %\"", R"(slack = ["1.50 %", "0.00 %", "12.3456789 %"])"));
}

TEST(RigEdit, TurnsDropsAndLengthsIntoSlack) {
  for (const std::string amount : {"drop = \"120 mm\"", "length = [\"2 m\", \"210 cm\"]", "slack = [ \"1 %\", \"2 %\" ]"}) {
    EXPECT_EQ(edited(with(small_rig(), "slack = \"2 %\"", amount)), spaced_and_slack(kAt)) << amount;
  }
}

// Thirds of a metre and of a percent: no decimal fits.
TEST(RigEdit, ReadsBackAsTheLayoutAskedFor) {
  Layout layout;
  for (int k = 0; k < 40; ++k) {
    layout.bays.push_back(1.0 / 3.0 + 0.01 * k);
    layout.slack.push_back(0.01 / 3.0 + 0.001 * k);
  }
  const Rig rig = rig_of(edited(small_rig(), layout));
  const auto& tapes = std::get<TapesAt>(rig.spacing.pattern).positions;
  const auto& slack = std::get<SlackShare>(rig.backup.amount).of_bay;
  ASSERT_EQ(tapes.size(), 39u);
  ASSERT_EQ(slack.size(), 40u);
  double at = 0.0;
  for (std::size_t k = 0; k < 40; ++k) {
    EXPECT_NEAR(slack[k], layout.slack[k], 1e-9);
    at += layout.bays[k];
    if (k < 39) { EXPECT_NEAR(tapes[k], at, 1e-6); }
  }
}

TEST(RigEdit, WrapsLongListsAtAHundredColumns) {
  Layout layout{std::vector<double>(30, 1.7), std::vector<double>(30, 0.02)};
  const std::string text = edited(small_rig(), layout);
  const std::string list = text.substr(text.find("at = ["), text.find("[walker]") - text.find("at = ["));
  EXPECT_TRUE(list.starts_with("at = [\n  \"1.70 m\", \"3.40 m\",")) << list;
  EXPECT_TRUE(list.ends_with("\"49.30 m\",\n]\n")) << list;
  for (std::size_t at = 0, end = 0; at < list.size(); at = end + 1) {
    end = list.find('\n', at);
    EXPECT_LE(end - at, 100u) << list;
  }
}

TEST(RigEdit, KeepsCommentsBesideAndAroundWhatItWrites) {
  const std::string text = with(with(small_rig(), "even = \"2 m\"", "  # above\n\n  even  =  \"2 m\"    # beside\n# below"),
                                "slack = \"2 %\"", "slack = \"2 %\"# at once");
  EXPECT_EQ(edited(text), with_new_slack(with(text, "even  =  \"2 m\"", "at  =  " + kAt.substr(5))));
}

TEST(RigEdit, MovesCommentsOutOfAListThatItReplaces) {
  EXPECT_EQ(edited(spaced("repeat = [ # arm spans\n  1, 2, # \"short\" ]\n  # last\n  1.5\n] # beside")),
            spaced_and_slack("# arm spans\n# \"short\" ]\n# last\n" + kAt + " # beside"));
}

TEST(RigEdit, KeepsCloseBaysHoweverTheyAreWritten) {
  EXPECT_EQ(edited(spaced("repeat = [1, 2]\n  " + kClose + "  # tricks")), spaced_and_slack(kAt + "\n  " + kClose + "  # tricks"));
  const std::string table = "\n[spacing.close] # tricks\ncentre = \"10 m\" # middle\nlength = \"4 m\"\n\nspacing = 0.5";
  EXPECT_EQ(edited(spaced("even = \"2 m\"" + table)), spaced_and_slack(kAt + table));
  const std::string dotted = "close.centre = \"10 m\"\n close . \"length\" = \"4 m\"\nclose.spacing = 0.5 # half\n";
  EXPECT_EQ(edited(spaced(dotted + "even = \"2 m\"")), spaced_and_slack(dotted + kAt));
}

TEST(RigEdit, WritesIntoInlineTables) {
  const std::string rest = with(small_rig(), "[spacing]\neven = \"2 m\"\n", "");
  const auto before = [&](const std::string& members) { return "spacing = { " + members + " } # all\n" + rest; };
  const auto after = [&](const std::string& members) { return with_new_slack(before(members)); };
  EXPECT_EQ(edited(before("arm_span = \"1.7 m\", repeat = [1, 2], " + kClose)), after("arm_span = \"1.7 m\", " + kAt + ", " + kClose));
  const std::string dotted = R"(close.centre = "9 m", even = "2 m", close.length = "4 m", close.spacing = 1)";
  EXPECT_EQ(edited(before(dotted)), after(with(dotted, "even = \"2 m\"", kAt)));
  EXPECT_EQ(edited(before("arm_span = \"1.7 m\", repeat = [1, # one\n2]")), "# one\n" + after("arm_span = \"1.7 m\", " + kAt));
}

TEST(RigEdit, WritesIntoDottedAndQuotedKeys) {
  const std::string backup = "[backup]\nwebbing = \"reed\"\nslack = \"2 %\"\n";
  const std::string rest = with(with(small_rig(), "[spacing]\neven = \"2 m\"\n", ""), backup, "");
  EXPECT_EQ(edited("backup.webbing = \"reed\"\nbackup . 'drop' = \"9 cm\" # all\nspacing.\"even\" = \"2 m\"\n" + rest),
            "backup.webbing = \"reed\"\nbackup . slack = \"1.5 %\" # all\nspacing." + kAt + "\n" + rest);
  EXPECT_EQ(edited("backup = { webbing = \"reed\", length = \"2 m\" }\nspacing.even = '2 m'\n" + rest),
            "backup = { webbing = \"reed\", slack = \"1.5 %\" }\nspacing." + kAt + "\n" + rest);
}

TEST(RigEdit, KeepsLineEndsAndByteOrderMark) {
  const std::string text = spaced("repeat = [1, # é\n 2] # ü\n" + kClose);
  EXPECT_EQ(edited(windows(text)), windows(edited(text)));
  const Layout many{std::vector<double>(30, 1.7), std::vector<double>(30, 0.02)};
  EXPECT_EQ(edited(windows(text), many), windows(edited(text, many)));
  const std::string first = "spacing = { even = \"2 m\" }\n" + with(small_rig(), "[spacing]\neven = \"2 m\"\n", "");
  EXPECT_EQ(edited(windows(first)), windows(edited(first)));  // on the line of the mark
}

TEST(RigEdit, WritesAFileThatEndsWithoutALineEnd) {
  const std::string text = with(small_rig(), "[spacing]\neven = \"2 m\"\n", "") + "[spacing]\neven = \"2 m\"";
  EXPECT_TRUE(edited(text).ends_with("[spacing]\n" + kAt));
  EXPECT_TRUE(edited(text + '\n' + kClose).ends_with("[spacing]\n" + kAt + '\n' + kClose));
}

TEST(RigEdit, WritesAPhraseAndKeepsTheCloseBays) {
  // Arm spans of 2 m on 18.5 m: bays of 2 m and 4 m, the last takes the rest; then with close bays from 8 m to 12 m.
  const Layout plain{{2.0, 4.0, 2.0, 4.0, 2.0, 4.5}, std::vector<double>(6, 0.015)};
  const std::string text = spaced("arm_span = \"2 m\"\nrepeat = [ # old\n 1.5 ] # beside");
  EXPECT_EQ(edited(text, plain, {1.0, 2.0}), spaced_and_slack("arm_span = \"2 m\"\n# old\nrepeat = [1, 2] # beside"));
  const std::string close = "\nclose = { centre = \"10 m\", length = \"4 m\", spacing = 1 }";
  const Layout around{{2.0, 4.0, 2.0, 2.0, 2.0, 2.0, 4.5}, std::vector<double>(7, 0.015)};
  EXPECT_EQ(edited(spaced("arm_span = \"2 m\"\neven = \"3 m\"" + close), around, {1.0, 2.0}),
            spaced_and_slack("arm_span = \"2 m\"\nrepeat = [1, 2]" + close));
}

TEST(RigEdit, RefusesAPhraseThatIsNotTheLayout) {
  EXPECT_EQ(complaint(small_rig(), kFourBays, {1.0, 2.0}), "phrase: a phrase that puts the tapes elsewhere");
  EXPECT_EQ(complaint(small_rig(), kFourBays, {0.0}), "phrase: 0 arm spans");
  EXPECT_EQ(complaint(small_rig(), kFourBays, {std::numeric_limits<double>::infinity()}), "phrase: inf arm spans");
}

TEST(RigEdit, RefusesWhatIsNoLayout) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(complaint(small_rig(), {{4.0, 5.0}, {0.01}}), "layout: 2 bays and 1 slacks");
  EXPECT_EQ(complaint(small_rig(), {{4.0}, {0.01}}), "layout: 1 bay");
  EXPECT_EQ(complaint(small_rig(), {{4.0, nan}, {0.01, 0.01}}).substr(0, 7), "layout:");
  EXPECT_EQ(complaint(small_rig(), {{4.0, 5.0}, {0.01, nan}}).substr(0, 15), "backup.slack[1]");
  EXPECT_EQ(complaint(small_rig(), {{4.0, 5.0}, {0.01, 2.5}}).substr(0, 12), "backup.slack");
  EXPECT_EQ(complaint(small_rig(), {{4.0, 0.001, 5.0}, {0.01, 0.01, 0.01}}).substr(0, 13), "spacing.at[1]");
}

TEST(RigEdit, RefusesATextThatIsNoRigWithItsPlaces) {
  EXPECT_EQ(complaint("title = \n").substr(0, 10), "rig.toml:1");
  EXPECT_NE(complaint(with(small_rig(), "even = ", "evn = ")).find("rig.toml:16:1: spacing.evn: "), std::string::npos);
  EXPECT_NE(complaint(with(small_rig(), "[spacing]", "drop = \"1 cm\"\n[spacing]")).find("rig.toml:15:8: backup.drop: "),
            std::string::npos);
}

TEST(RigEdit, DoesNotOpenSideFiles) {
  const std::string text = with(with(small_rig(), "rise = \"1 m\"", "ground = \"nowhere.csv\""),
                                "stretch = [[\"2 kN\", \"2 %\"], [\"10 kN\", \"7 %\"]]", "stretch_csv = \"nowhere.csv\"");
  EXPECT_EQ(edited(text), with(with(text, "even = \"2 m\"", kAt), "slack = \"2 %\"", "slack = \"1.5 %\""));
}

TEST(RigEdit, LeavesAHalfReadableRigToTheReader) {
  const std::string text = with(small_rig(), "rise = \"1 m\"", "ground = \"nowhere.csv\"");
  EXPECT_NE(complaint(with(text, "gap = \"20 m\"", "gap = 20")).find("site.gap"), std::string::npos);
  EXPECT_EQ(complaint(with(text, "gap = \"20 m\"", "gap = 20")).find("nowhere.csv"), std::string::npos);
}

TEST(RigEdit, WritesThePlanOfHeronGorgeBackIntoItsFile) {
  const fs::path folder = example("heron-gorge");
  const std::string text = text_of(folder / "rig.toml");
  const Plan plan = plan_of(rig_beside(folder, text));
  const std::string after = edited(text, layout_of(plan));
  expect_same_plan(plan, plan_of(rig_beside(folder, after)));
  EXPECT_EQ(back(after, "at = [\n", "]", "repeat = [1, 2, 1.5, 1, 2]"), text);
  EXPECT_EQ(edited(text, layout_of(plan), {1, 2, 1.5, 1, 2}), text);
}

// The places are those that the comments of the example give from its tape list, to the millimetre.
TEST(RigEdit, WritesThePlanOfThePracticeLineBackIntoItsFile) {
  const fs::path folder = example("practice-line");
  const std::string text = text_of(folder / "rig.toml");
  const Plan plan = plan_of(rig_beside(folder, text));
  const std::string after = edited(text, layout_of(plan));
  expect_same_plan(plan, plan_of(rig_beside(folder, after)));
  const std::string at = R"(at = ["1.72 m", "3.42 m", "5.12 m", "6.82 m", "8.52 m", "10.22 m", "11.92 m", "13.62 m"])";
  EXPECT_EQ(back(with(after, at, "even = \"1.7 m\""), "slack = [", "]", "drop = \"120 mm\""), text);
}

TEST(RigEdit, WritesTheSameTextWhenWrittenTwice) {
  for (const char* name : {"heron-gorge", "practice-line"}) {
    const std::string once = edited(text_of(example(name) / "rig.toml"));
    EXPECT_EQ(edited(once), once) << name;
  }
}

// Lines left out, moved to the end, cut short: a text comes back that reads, or an error.
TEST(RigEdit, RefusesOrEditsMutilatedFiles) {
  int read = 0, refused = 0;
  for (const char* name : {"heron-gorge", "practice-line"}) {
    const std::string text = text_of(example(name) / "rig.toml");
    for (std::size_t at = 0, next = 0; at < text.size(); at = next) {
      next = std::min(text.find('\n', at), text.size() - 1) + 1;
      const std::string line = text.substr(at, next - at), without = text.substr(0, at) + text.substr(next);
      for (const std::string& broken : {without, without + line, text.substr(0, (at + next) / 2), text + line}) {
        const std::string why = complaint(broken);
        if (why == "none") {
          const std::string once = edited(broken);
          EXPECT_EQ(edited(once), once) << once;
          ++read;
        } else {
          EXPECT_TRUE(why.starts_with("rig.toml:")) << why;
          ++refused;
        }
      }
    }
  }
  EXPECT_GT(read, 100);
  EXPECT_GT(refused, 100);
}

}  // namespace
}  // namespace spanloom
