#include "motion/shake_film.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/input_error.h"
#include "support/short_rig.h"

namespace spanloom {
namespace {

constexpr MotionMesh kCoarse{0.9, 0.45, 4};   // these tests ask whether, not how much
constexpr Shake kShake{1.6, 0.35, ShakeDirection::sideways, 0.1};

const MovingRig& line() {
  static const MovingRig rig = *moving_rig(short_rig(), kCoarse).rig;
  return rig;
}

ShakeFilm film_of(const ShakeFilmOptions& options) { return *film_shake(line(), kShake, options).film; }

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

TEST(ShakeFilm, StartsAtRestAndHasFramesAtEqualTimesPastTheReturn) {
  const ShakeFilm film = film_of({.duration = 0.5, .frame_every = 0.05});
  const double end = film.result.late_from() + film.result.late_window();
  EXPECT_EQ(film.places.size(), std::size_t(end / 0.05 + 1e-9) + 1);
  EXPECT_EQ(film.swing.size(), film.places.size());
  EXPECT_EQ(film.energy.size(), film.places.size());
  EXPECT_EQ(film.at_place.size(), film.places.size());
  EXPECT_EQ(film.swing[0], 0.0);
  EXPECT_EQ(film.energy[0], 0.0);
  for (const auto& frame : film.places) EXPECT_EQ(frame.size(), line().line.nodes());
  for (std::size_t i = 0; i < film.places[0].size(); ++i) EXPECT_EQ(film.places[0][i].y, line().rest[i].y);
}

TEST(ShakeFilm, IsTheRunThatTheNumbersAreOf) {
  const ShakeResult told = *run_shake(line(), kShake).result;
  const ShakeFilm film = film_of({.duration = 3.0});
  EXPECT_EQ(film.result.returned, told.returned);
  EXPECT_EQ(film.result.force, told.force);
}

// What one sees is what the numbers say: the return taken from the frames. Frames are sixty a second and the windows a
// quarter of a second: a frame more or less in one of them is a fifteenth of it, half of that in the root.
TEST(ShakeFilm, ShowsTheReturnThatTheShakeHas) {
  const ShakeFilm film = film_of({.duration = 3.0});
  const ShakeResult& result = film.result;
  const double early = mean_square(film, 0.0, 1.0 / kShake.frequency);
  const double late = mean_square(film, result.late_from(), result.late_from() + result.late_window());
  EXPECT_NEAR(std::sqrt(late / early), result.returned, 0.05 * result.returned);
}

TEST(ShakeFilm, FirstSwingOfThePlaceIsTheOneAskedFor) {
  const ShakeFilm film = film_of({.duration = 1.0 / kShake.frequency, .frame_every = 1.0 / 240.0});
  double greatest = 0.0;
  for (const double at : film.at_place) greatest = std::max(greatest, std::abs(at));
  EXPECT_NEAR(greatest, film.result.swing, 0.01 * film.result.swing);
}

TEST(ShakeFilm, TellsHowFarItIs) {
  std::size_t last = 0, whole = 0;
  (void)film_of({.duration = 2.0, .progress = [&](std::size_t done, std::size_t all) { last = done, whole = all; }});
  EXPECT_EQ(whole, 121u);
  EXPECT_EQ(last, 121u);
}

TEST(ShakeFilm, RefusesTimesThatAreNone) {
  for (const ShakeFilmOptions& options : {ShakeFilmOptions{.duration = 0.0}, ShakeFilmOptions{.frame_every = -1.0},
                                          ShakeFilmOptions{.duration = NAN}, ShakeFilmOptions{.duration = 1e6}}) {
    EXPECT_THROW((void)film_shake(line(), kShake, options), InputError);
  }
}

}  // namespace
}  // namespace spanloom
