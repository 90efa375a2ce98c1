#include "sheet/work_list.h"

#include <gtest/gtest.h>

#include <numeric>

#include "plan_fixture.h"

namespace spanloom {
namespace {

TEST(TapeRows, FollowTheLineOnceAndEndAtTheFarEnd) {
  const auto [rig, plan, checks] = fixture::sample();
  const std::vector<TapeRow> rows = tape_rows(rig, plan);
  ASSERT_EQ(rows.size(), plan.bays.size());
  double running = 0.0;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    running += rows[i].main_piece;
    EXPECT_EQ(rows[i].bay, static_cast<int>(i) + 1);
    EXPECT_NEAR(rows[i].running, running, 1e-9);
    EXPECT_NEAR(rows[i].running_arm_spans * 1.75, running, 1e-9);
    EXPECT_NEAR(rows[i].extra_backup, rows[i].backup_piece - rows[i].main_piece, 1e-12);
    EXPECT_EQ(rows[i].far_end, i + 1 == rows.size());
  }
}

TEST(TapeRows, MarkTheBaysOfTheCloseRunOnly) {
  auto [rig, plan, checks] = fixture::sample();
  plan.bays[5].close = true;
  int close = 0;
  for (const TapeRow& row : tape_rows(rig, plan)) close += row.close;
  EXPECT_EQ(close, 1);
  EXPECT_TRUE(tape_rows(rig, plan)[5].close);
}

TEST(CutPieces, AddUpToTheMainWithItsConnectors) {
  const auto [rig, plan, checks] = fixture::sample({.main_segments = 3});
  double length = 0.0;
  for (const CutPiece& piece : cut_pieces(rig, plan)) {
    if (!piece.on_backup) length += piece.natural_length;
  }
  EXPECT_NEAR(length + 2 * 0.06, plan.standing.main_natural_length, 1e-9);
}

TEST(CutPieces, HaveTailsAtTheEndsOnly) {
  const auto [rig, plan, checks] = fixture::sample({.main_segments = 3});
  const std::vector<CutPiece> pieces = cut_pieces(rig, plan);
  EXPECT_EQ(pieces[0].near_tail, 2.0);
  EXPECT_EQ(pieces[0].far_tail, 0.0);
  EXPECT_EQ(pieces[1].near_tail + pieces[1].far_tail, 0.0);
  EXPECT_EQ(pieces[2].far_tail, 2.0);
  EXPECT_NEAR(pieces[2].cut_length(), pieces[2].natural_length + 2.0, 1e-12);
  EXPECT_TRUE(pieces[2].solved);
  EXPECT_FALSE(pieces[0].solved);
}

// At hand-tight the webbing still to pull through lies beyond what stands later.
TEST(CutPieces, ReachHandTightThoughTheTailOfTheFileIsShort) {
  auto [rig, plan, checks] = fixture::sample({.main_segments = 3});
  rig.main.run.near_tail = Stated<double>::given(2.0);
  plan.pull_through->length = 4.38;
  const std::vector<CutPiece> pieces = cut_pieces(rig, plan);
  EXPECT_NEAR(pieces[0].cut_length(), pieces[0].natural_length + 4.38 + kGripLength, 1e-12);
  EXPECT_NEAR(pieces[0].mass(), pieces[0].cut_length() * 0.061, 1e-12);
  EXPECT_EQ(pieces[0].near_tail, 2.0);
  for (std::size_t i = 1; i < pieces.size(); ++i) EXPECT_EQ(pieces[i].pull_room, 0.0) << i;
  const std::string words = pull_room_words(rig, plan, UnitSystem::metric);
  for (const char* part : {"near tail of 2.00 m is shorter than the 5.38 m it takes, 4.38 m to pull through", "cut 3.38 m longer",
                           "5.38 m of unloaded webbing"}) {
    EXPECT_NE(words.find(part), std::string::npos) << part << ": " << words;
  }
}

TEST(CutPieces, LeaveATailThatIsLongEnoughAsItIs) {
  auto [rig, plan, checks] = fixture::sample();
  plan.pull_through->length = 4.38;
  rig.main.run.near_tail = Stated<double>::given(4.38 + kGripLength);
  EXPECT_EQ(cut_pieces(rig, plan)[0].pull_room, 0.0);
  EXPECT_NE(pull_room_words(rig, plan, UnitSystem::metric).find("The near tail of 5.38 m is enough"), std::string::npos);
  plan.pull_through.reset();
  rig.main.run.near_tail.value = 0.0;
  EXPECT_EQ(cut_pieces(rig, plan)[0].pull_room, 0.0);
  EXPECT_EQ(pull_room_words(rig, plan, UnitSystem::metric), "");
}

TEST(LinkPlaces, StandWhereTheSegmentBeforeThemEnds) {
  const auto [rig, plan, checks] = fixture::sample({.main_segments = 3});
  const std::vector<LinkPlace> places = link_places(rig, plan);
  ASSERT_EQ(places.size(), 4u);  // near hardware, two connectors, far hardware; none on the backup
  const std::vector<double>& lengths = plan.rigged.main_segment_length;
  EXPECT_NEAR(places[1].starts, lengths[0], 1e-12);
  EXPECT_NEAR(places[2].starts, lengths[0] + 0.06 + lengths[1], 1e-12);
  EXPECT_TRUE(places[3].at_far_end);
}

TEST(LinkPlaces, AreCalledAfterWhereTheySitWithoutAName) {
  LinkPlace place;
  EXPECT_EQ(link_name(place), "connector");
  place.at_anchor = true;
  EXPECT_EQ(link_name(place), "end hardware");
  place.link.name = "shackle";
  EXPECT_EQ(link_name(place), "shackle");
}

TEST(GearList, CountsEqualLinksTogetherAndAddsUpItsMasses) {
  const auto [rig, plan, checks] = fixture::sample({.main_segments = 3});
  const GearList gear = gear_list(rig, plan);
  double mass = 0.0;
  int soft_links = 0, tapes = 0;
  for (const GearItem& item : gear.items) {
    mass += item.mass.value_or(0.0);
    if (item.what == "soft link") soft_links = item.count;
    if (item.what == "tapes") tapes = item.count;
  }
  EXPECT_EQ(soft_links, 2);
  EXPECT_EQ(tapes, 17);
  EXPECT_NEAR(gear.mass, mass, 1e-12);
  EXPECT_FALSE(gear.some_unweighed);
}

TEST(GearList, SaysWhenSomethingHasNoMass) {
  auto [rig, plan, checks] = fixture::sample();
  rig.backup.tape_mass = 0.0;
  EXPECT_TRUE(gear_list(rig, plan).some_unweighed);
}

}  // namespace
}  // namespace spanloom
