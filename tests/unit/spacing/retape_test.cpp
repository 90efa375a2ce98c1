// A tape out, a tape moved, a tape more, with the backup as it was cut.
#include "spacing/retape.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numeric>
#include <random>
#include <string>

#include "base/input_error.h"
#include "support/jointed_rig.h"
#include "support/planned.h"
#include "support/short_rig.h"

namespace spanloom {
namespace {

double sum(const std::vector<double>& values) { return std::accumulate(values.begin(), values.end(), 0.0); }

double place_of(const Taping& taping, std::size_t tape) {
  return std::accumulate(taping.bays.begin(), taping.bays.begin() + std::ptrdiff_t(tape), 0.0);
}

double slack_of(const Taping& taping, std::size_t bay) { return taping.loops[bay] / taping.standing[bay] - 1.0; }

/// Four bays of 2 m of main that does not stretch, no hardware.
Taping hand_made(const std::vector<double>& loops) {
  return {std::vector<double>(4, 2.0), loops, std::vector<double>(4, 2.0), std::vector<double>(4, 0.0), std::vector<double>(4, 0.0)};
}

/// The short rig with hardware that differs on main and backup.
Rig hardware_rig() {
  Rig rig = short_rig();
  rig.main.run.near_hardware = {"clamp", 0.8, 0.50, 30e3};
  rig.main.run.far_hardware = {"shackle", 0.2, 0.10, 30e3};
  rig.backup.run.near_hardware = {"sling", 0.5, 0.30, 30e3};
  rig.backup.run.far_hardware = {"shackle", 0.2, 0.20, 30e3};
  rig.spacing.pattern = TapesAt{{1.5, 3.2, 4.9, 6.6, 8.3, 10.0, 11.7, 13.4}};
  rig.backup.amount = SlackShare{{0.015}};
  return rig;
}

Rig ring_rig() {
  Rig rig = short_rig();
  rig.backup.joint = Joint::ring;
  rig.backup.amount = SlackShare{{0.015}};
  return rig;
}

Taping taping_of(const Planned& line) { return taping_of(line.rig, line.plan); }

std::string complaint(const auto& edit) {
  try {
    edit();
  } catch (const InputError& error) {
    const Problem& problem = error.problems().at(0);
    return problem.key + ": " + problem.read + "; " + problem.expected;
  }
  return "none";
}

void expect_near(const std::vector<double>& a, const std::vector<double>& b, double most) {
  ASSERT_EQ(a.size(), b.size());
  for (std::size_t i = 0; i < a.size(); ++i) EXPECT_NEAR(a[i], b[i], most) << i;
}

void expect_same(const Taping& a, const Taping& b) {
  constexpr double kRounding = 1e-12;
  expect_near(a.bays, b.bays, kRounding);
  expect_near(a.loops, b.loops, kRounding);
  expect_near(a.standing, b.standing, kRounding);
  EXPECT_EQ(a.main_hardware, b.main_hardware);
  EXPECT_EQ(a.loop_hardware, b.loop_hardware);
}

TEST(Taping, OfAPlanPlansTheSameLine) {
  Rig jointed = jointed_rig();
  jointed.backup.run.segments = {{1, 21.0}, {1, std::nullopt}};
  jointed.backup.run.connectors = {{"soft link", 0.06, 0.1, 50e3}};
  for (const Rig& rig : {plain_rig(), short_rig(), hardware_rig(), jointed, ring_rig()}) {
    const Planned line = planned(rig);
    const Planned again = planned(rig_with(rig, taping_of(line)));
    EXPECT_NEAR(again.plan.standing.tension_near, line.plan.standing.tension_near, 1e-5) << rig.title;
    EXPECT_NEAR(again.plan.standing.main_natural_length, line.plan.standing.main_natural_length, 1e-6) << rig.title;
    EXPECT_NEAR(again.plan.standing.backup_natural_length, line.plan.standing.backup_natural_length, 1e-6) << rig.title;
    ASSERT_EQ(again.plan.bays.size(), line.plan.bays.size());
    for (std::size_t k = 0; k < line.plan.bays.size(); ++k) {
      EXPECT_NEAR(again.plan.bays[k].drop, line.plan.bays[k].drop, 1e-6) << rig.title << k;
      EXPECT_NEAR(again.plan.bays[k].backup_natural, line.plan.bays[k].backup_natural, 1e-6) << rig.title << k;
      EXPECT_EQ(again.plan.bays[k].close, line.plan.bays[k].close);
    }
  }
}

TEST(Taping, CountsHardwareInTheEndLoops) {
  const Planned line = planned(hardware_rig());
  const Taping taping = taping_of(line);
  for (std::size_t k = 0; k < taping.loops.size(); ++k) {
    EXPECT_NEAR(taping.loops[k] - taping.loop_hardware[k], line.plan.bays[k].backup_natural, 1e-12);
    EXPECT_NEAR(slack_of(taping, k), 0.015, 1e-9);
  }
  EXPECT_EQ(taping.loop_hardware.front(), 0.30);
  EXPECT_EQ(taping.main_hardware.back(), 0.10);
}

TEST(Retape, TakesATapeOutAndLeavesOneLoopAsLongAsBoth) {
  const Taping out = take_out_tape(hand_made({2.1, 2.2, 2.3, 2.4}), 2);
  EXPECT_EQ(out.bays, (std::vector<double>{2.0, 4.0, 2.0}));
  EXPECT_EQ(out.loops, (std::vector<double>{2.1, 4.5, 2.4}));
  const Taping first = take_out_tape(taping_of(planned(hardware_rig())), 1);
  EXPECT_EQ(first.loop_hardware.front(), 0.30);
  EXPECT_EQ(first.main_hardware.front(), 0.50);
}

// By hand: 4.2 m of loop over 3 m and 1 m.
TEST(Retape, SharesBackupInProportionWhereTheSlackWasTheSame) {
  const Taping moved = move_tape(hand_made({2.1, 2.1, 2.1, 2.1}), 1, 3.0);
  expect_near(moved.bays, {3.0, 1.0, 2.0, 2.0}, 1e-12);
  expect_near(moved.loops, {3.15, 1.05, 2.1, 2.1}, 1e-12);
}

// By hand: 12 cm more than 4 m of main, five times the slack in the first bay: 3.5 and 0.1 of 3.6 parts.
TEST(Retape, KeepsTheRatioOfSlacksThatDifferAndPullsNoLoopTaut) {
  const Taping moved = move_tape(hand_made({2.1, 2.02, 2.1, 2.1}), 1, 3.5);
  expect_near(moved.loops, {3.5 + 0.12 * 3.5 / 3.6, 0.5 + 0.12 * 0.1 / 3.6, 2.1, 2.1}, 1e-12);
  EXPECT_NEAR(slack_of(moved, 0) / slack_of(moved, 1), 5.0, 1e-9);
}

TEST(Retape, SharesInProportionWhereALoopHasNoSlack) {
  const Taping moved = move_tape(hand_made({2.1, 1.99, 2.1, 2.1}), 1, 3.0);
  EXPECT_NEAR(slack_of(moved, 0), 0.0225, 1e-12);
  EXPECT_NEAR(slack_of(moved, 1), 0.0225, 1e-12);
}

// Planned anew the main stands as before but for a hair of its last bay, since the weight has moved: up to 1e-4 of slack.
// Webbing alone shared by the bays' webbing alone would be off by 5e-3 and more in the end bays.
TEST(Retape, KeepsTheSlackOfThePlanEvenBesideHardware) {
  const Planned line = planned(hardware_rig());
  const Taping taping = taping_of(line);
  for (std::size_t tape : {1, 4, 8}) {
    for (double by : {-0.9, 0.7}) {
      const Taping moved = move_tape(taping, tape, place_of(taping, tape) + by);
      const Planned again = planned(rig_with(line.rig, moved));
      for (const PlanBay& bay : again.plan.bays) EXPECT_NEAR(bay.slack, 0.015, 2e-4) << tape << " " << by << " " << bay.number;
    }
  }
  for (double s : {0.4, 6.9, 14.5}) {
    const Planned again = planned(rig_with(line.rig, add_tape(taping, s)));
    ASSERT_EQ(again.plan.bays.size(), line.plan.bays.size() + 1);
    for (const PlanBay& bay : again.plan.bays) EXPECT_NEAR(bay.slack, 0.015, 2e-4) << s << " " << bay.number;
  }
}

TEST(Retape, MovesATapeThereAndBackAgain) {
  Rig drops = hardware_rig();
  drops.backup.amount = LoopDrop{{0.12}};
  const Taping taping = taping_of(planned(drops));
  for (std::size_t tape = 1; tape < taping.bays.size(); ++tape) {
    const double at = place_of(taping, tape);
    expect_same(move_tape(move_tape(taping, tape, at + 0.9), tape, at), taping);
    expect_same(move_tape(move_tape(move_tape(taping, tape, at - 0.8), tape, at + 0.31), tape, at), taping);
    expect_same(move_tape(taping, tape, at), taping);
  }
}

TEST(Retape, AddsATapeAndTakesItOutAgain) {
  const Taping taping = taping_of(planned(hardware_rig()));
  for (double s : {0.3, 4.0, 14.0}) {
    const Taping more = add_tape(taping, s);
    std::size_t tape = 1;
    while (std::abs(place_of(more, tape) - s) > 1e-9) ++tape;
    ASSERT_LT(tape, more.bays.size());
    EXPECT_NEAR(slack_of(more, tape - 1), slack_of(more, tape), 1e-12);
    expect_same(take_out_tape(more, tape), taping);
  }
}

TEST(Retape, NeverChangesHowMuchMainAndBackupThereIs) {
  std::mt19937_64 random(7);
  const auto share = [&] { return double(random() >> 11) / double(1ull << 53); };
  for (const Rig& rig : {hardware_rig(), short_rig(), jointed_rig()}) {
    const Taping start = taping_of(planned(rig));
    const double length = sum(start.bays), backup = sum(start.loops), standing = sum(start.standing);
    Taping taping = start;
    int done = 0;
    for (int i = 0; i < 3000; ++i) {
      const std::size_t tape = 1 + std::size_t(share() * double(taping.bays.size() - 1));
      const double kind = share();
      try {
        if (kind < 0.3) {
          taping = take_out_tape(taping, tape);
        } else if (kind < 0.6) {
          taping = add_tape(taping, length * share());
        } else {
          const double from = tape == 1 ? 0.0 : place_of(taping, tape - 1);
          taping = move_tape(taping, tape, from + share() * (place_of(taping, tape + 1) - from));
        }
        ++done;
      } catch (const InputError&) {
        continue;
      }
      ASSERT_EQ(taping.bays.size(), taping.loops.size());
      ASSERT_NEAR(sum(taping.bays), length, 1e-10);
      ASSERT_NEAR(sum(taping.loops), backup, 1e-10);
      ASSERT_NEAR(sum(taping.standing), standing, 1e-10);
      for (std::size_t k = 0; k < taping.bays.size(); ++k) {
        ASSERT_GE(taping.bays[k], kLeastBay - 1e-8);
        ASSERT_GT(taping.loops[k], taping.standing[k]);  // as in the plan
      }
    }
    EXPECT_GT(done, 1500);
  }
}

TEST(Retape, RefusesATapeThatIsNone) {
  const Taping taping = hand_made({2.1, 2.1, 2.1, 2.1});
  EXPECT_EQ(complaint([&] { take_out_tape(taping, 0); }), "spacing.at: tape 0; a tape from 1 to 3");
  EXPECT_EQ(complaint([&] { move_tape(taping, 4, 7.0); }), "spacing.at: tape 4; a tape from 1 to 3");
}

TEST(Retape, RefusesToTakeTheOnlyTapeOut) {
  const Taping one = take_out_tape(take_out_tape(hand_made({2.1, 2.1, 2.1, 2.1}), 3), 1);
  ASSERT_EQ(one.bays.size(), 2u);
  EXPECT_EQ(complaint([&] { take_out_tape(one, 1); }), "spacing.at: the only tape taken out; one tape at the least");
}

TEST(Retape, RefusesPlacesThatMakeABayTooShort) {
  const Taping taping = hand_made({2.1, 2.1, 2.1, 2.1});
  EXPECT_EQ(complaint([&] { move_tape(taping, 2, 2.15); }), "none");
  EXPECT_EQ(complaint([&] { move_tape(taping, 2, 2.14); }), "spacing.at: a tape at 2.14 m; a place from 2.15 m to 5.85 m");
  EXPECT_EQ(complaint([&] { move_tape(taping, 2, 9.0); }), "spacing.at: a tape at 9.00 m; a place from 2.15 m to 5.85 m");
  EXPECT_EQ(complaint([&] { add_tape(taping, 4.0); }), "spacing.at: a tape at 4.00 m; a place from 2.15 m to 3.85 m");
  EXPECT_EQ(complaint([&] { add_tape(taping, -1.0); }), "spacing.at: a tape at -1.00 m; a place from 0.15 m to 1.85 m");
  EXPECT_EQ(complaint([&] { add_tape(taping, 8.0); }), "spacing.at: a tape at 8.00 m; a place from 6.15 m to 7.85 m");
  const Taping narrow = move_tape(taping, 2, 2.2);
  EXPECT_EQ(complaint([&] { add_tape(narrow, 2.1); }), "spacing.at: a tape at 2.10 m; bays of at least 0.15 m");
}

TEST(Retape, RefusesPlacesThatAreNoNumbers) {
  const Taping taping = hand_made({2.1, 2.1, 2.1, 2.1});
  for (double s : {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
    EXPECT_EQ(complaint([&] { move_tape(taping, 2, s); }), "spacing.at: a tape nowhere; a place from 2.15 m to 5.85 m");
    EXPECT_EQ(complaint([&] { add_tape(taping, s); }).substr(0, 27), "spacing.at: a tape nowhere;");
  }
}

// The first loop is tied with a sling of 2 m where the main has no hardware.
TEST(Retape, RefusesALoopWithoutWebbing) {
  Taping taping = hand_made({2.1, 2.1, 2.1, 2.1});
  taping.loop_hardware[0] = 2.0;
  EXPECT_EQ(complaint([&] { move_tape(taping, 1, 1.0); }), "backup.length: a loop of 1.05 m in bay 1; more than its 2.00 m of hardware");
}

TEST(Retape, RefusesWhatIsNoTaping) {
  Taping taping = hand_made({2.1, 2.1, 2.1});
  EXPECT_EQ(complaint([&] { take_out_tape(taping, 1); }).substr(0, 38), "taping: 4 bays and 3 of what goes with");
  EXPECT_EQ(complaint([&] { rig_with(short_rig(), taping); }), "taping: 4 bays and 3 loops; as many of both");
  EXPECT_EQ(complaint([&] { add_tape({{2.0}, {2.1}, {2.0}, {0.0}, {0.0}}, 1.0); }).substr(0, 14), "taping: 1 bays");
}

}  // namespace
}  // namespace spanloom
