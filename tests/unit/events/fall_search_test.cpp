// What a search for the worst fall asks for, and how it is put on a mesh.
#include "events/fall_search.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "statics/clearance.h"
#include "support/jointed_rig.h"

namespace spanloom {
namespace {

MovingRig moving(const Rig& rig, const MotionMesh& mesh = kSearchMesh) {
  const MovingOutcome made = moving_rig(rig, mesh);
  EXPECT_TRUE(made.rig) << made.why;
  return *made.rig;
}

template <class Which>
std::size_t count(const std::vector<AskedFall>& asked, Which which) {
  return std::size_t(std::count_if(asked.begin(), asked.end(), which));
}

void expect_each_once(const std::vector<AskedFall>& asked) {
  for (std::size_t i = 0; i < asked.size(); ++i) {
    EXPECT_EQ(count(asked, [&](const AskedFall& other) { return same_fall(asked[i], other); }), 1u) << i;
  }
}

// ---- First round

TEST(FirstRound, LetsTheMainFailInEveryWayUnderEveryWalker) {
  const MovingRig rig = moving(jointed_rig());
  const std::vector<AskedFall> asked = first_round(rig);
  std::vector<double> walkers;
  for (const AskedFall& fall : asked) {
    if (walkers.empty() || std::abs(walkers.back() - fall.walker) > 1e-9) walkers.push_back(fall.walker);
  }
  ASSERT_GE(walkers.size(), 10u);
  EXPECT_TRUE(std::is_sorted(walkers.begin(), walkers.end()));
  for (const double walker : walkers) {
    for (const CutWhere cut : {CutWhere::near_anchor, CutWhere::far_anchor, CutWhere::beside_nearer, CutWhere::beside_farther,
                               CutWhere::halfway_near, CutWhere::halfway_far, CutWhere::connector}) {
      const std::size_t times = count(asked, [&](const AskedFall& fall) {
        return fall.walker == walker && fall.cut == cut && fall.what.kind == FallKind::main_failure;
      });
      EXPECT_EQ(times, cut == CutWhere::connector ? 4u : 2u);  // two strengths of tapes, two connectors
    }
    for (const RingRun ring : {RingRun::runs, RingRun::caught_between_tapes}) {
      for (const StepOff off : {StepOff::sideways, StepOff::backwards, StepOff::from_sitting}) {
        EXPECT_EQ(count(asked, [&](const AskedFall& fall) {
          return fall.walker == walker && fall.what.kind == FallKind::leash_fall && fall.what.ring == ring &&
                 fall.what.step_off == off && fall.cut == CutWhere::nowhere && fall.what.tape_strength == kTapesHold;
        }), 1u);
      }
    }
  }
  expect_each_once(asked);
}

TEST(FirstRound, PutsWalkersFromEdgeToEdgeAndWhereTheZonesEnd) {
  Rig rig = plain_rig();
  rig.near_anchor.edge = 2.0;
  rig.far_anchor.edge = 3.0;
  const auto ends = [](const std::vector<AskedFall>& asked) { return std::pair{asked.front().walker, asked.back().walker}; };
  const std::vector<AskedFall> asked = first_round(moving(rig));
  EXPECT_NEAR(ends(asked).first, 2.0, 1e-9);
  EXPECT_NEAR(ends(asked).second, 47.0, 1e-9);
  for (const double zone_end : {4.0, 46.0}) {  // zones of 4 m
    EXPECT_GT(count(asked, [&](const AskedFall& fall) { return std::abs(fall.walker - zone_end) < 0.06 && !in_anchor_zone(rig, fall.walker); }), 0u);
  }
  rig.near_anchor.edge.reset();
  rig.far_anchor.edge.reset();
  EXPECT_NEAR(ends(first_round(moving(rig))).first, 2.0, 1e-9);  // half a zone
  rig.near_anchor.edge = rig.far_anchor.edge = 24.0;  // which leaves next to nothing
  const std::vector<AskedFall> covered = first_round(moving(rig));
  EXPECT_EQ(count(covered, [](const AskedFall& fall) { return fall.walker < 4.0; }), 0u);
  EXPECT_GT(count(covered, [](const AskedFall& fall) { return std::abs(fall.walker - 5.0) < 1e-9; }), 0u);
}

TEST(TapeStrengths, AreHoldingAndWhatTheRigStates) {
  Rig rig = plain_rig();
  EXPECT_EQ(tape_strengths(rig), (std::vector<double>{kTapesHold, 0.0}));
  rig.backup.tape_strength = 350.0;
  EXPECT_EQ(tape_strengths(rig), (std::vector<double>{kTapesHold, 350.0}));
  rig.backup.joint = Joint::ring;
  EXPECT_EQ(tape_strengths(rig), (std::vector<double>{kTapesHold}));
}

// ---- A fall on a mesh

TEST(CaseOnAMesh, PutsWalkerAndCutWhereTheyWereAskedForOnBothMeshes) {
  for (const MotionMesh& mesh : {kSearchMesh, kToldMesh}) {
    const MovingRig rig = moving(jointed_rig(), mesh);
    for (const AskedFall& asked : first_round(rig)) {
      const FallCase what = case_on(rig, asked);
      const double at = rig.rest[what.walker].x;
      EXPECT_NEAR(at, asked.walker, 0.5 * mesh.main_bar);
      EXPECT_EQ(what.cut.has_value(), asked.cut != CutWhere::nowhere);
      if (!what.cut) continue;
      const CutPlace cut = cut_place(rig, *what.cut);
      switch (asked.cut) {
        case CutWhere::nowhere: break;
        case CutWhere::near_anchor: EXPECT_EQ(*what.cut, 0u); break;
        case CutWhere::far_anchor: EXPECT_EQ(*what.cut, rig.line.main_nodes - 2); break;
        case CutWhere::connector: EXPECT_EQ(cut.words, asked.connector == 0 ? "soft link" : "steel ring"); break;
        case CutWhere::beside_nearer: EXPECT_EQ(*what.cut + 1, what.walker); break;
        case CutWhere::beside_farther: EXPECT_EQ(*what.cut, what.walker); break;
        case CutWhere::halfway_near: EXPECT_NEAR(cut.along, 0.5 * at, mesh.main_bar); break;
        case CutWhere::halfway_far: EXPECT_NEAR(cut.along, 0.5 * (at + 50.0), mesh.main_bar); break;
      }
    }
  }
}

TEST(CaseOnAMesh, KeepsWhatElseWasAsked) {
  const MovingRig rig = moving(plain_rig());
  AskedFall asked;
  asked.what = {.kind = FallKind::leash_fall, .walker = 999, .posture = Posture::sitting, .cut = 999, .tape_strength = 12.0,
                .step_off = StepOff::from_sitting, .ring = RingRun::caught_between_tapes};
  asked.walker = 20.0;
  const FallCase what = case_on(rig, asked);
  EXPECT_EQ(what.kind, FallKind::leash_fall);
  EXPECT_EQ(what.posture, Posture::sitting);
  EXPECT_EQ(what.tape_strength, 12.0);
  EXPECT_EQ(what.step_off, StepOff::from_sitting);
  EXPECT_EQ(what.ring, RingRun::caught_between_tapes);
  EXPECT_FALSE(what.cut);
  EXPECT_EQ(what.walker, rig.node_near(20.0));
}

// ---- Second round and the worst

// A result that is the worse, the nearer its walker is to a place; by another measure elsewhere.
std::vector<SearchedFall> judged(const MovingRig& rig, double worst_body, double worst_fall) {
  std::vector<SearchedFall> searched;
  for (const AskedFall& asked : first_round(rig)) {
    FallResult result;
    result.what = asked.what;
    result.body = 5000.0 - 100.0 * std::abs(asked.walker - worst_body) - 10.0 * double(asked.cut);
    result.fall = 8.0 - 0.1 * std::abs(asked.walker - worst_fall);
    searched.push_back({asked, {std::move(result), {}}});
  }
  return searched;
}

TEST(SecondRound, LooksAroundTheWorstAndAtOtherPostures) {
  const MovingRig rig = moving(plain_rig());
  const double apart = 46.0 / 9.0, worst = 2.0 + 4.0 * apart;  // edges 2 m from the anchors
  const std::vector<SearchedFall> first = judged(rig, worst, worst);
  const std::vector<AskedFall> second = second_round(rig, first);
  expect_each_once(second);
  for (const double aside : {-0.5, -0.25, 0.25, 0.5}) {
    EXPECT_GE(count(second, [&](const AskedFall& fall) { return std::abs(fall.walker - worst - aside * apart) < 1e-9; }), 3u) << aside;
  }
  for (const Posture posture : {Posture::sitting, Posture::hanging}) {
    EXPECT_GE(count(second, [&](const AskedFall& fall) {
      return fall.what.kind == FallKind::main_failure && fall.what.posture == posture && std::abs(fall.walker - worst) < 1e-9;
    }), 2u);
  }
  // Nothing that is computed already.
  for (const SearchedFall& done : first) {
    EXPECT_EQ(count(second, [&](const AskedFall& fall) { return same_fall(fall, done.asked); }), 0u);
  }
}

TEST(SecondRound, StaysBetweenTheEdges) {
  const MovingRig rig = moving(plain_rig());
  for (const AskedFall& fall : second_round(rig, judged(rig, 2.0, 48.0))) {
    EXPECT_GE(fall.walker, 2.0);
    EXPECT_LE(fall.walker, 48.0);
  }
}

TEST(Badness, LeavesHeightsOfWalkersInTheAnchorZonesOut) {
  FallResult result;
  result.fall = 9.0;
  result.body = 4000.0;
  result.in_anchor_zone = true;
  EXPECT_EQ(badness(result, FallMeasure::body), 4000.0);
  EXPECT_LT(badness(result, FallMeasure::fall), 0.0);
  EXPECT_LT(badness(result, FallMeasure::clear_height), 0.0);
}

TEST(WorstOf, HoldsTheWorstOfEachKindAndStrengthOnce) {
  const MovingRig rig = moving(plain_rig());
  std::vector<SearchedFall> searched = judged(rig, 12.0, 30.0);
  const std::vector<AskedFall> worst = worst_of(searched);
  expect_each_once(worst);
  for (const FallMeasure measure : {FallMeasure::body, FallMeasure::fall}) {
    for (const FallKind kind : {FallKind::main_failure, FallKind::leash_fall}) {
      const SearchedFall* most = nullptr;
      for (const SearchedFall& fall : searched) {
        if (fall.asked.what.kind != kind) continue;
        if (!most || badness(*fall.outcome.result, measure) > badness(*most->outcome.result, measure)) most = &fall;
      }
      EXPECT_EQ(count(worst, [&](const AskedFall& fall) { return same_fall(fall, most->asked); }), 1u);
    }
  }
}

TEST(WorstOf, TellsOfWalkersWhoAreLostButMeasuresNothingOfTheirs) {
  const MovingRig rig = moving(plain_rig());
  std::vector<SearchedFall> searched = judged(rig, 12.0, 30.0);
  searched[2].outcome.result->lost = true;
  searched[2].outcome.result->body = 9e9;
  EXPECT_EQ(badness(*searched[2].outcome.result, FallMeasure::body), -std::numeric_limits<double>::infinity());
  const std::vector<AskedFall> worst = worst_of(searched);
  EXPECT_EQ(count(worst, [&](const AskedFall& fall) { return same_fall(fall, searched[2].asked); }), 1u);
  expect_each_once(worst);
}

TEST(WorstOf, SkipsWhatWasNotComputed) {
  const MovingRig rig = moving(plain_rig());
  std::vector<SearchedFall> searched = judged(rig, 12.0, 30.0);
  for (SearchedFall& fall : searched) fall.outcome = {std::nullopt, "did not close"};
  EXPECT_TRUE(worst_of(searched).empty());
  EXPECT_TRUE(second_round(rig, searched).empty());
}

TEST(Badness, IsTheGreaterTheWorse) {
  FallResult result;
  result.near = {3e3, 0.0, -4e3};
  result.far = {-5e3, 12e3, 0.0};
  result.backup = 6e3;
  EXPECT_NEAR(badness(result, FallMeasure::near), 5e3, 1e-9);
  EXPECT_NEAR(badness(result, FallMeasure::far), 13e3, 1e-9);
  EXPECT_EQ(badness(result, FallMeasure::backup), 6e3);
  EXPECT_EQ(badness(result, FallMeasure::clearance), -std::numeric_limits<double>::infinity());
  FallResult lower = result;
  result.clearance = 3.0, lower.clearance = -1.0, result.wall = 2.0, lower.wall = 0.5;
  EXPECT_GT(badness(lower, FallMeasure::clearance), badness(result, FallMeasure::clearance));
  EXPECT_GT(badness(lower, FallMeasure::wall), badness(result, FallMeasure::wall));
}

TEST(SearchWords, NameConnectorsOnlyWhereThereAreSome) {
  const auto says = [](const Rig& rig, const char* words) {
    for (const std::string& line : search_words(moving(rig), UnitSystem::metric)) {
      if (line.find(words) != std::string::npos) return true;
    }
    return false;
  };
  EXPECT_TRUE(says(jointed_rig(), "at each connector"));
  EXPECT_FALSE(says(plain_rig(), "connector"));
  EXPECT_TRUE(says(plain_rig(), "12 places"));
}

}  // namespace
}  // namespace spanloom
