// What cannot be, beside what is in the record already.
#include <gtest/gtest.h>

#include "record/check_entry.h"
#include "support/webbing_record.h"

namespace spanloom {
namespace {

using fixture::day;
using fixture::hung;
using fixture::reed;

const Day kToday = day("2026-06-30");

class EntryBeside : public testing::Test {
 protected:
  /// The arguments that are complained about, each followed by a space.
  std::string faults(EntryDetail detail, std::vector<EntryNumber> webbings = {}, const char* on = "2026-05-01",
                     const std::string& words = "") {
    fixture::WrittenRecord one;
    one.add(std::move(detail), std::move(webbings), on);
    one.record.entries.back().words = words;
    std::string keys;
    for (const Problem& problem : problems_of(one.record.entries.back(), written_.record, kToday))
      keys += problem.key + ' ';
    return keys;
  }
  fixture::WrittenRecord written_;
  const EntryNumber reed_ = written_.add(reed());
};

TEST_F(EntryBeside, OthersIsFineWhenItCanBe) {
  EXPECT_EQ(faults(hung("2026-05-01", "2026-05-03", 72.0, 3), {reed_}), "");
  EXPECT_EQ(faults(reed("Reed 2")), "");
}

TEST_F(EntryBeside, OthersCannotLieInTheFuture) {
  EXPECT_EQ(faults(Note{}, {}, "2026-07-01"), "--date ");
  EXPECT_EQ(faults(hung("2026-06-28", "2026-07-01"), {reed_}), "--to ");
}

TEST_F(EntryBeside, OthersCannotHaveMoreSunOrWetDaysThanDays) {
  EXPECT_EQ(faults(hung("2026-05-01", "2026-05-03", 72.1, 4), {reed_}), "--wet-days --sun ");
}

TEST_F(EntryBeside, OthersCannotEndBeforeItBegan) {
  EXPECT_EQ(faults(hung("2026-05-03", "2026-05-01"), {reed_}), "--to ");
}

TEST_F(EntryBeside, OthersCannotUseWebbingBeforeItWasNewOrAfterItWasRetired) {
  EXPECT_EQ(faults(hung("2024-02-01", "2024-02-03"), {reed_}), "--from ");
  written_.add(Retired{}, {reed_}, "2026-05-02");
  EXPECT_EQ(faults(hung("2026-05-01", "2026-05-02"), {reed_}), "");
  EXPECT_EQ(faults(hung("2026-05-01", "2026-05-03"), {reed_}), "--from ");
  EXPECT_EQ(faults(Retired{}, {reed_}), "PIECE ");
}

TEST_F(EntryBeside, OthersCannotRetireWebbingThatStillHungLater) {
  written_.add(hung("2026-05-01", "2026-05-09"), {reed_});
  EXPECT_EQ(faults(Retired{}, {reed_}, "2026-05-08"), "--date ");
  EXPECT_EQ(faults(Retired{}, {reed_}, "2026-05-09"), "");
}

TEST_F(EntryBeside, OthersNeedsANameOfItsOwnWhateverItsCase) {
  EXPECT_EQ(faults(reed("rEED 1")), "NAME ");
  EXPECT_EQ(faults(reed(" ")), "NAME ");
  written_.strike(reed_);
  EXPECT_EQ(faults(reed("rEED 1")), "");
}

TEST_F(EntryBeside, OthersTakesNoBytesThatAreNotLetters) {
  EXPECT_EQ(faults(Note{}, {}, "2026-05-01", "bell \a"), "--words ");
  EXPECT_EQ(faults(Note{}, {}, "2026-05-01", "\xff"), "--words ");
  EXPECT_EQ(faults(reed(std::string(81, 'r').c_str())), "NAME ");
}

TEST_F(EntryBeside, OthersSetsNoRuleTwice) {
  const EntryNumber second = written_.add(reed("Reed 2"));
  written_.add(Rule{RuleMeasure::falls, 5.0, "reed"});
  written_.add(Rule{RuleMeasure::falls, 3.0, {}}, {reed_});
  EXPECT_EQ(faults(Rule{RuleMeasure::falls, 4.0, "REED"}), "rule ");
  EXPECT_EQ(faults(Rule{RuleMeasure::falls, 4.0, {}}, {second, reed_}), "rule ");
  EXPECT_EQ(faults(Rule{RuleMeasure::falls, 4.0, {}}, {second}), "");
  EXPECT_EQ(faults(Rule{RuleMeasure::falls, 4.0, {}}), "");
  EXPECT_EQ(faults(Rule{RuleMeasure::wet_days, 4.0, "reed"}), "");
}

TEST_F(EntryBeside, OthersThatOverlapsIsTold) {
  written_.add(hung("2026-05-01", "2026-05-09"), {reed_});
  written_.add(hung("2026-05-09", "2026-05-12"), {reed_});
  written_.add(hung("2026-05-13", "2026-05-14"), {reed_});
  const auto overlaps = overlaps_of(written_.record.entries[2], reed_, written_.record);
  ASSERT_EQ(overlaps.size(), 1u);
  EXPECT_EQ(overlaps[0].other, 2);
  EXPECT_TRUE(overlaps_of(written_.record.entries[3], reed_, written_.record).empty());
}

TEST(Striking, IsRefusedWhileOtherEntriesRestOnIt) {
  fixture::WrittenRecord written;
  const EntryNumber webbing = written.add(reed()), hanging = written.add(hung("2026-05-01", "2026-05-02"), {webbing});
  ASSERT_EQ(problems_of_strike(webbing, written.record).size(), 1u);
  EXPECT_EQ(problems_of_strike(webbing, written.record)[0].cure, "strike out 2 first");
  EXPECT_TRUE(problems_of_strike(hanging, written.record).empty());
  written.strike(hanging);
  EXPECT_TRUE(problems_of_strike(webbing, written.record).empty());
  EXPECT_FALSE(problems_of_strike(hanging, written.record).empty());
  EXPECT_FALSE(problems_of_strike(99, written.record).empty());
}

TEST(Name, OfAWebbingThatIsNotThereIsAnsweredWithTheNearest) {
  fixture::WrittenRecord written;
  written.add(reed("Reed 1"));
  try {
    webbing_called("Red 1", written.record, "PIECE");
    FAIL() << "found";
  } catch (const InputError& error) {
    EXPECT_EQ(error.problems()[0].cure, "did you mean \"Reed 1\"?");
  }
}

TEST(Name, OfARigIsItsNumberOrATitleThatOnlyItHas) {
  fixture::WrittenRecord written;
  const LoggedRig rig{"Bank", "", "", {}, 16.0, 2500.0, 2500.0, 3000.0};
  written.add(rig);
  EXPECT_EQ(rig_called("bank", written.record, "--rig").number, 1);
  written.add(rig);
  EXPECT_EQ(rig_called("2", written.record, "--rig").number, 2);
  EXPECT_THROW(rig_called("bank", written.record, "--rig"), InputError);
  EXPECT_THROW(rig_called("3", written.record, "--rig"), InputError);
}

}  // namespace
}  // namespace spanloom
