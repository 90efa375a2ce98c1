// A rig file with a tape out, moved or more, its backup as it was cut.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <limits>
#include <numeric>
#include <random>
#include <string>

#include "example_rigs.h"
#include "files/rig_edit.h"
#include "files/rig_text_edit.h"
#include "rig_texts.h"

namespace spanloom {
namespace {

namespace fs = std::filesystem;
using test::example;
using test::Example;
using test::plan_of;
using test::rig_beside;
using test::small_rig;
using test::text_of;
using test::windows;
using test::with;

/// Four bays, of which only main and loops are written.
Taping taping_with(std::vector<double> loops) { return {{4.0, 5.0, 6.0, 4.0}, std::move(loops), {}, {}, {}}; }
const std::string kAt = R"(at = ["4.00 m", "9.00 m", "15.00 m"])";

std::string edited(const std::string& text, const Taping& taping) { return with_taping_written(text, "rig.toml", taping); }

std::string complaint(const std::string& text, const Taping& taping) {
  try {
    edited(text, taping);
  } catch (const FileError& error) {
    return error.what();
  } catch (const InputError& error) {
    return error.problems().at(0).key + ": " + error.problems()[0].read;
  }
  return "none";
}

/// A value of the file as the file has it, one a line of a list.
std::vector<double> lengths_under(const std::string& text, const std::string& key) {
  std::vector<double> lengths;
  const std::size_t start = text.find("\n" + key + " = [");
  for (std::size_t at = start; (at = text.find('"', at)) < text.find(']', start); at = text.find('"', at + 1) + 1) {
    lengths.push_back(std::stod(text.substr(at + 1)));
  }
  return lengths;
}

double sum(const std::vector<double>& values) { return std::accumulate(values.begin(), values.end(), 0.0); }

/// 1e-6 m of the text in a length makes so much in the drop of a shallow loop, d = sqrt(3 l x / 8) for x more than l.
void expect_same_plan(const Plan& a, const Plan& b) {
  ASSERT_EQ(a.bays.size(), b.bays.size());
  EXPECT_NEAR(a.standing.tension_near, b.standing.tension_near, 1e-6);
  EXPECT_NEAR(a.standing.sag, b.standing.sag, 1e-6);
  EXPECT_NEAR(a.standing.main_natural_length, b.standing.main_natural_length, 1e-6);
  for (std::size_t k = 0; k < a.bays.size(); ++k) {
    const double per_length = 3.0 * a.bays[k].main_standing / (16.0 * a.bays[k].drop);
    EXPECT_NEAR(a.bays[k].tape_s, b.bays[k].tape_s, 1.5e-6) << k;
    EXPECT_NEAR(a.bays[k].backup_natural, b.bays[k].backup_natural, 2e-6) << k;  // rings move a little too
    EXPECT_NEAR(a.bays[k].drop, b.bays[k].drop, 2e-6 * per_length) << k;
  }
}

TEST(RigTapingEdit, WritesPlacesAndALengthForEachLoop) {
  EXPECT_EQ(edited(small_rig(), taping_with({4.1, 5.123456789, 6.0, 4.5})),
            with(with(small_rig(), "even = \"2 m\"", kAt), "slack = \"2 %\"",
                 R"(length = ["4.10 m", "5.123457 m", "6.00 m", "4.50 m"])"));
}

TEST(RigTapingEdit, WritesOneLengthWhereAllLoopsHaveTheSame) {
  EXPECT_EQ(edited(small_rig(), taping_with({5.2, 5.2, 5.2, 5.2})),
            with(with(small_rig(), "even = \"2 m\"", kAt), "slack = \"2 %\"", "length = \"5.2 m\""));
}

// The example says in its comments which lines to swap in, to the digits of its tape list.
TEST(RigTapingEdit, TakesTheFourthTapeOutOfThePracticeLineAsItsCommentsSay) {
  const fs::path folder = example("practice-line");
  const std::string text = text_of(folder / "rig.toml");
  const Rig rig = rig_beside(folder, text);
  const Plan plan = make_plan(rig).plan.value();
  const Taping out = take_out_tape(taping_of(rig, plan), 4);
  const std::string after = edited(text, out);

  const std::string by_hand = with(with(with(with(text, "drop = ", "# drop = "), "# length = [", "length = ["),
                                        "even = ", "# even = "), "# at = [", "at = [");
  ASSERT_EQ(lengths_under(by_hand, "length").size(), 8u);
  for (const std::string key : {"length", "at"}) {
    const std::vector<double> ours = lengths_under(after, key), theirs = lengths_under(by_hand, key);
    ASSERT_EQ(ours.size(), theirs.size()) << key;
    const double digits = key == "at" ? 0.005 : 0.0006;  // half of the last one; the loop of two pieces was rounded twice
    for (std::size_t i = 0; i < ours.size(); ++i) EXPECT_NEAR(ours[i], theirs[i], digits) << key << i;
  }
  const Plan ours = plan_of(rig_beside(folder, after)), theirs = plan_of(rig_beside(folder, by_hand));
  EXPECT_NEAR(ours.bays[3].drop, theirs.bays[3].drop, 0.002);  // 0.6 mm of 3.5 m of loop, 0.5 m deep
  EXPECT_NEAR(ours.standing.backup_natural_length, plan.standing.backup_natural_length, 1e-5);
}

TEST(RigTapingEdit, WritesThePlanOfEveryExampleBack) {
  for (const Example& file : test::examples()) {
    const Rig rig = rig_beside(file.folder, file.text);
    const Plan plan = plan_of(rig);
    const std::string after = edited(file.text, taping_of(rig, plan));
    expect_same_plan(plan, plan_of(rig_beside(file.folder, after)));
    EXPECT_EQ(edited(after, taping_of(rig, plan)), after);
  }
}

// A ring lets the backup through: it comes to rest where it was.
TEST(RigTapingEdit, WritesLoopsThatHangInRingsBack) {
  for (const Example& file : test::examples()) {
    std::string text = with(file.text, "\n[backup]\n", "\n[backup]\njoint = \"ring\"\n");
    const std::size_t twice = text.find("joint = \"taped\"\n");
    if (twice != text.npos) text.erase(twice, 16);
    const Rig rig = rig_beside(file.folder, text);
    ASSERT_EQ(rig.backup.joint, Joint::ring);
    const PlanOutcome ringed = make_plan(rig, {.main_bars = 4, .loop_bars = 8});
    if (!ringed.plan) continue;  // loops too slack for rings
    const std::string after = edited(text, taping_of(rig, *ringed.plan));
    expect_same_plan(*ringed.plan, plan_of(rig_beside(file.folder, after)));
  }
}

TEST(RigTapingEdit, KeepsEveryOtherByte) {
  for (const char* name : {"heron-gorge", "practice-line"}) {
    const std::string text = text_of(example(name) / "rig.toml");
    std::string after = edited(text, taping_with({4.1, 5.1, 6.1, 4.1}));
    const bool heron = name == std::string("heron-gorge");
    after = with(after, kAt, heron ? "repeat = [1, 2, 1.5, 1, 2]" : "even = \"1.7 m\"");
    after = with(after, R"(length = ["4.10 m", "5.10 m", "6.10 m", "4.10 m"])", heron ? "slack = \"1.5 %\"" : "drop = \"120 mm\"");
    EXPECT_EQ(after, text);
  }
}

TEST(RigTapingEdit, KeepsLineEndsAndByteOrderMark) {
  for (const Example& file : test::examples()) {
    const Taping taping = taping_with({4.1, 5.1, 6.1, 4.1});
    EXPECT_EQ(edited(windows(file.text), taping), windows(edited(file.text, taping)));
  }
}

TEST(RigTapingEdit, RefusesWhatIsNoTaping) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(complaint(small_rig(), taping_with({4.1, 5.1, 6.1})), "taping: 4 bays and 3 loops");
  EXPECT_EQ(complaint(small_rig(), {{9.0}, {9.1}, {}, {}, {}}), "layout: 1 bay");
  EXPECT_EQ(complaint(small_rig(), taping_with({4.1, nan, 6.1, 4.1})).substr(0, 17), "backup.length[1]:");
  EXPECT_EQ(complaint(small_rig(), taping_with({4.1, 0.0, 6.1, 4.1})).substr(0, 17), "backup.length[1]:");
}

TEST(RigTapingEdit, SaysWhereATextIsNoRig) {
  EXPECT_EQ(complaint(with(small_rig(), "gap = \"20 m\"", "gap = 20"), taping_with({4.1, 5.1, 6.1, 4.1})).substr(0, 21),
            "rig.toml:3:7: site.ga");
}

/// Draws the same numbers with every library.
class Draws {
 public:
  explicit Draws(unsigned seed) : random_(seed) {}
  double share() { return double(random_() >> 11) / double(1ull << 53); }
  std::size_t below(std::size_t count) { return std::size_t(share() * double(count)); }

