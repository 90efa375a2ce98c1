#include "motion/shake_film.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/input_error.h"
#include "support/short_rig.h"

namespace spanloom {
namespace {

constexpr MotionMesh kCoarse{0.9, 0.45, 4};   // these tests ask whether, not how much
constexpr Shake kShake{1.6, 0.35, ShakeDirection::sideways, 0.1};

struct Filmed {
  MovingRig rig;
  ShakeResult result;
};

const Filmed& filmed() {
  static const Filmed it = [] {
    MovingRig rig = *moving_rig(short_rig(), kCoarse).rig;
    ShakeResult result = *run_shake(rig, kShake).result;
    return Filmed{std::move(rig), std::move(result)};
  }();
  return it;
}

ShakeFilm film_of(const ShakeFilmOptions& options) { return *film_shake(filmed().rig, filmed().result, options).film; }

double mean_square(const ShakeFilm& film, double from, double to) {
  double sum = 0.0;
  int count = 0;
  for (std::size_t i = 0; i < film.swing.size(); ++i) {
    const double time = double(i) * film.frame_every;
    if (time < from || time > to) continue;
    sum += film.swing[i] * film.swing[i];
    ++count;
  }
  return sum / count;
}

TEST(ShakeFilm, StartsAtRestAndHasFramesAtEqualTimes) {
  const ShakeFilm film = film_of({.duration = 0.5, .frame_every = 0.05});
  ASSERT_EQ(film.places.size(), 11u);
  EXPECT_EQ(film.swing.size(), 11u);
  EXPECT_EQ(film.energy.size(), 11u);
  EXPECT_EQ(film.at_place.size(), 11u);
  EXPECT_EQ(film.swing[0], 0.0);
  EXPECT_EQ(film.energy[0], 0.0);
  for (const auto& frame : film.places) EXPECT_EQ(frame.size(), filmed().rig.line.nodes());
  for (std::size_t i = 0; i < film.places[0].size(); ++i) EXPECT_EQ(film.places[0][i].y, filmed().rig.rest[i].y);
}

// What one sees is what the numbers say: the return taken from the frames. Frames are sixty a second and the windows a
// quarter of a second: a frame more or less in one of them is a fifteenth of it, half of that in the root.
TEST(ShakeFilm, ShowsTheReturnThatTheShakeHas) {
  const ShakeFilm film = film_of({.duration = 3.0});
  const ShakeResult& result = filmed().result;
  const double early = mean_square(film, 0.0, 1.0 / kShake.frequency);
  const double late = mean_square(film, result.late_from(), result.late_from() + result.late_window());
  EXPECT_NEAR(std::sqrt(late / early), result.returned, 0.05 * result.returned);
}

TEST(ShakeFilm, FirstSwingOfThePlaceIsTheOneAskedFor) {
  const ShakeFilm film = film_of({.duration = 1.0 / kShake.frequency, .frame_every = 1.0 / 240.0});
  double greatest = 0.0;
  for (const double at : film.at_place) greatest = std::max(greatest, std::abs(at));
  EXPECT_NEAR(greatest, filmed().result.swing, 0.01 * filmed().result.swing);
}

TEST(ShakeFilm, LedgerClosesAtTheEnd) {
  const ShakeFilm film = film_of({.duration = 2.0});
  EXPECT_LE(std::abs(film.ledger.drift), kGreatestDrift * film.ledger.put_in);
}

TEST(ShakeFilm, StopsWhenAsked) {
  const ShakeFilm film = film_of({.duration = 2.0, .keep_on = [](std::size_t done, std::size_t) { return done < 5; }});
  EXPECT_TRUE(film.stopped);
  EXPECT_EQ(film.places.size(), 5u);
}

TEST(ShakeFilm, RefusesTimesThatAreNone) {
  for (const ShakeFilmOptions& options : {ShakeFilmOptions{.duration = 0.0}, ShakeFilmOptions{.frame_every = -1.0},
                                          ShakeFilmOptions{.duration = NAN}, ShakeFilmOptions{.duration = 1e6}}) {
    EXPECT_THROW((void)film_shake(filmed().rig, filmed().result, options), InputError);
  }
}

}  // namespace
}  // namespace spanloom
