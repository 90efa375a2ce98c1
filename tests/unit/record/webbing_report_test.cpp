// Sums and rules. The numbers are small enough to be added by hand; the sums are written beside them.
#include <gtest/gtest.h>

#include "record/record_text.h"
#include "record/webbing_report.h"
#include "sheet/text_table.h"
#include "support/webbing_record.h"

#include <sstream>

namespace spanloom {
namespace {

using fixture::day;
using fixture::hung;
using fixture::reed;

class WebbingOnRecord : public testing::Test {
 protected:
  WebbingReport report(const char* as_of = "2026-06-30") {
    return report_on(*written_.record.find(reed_), written_.record, day(as_of));
  }
  Verdict verdict_of(RuleMeasure measure, double limit) {
    written_.add(Rule{measure, limit, "reed"});
    const Verdict verdict = report().rules.back().check.verdict;
    written_.record.entries.pop_back();
    return verdict;
  }
  fixture::WrittenRecord written_;
  const EntryNumber reed_ = written_.add(reed());
};

TEST_F(WebbingOnRecord, CountsDaysThatTwoEntriesShareOnce) {
  written_.add(hung("2026-05-01", "2026-05-09", 40.0, 2), {reed_});
  written_.add(hung("2026-05-09", "2026-05-11", 9.0, 1), {reed_});
  written_.add(TimeHung{{}, 5, 3600.0, 1, 4000.0}, {reed_});
  const WebbingUse use = report().use;
  EXPECT_EQ(use.days, 11 + 5);
  EXPECT_DOUBLE_EQ(use.sun, 3600.0 * (40 + 9 + 1));
  EXPECT_EQ(use.wet_days, 2 + 1 + 1);
  EXPECT_EQ(report().remarks.size(), 1u);
}

TEST_F(WebbingOnRecord, CountsNothingThatWasStruckOutOrIsOfOthers) {
  const EntryNumber other = written_.add(reed("Reed 2"));
  written_.add(hung("2026-05-01", "2026-05-09", 40.0, 2), {other});
  written_.strike(written_.add(hung("2026-05-01", "2026-05-09", 40.0, 2), {reed_}));
  written_.add(LoggedEvent{EventKind::leash_fall, 5000.0}, {reed_, other});
  const WebbingReport seen = report();
  EXPECT_EQ(seen.use.days, 0);
  EXPECT_EQ(seen.use.falls, 1);
  EXPECT_EQ(seen.history.size(), 3u);  // itself, the struck entry, the fall
}

TEST_F(WebbingOnRecord, StopsWithoutAnyRuleWhereAForceWasAboveItsStrength) {
  const double strength = std::get<LoggedWebbing>(written_.record.find(reed_)->detail).strength.value();
  written_.add(LoggedEvent{EventKind::main_failure, 1.01 * strength}, {reed_});
  const WebbingReport seen = report();
  EXPECT_EQ(seen.verdict, Verdict::stop);
  EXPECT_NE(seen.words.find("above its strength"), std::string::npos) << seen.words;
  ASSERT_FALSE(seen.remarks.empty());
  EXPECT_NE(seen.remarks.back().find("a main failed"), std::string::npos);
}

TEST_F(WebbingOnRecord, TakesTheGreatestForceFromWhateverToldOne) {
  written_.add(hung("2026-05-01", "2026-05-02"), {reed_});  // 4000 N
  written_.add(Measured{4500.0, 50.0, {}, "{}"}, {reed_});
  EXPECT_EQ(report().use.force, 4500.0);
  written_.add(LoggedEvent{EventKind::main_failure, 6000.0}, {reed_});
  EXPECT_EQ(report().use.force, 6000.0);
  EXPECT_EQ(report().use.force_entry, 4);
}

TEST_F(WebbingOnRecord, IsOkBelowFourFifthsOfARuleAndStoppedOnlyBeyondIt) {
  written_.add(hung("2026-05-01", "2026-05-10", 0.0, 8), {reed_});      // 10 days, 8 wet, 4 kN
  EXPECT_EQ(verdict_of(RuleMeasure::days_hung, 13), Verdict::ok);       // 77 %
  EXPECT_EQ(verdict_of(RuleMeasure::wet_days, 10), Verdict::caution);   // 80 %
  EXPECT_EQ(verdict_of(RuleMeasure::days_hung, 10), Verdict::caution);  // 100 %
  EXPECT_EQ(verdict_of(RuleMeasure::days_hung, 9), Verdict::stop);
  EXPECT_EQ(verdict_of(RuleMeasure::force, 4000.0), Verdict::caution);
  EXPECT_EQ(verdict_of(RuleMeasure::force, 3999.0), Verdict::stop);
  EXPECT_EQ(verdict_of(RuleMeasure::force_share, 0.18), Verdict::ok);  // 4 of 28 kN is 14.3 %
  EXPECT_EQ(verdict_of(RuleMeasure::force_share, 0.14), Verdict::stop);
}

TEST_F(WebbingOnRecord, DoesNotPassALimitOfSunByRounding) {
  for (int i = 0; i < 10; ++i) written_.add(TimeHung{{}, 1, 360.0, 0, 4000.0}, {reed_});  // ten times 0.1 h
  EXPECT_EQ(verdict_of(RuleMeasure::sun, 3600.0), Verdict::caution);
}

TEST_F(WebbingOnRecord, AgesByTheCalendar) {
  written_.add(Rule{RuleMeasure::age, 24.0, {}}, {reed_});  // new on 2024-03-01
  EXPECT_EQ(report("2025-09-01").rules[0].check.verdict, Verdict::ok);
  EXPECT_EQ(report("2026-03-01").rules[0].check.verdict, Verdict::caution);
  EXPECT_DOUBLE_EQ(report("2026-03-01").rules[0].share, 1.0);
  EXPECT_EQ(report("2026-03-02").rules[0].check.verdict, Verdict::stop);
}

TEST_F(WebbingOnRecord, IsNeverOkWhereWhatARuleNeedsIsMissing) {
  EXPECT_EQ(report().verdict, Verdict::caution) << "no rule at all";
  std::get<LoggedWebbing>(written_.record.entries[0].detail).strength.reset();
  std::get<LoggedWebbing>(written_.record.entries[0].detail).new_on.reset();
  EXPECT_EQ(verdict_of(RuleMeasure::force_share, 0.9), Verdict::caution);
  EXPECT_EQ(verdict_of(RuleMeasure::age, 24.0), Verdict::caution);
  EXPECT_EQ(verdict_of(RuleMeasure::force, 50000.0), Verdict::ok);
  written_.add(LoggedEvent{EventKind::leash_fall, {}}, {reed_});
  EXPECT_EQ(verdict_of(RuleMeasure::force, 50000.0), Verdict::caution) << "a fall whose force nobody knows";
}

TEST_F(WebbingOnRecord, IsJudgedByRulesOfItsOwnOfItsKindAndOfAll) {
  const EntryNumber other = written_.add(reed("Reed 2"));
  written_.add(Rule{RuleMeasure::falls, 5.0, "REED"});
  written_.add(Rule{RuleMeasure::falls, 5.0, "rush"});
  written_.add(Rule{RuleMeasure::falls, 5.0, {}});
  written_.add(Rule{RuleMeasure::falls, 5.0, {}}, {reed_});
  written_.add(Rule{RuleMeasure::falls, 5.0, {}}, {other});
  written_.strike(written_.add(Rule{RuleMeasure::wet_days, 5.0, "reed"}));
  std::vector<EntryNumber> rules;
  for (const RuleUse& rule : report().rules) rules.push_back(rule.rule);
  EXPECT_EQ(rules, (std::vector<EntryNumber>{3, 5, 6}));
}

TEST_F(WebbingOnRecord, IsStoppedOnceItIsRetired) {
  written_.add(Retired{}, {reed_});
  EXPECT_EQ(report().verdict, Verdict::stop);
}

TEST_F(WebbingOnRecord, IsToldInEightyColumns) {
  written_.add(hung("2026-05-01", "2026-05-09", 40.0, 2), {reed_});
  written_.add(hung("2026-05-02", "2026-05-09", 40.0, 2), {reed_});
  written_.add(LoggedEvent{EventKind::leash_fall, {}}, {reed_});
  written_.record.entries.back().words = std::string(300, 'w');
  for (const RuleMeasure measure : {RuleMeasure::days_hung, RuleMeasure::sun, RuleMeasure::wet_days, RuleMeasure::falls,
                                    RuleMeasure::age, RuleMeasure::force_share, RuleMeasure::force}) {
    written_.add(Rule{measure, measure == RuleMeasure::force_share ? 0.4 : 1000.0, {}}, {reed_});
  }
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us}) {
    std::istringstream lines(webbing_text(report(), written_.record, units) +
                             list_text({report()}, written_.record, units) + cautions_text());
    for (std::string line; std::getline(lines, line);) EXPECT_LE(column_count(line), kTextColumns) << line;
  }
}

}  // namespace
}  // namespace spanloom