 private:
  std::mt19937_64 random_;
};

/// One tape out, moved or more, drawn. @throws InputError where it cannot be
Taping drawn(const Taping& taping, Draws& draws) {
  const std::size_t tape = 1 + draws.below(taping.bays.size() - 1);
  const double kind = draws.share();
  if (kind < 0.3) return take_out_tape(taping, tape);
  const double length = sum(taping.bays), s = draws.share() * length;
  if (kind < 0.6) return add_tape(taping, s);
  const double from = std::accumulate(taping.bays.begin(), taping.bays.begin() + std::ptrdiff_t(tape) - 1, 0.0);
  return move_tape(taping, tape, from + draws.share() * (taping.bays[tape - 1] + taping.bays[tape]));
}

// Read back after every edit; planned anew now and then, as a page does after every one.
TEST(RigTapingEdit, ReadsBackAfterRandomEdits) {
  for (const char* name : {"heron-gorge", "practice-line"}) {
    const fs::path folder = example(name);
    const std::string text = text_of(folder / "rig.toml");
    const RigText before(text, "rig.toml");
    const auto rest = [](const RigText& rig) {
      return without(without(rig.document(), {"spacing"}, {"repeat", "even", "at"}), {"backup"}, {"slack", "drop", "length"});
    };
    const Rig start = rig_beside(folder, text);
    const double backup = sum(taping_of(start, plan_of(start)).loops);
    std::string now = text;
    Taping taping = taping_of(start, plan_of(start));
    Draws draws(11);
    int done = 0, planned = 0;
    for (int i = 0; i < 300; ++i) {
      try {
        taping = drawn(taping, draws);
      } catch (const InputError& error) {
        EXPECT_FALSE(error.problems().at(0).cure.empty()) << error.what();
        continue;
      }
      ++done;
      now = edited(now, taping);
      EXPECT_TRUE(reads_the_same(rest(RigText(now, "rig.toml")), rest(before)));
      const Rig rig = rig_beside(folder, now);
      const auto& tapes = std::get<TapesAt>(rig.spacing.pattern).positions;
      std::vector<double> loops = std::get<LoopLength>(rig.backup.amount).of_bay;
      ASSERT_EQ(tapes.size() + 1, taping.bays.size());
      ASSERT_EQ(loops.size(), taping.bays.size());
      double at = 0.0;
      for (std::size_t k = 0; k < taping.bays.size(); ++k) {
        EXPECT_NEAR(loops[k], taping.loops[k], 1e-6);
        at += taping.bays[k];
        if (k < tapes.size()) { EXPECT_NEAR(tapes[k], at, 1e-6); }
      }
      if (i % 20 != 0) continue;
      const PlanOutcome stands = make_plan(rig, {.main_bars = 4, .loop_bars = 8});
      if (!stands.plan) continue;
      ++planned;
      taping = taping_of(rig, *stands.plan);
      EXPECT_NEAR(sum(taping.loops), backup, 1e-6 * double(i + taping.loops.size()));
    }
    EXPECT_GT(done, 150) << name;
    EXPECT_GT(planned, 4) << name;
  }
}

}  // namespace
}  // namespace spanloom
