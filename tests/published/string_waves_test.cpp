// Waves and blows on taut strings, and a line that is cut, against published and closed-form values. Source beside
// each; "own" marks numbers computed for the purpose by a program that shares nothing with the engine. Where beads are
// known to differ from the string, the order of the difference is shown and then used to take it off.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>
#include <vector>

#include "motion/motion.h"
#include "support/chain_line.h"
#include "support/motion_checks.h"

namespace spanloom {
namespace {

// ---- Taut strings

constexpr double kPi = std::numbers::pi;
const StringSpec kString{.tension = 5e3, .mass_per_length = 0.06, .span = 100.0, .axial_stiffness = 150e3, .bars = 400};
double wave_speed(const StringSpec& s) { return std::sqrt(s.tension / s.mass_per_length); }

constexpr double kPluck = 0.01;  // sideways, where gravity does not act [m]; tension rises by 1e-6 of itself

// Moves a node steadily.
Moved at_velocity(std::size_t node, const Vec3& velocity) {
  return {node, [=](double time) { return time * velocity; }, [=](double) { return velocity; }};
}

// Place of the middle over that at the start, of a string let go from a triangle, after a share of L / c.
double plucked_middle(std::size_t bars, double share) {
  StringSpec spec = kString;
  spec.bars = bars;
  AtRest string = taut_string(spec);
  for (std::size_t i = 0; i <= bars; ++i) {
    string.places[i].y = kPluck * 2.0 * double(std::min(i, bars - i)) / double(bars);
  }
  Motion motion(string.line, string.places, {}, {.scheme = Scheme::fourth_order});
  run(motion, share * spec.span / wave_speed(spec));
  expect_closed(motion, 2.0 * spec.tension * kPluck * kPluck / spec.span, 1e-4);
  return motion.place(bars / 2).y / kPluck;
}

TEST(PluckedString, FallsAsDAlembertFound) {
  // h0 (1 - 2 c t / L) until t = L / c (d'Alembert 1747; any textbook). Beads ripple behind the kinks by bars^-1.5,
  // from the closed form of the bead chain, x int J0 - x J1; twice that is allowed.
  for (const double share : {0.25, 0.5, 0.75}) {
    EXPECT_NEAR(plucked_middle(400, share), 1.0 - 2.0 * share, 2.0 * std::pow(400.0, -1.5)) << share;
  }
}

TEST(PluckedString, IsInvertedAfterTheTimeOfOneSpan) {
  // The same: first inverted at t = L / c. Beads round the corner that stands there over a length of bars^(1/3) of
  // them, so it is missing bars^(-2/3) of its height; what is left is the ripple, 4e-4.
  double error[3];
  for (std::size_t i = 0; i < 3; ++i) error[i] = plucked_middle(std::size_t(100) << i, 1.0) + 1.0;
  EXPECT_NEAR(error[0] / error[1], std::pow(2.0, 2.0 / 3.0), 0.05);
  EXPECT_NEAR(error[1] / error[2], std::pow(2.0, 2.0 / 3.0), 0.05);
  EXPECT_NEAR(extrapolated(error[1], error[2], 2.0 / 3.0), 0.0, 8e-4);
}

TEST(PluckedString, MovesAsBeadsOnAString) {
  // The same string as beads, mode by mode: w_k = 2 (c / a) sin(k pi / 2 N) (Lagrange; Rayleigh, Theory of Sound, from
  // memory). No mesh error is left; what is left is that tension rises with the
  // pluck by up to 1e-6 of itself.
  const std::size_t bars = 200;
  for (const double share : {0.25, 1.0, 1.75}) {
    const double n = double(bars), time = share * kString.span / wave_speed(kString);
    double sum = 0.0;
    for (std::size_t k = 1; k < bars; k += 2) {
      double part = 0.0;
      for (std::size_t j = 1; j < bars; ++j) {
        part += 2.0 * double(std::min(j, bars - j)) / n * std::sin(kPi * double(j * k) / n);
      }
      const double w = 2.0 * wave_speed(kString) * n / kString.span * std::sin(0.5 * kPi * double(k) / n);
      sum += 2.0 / n * part * std::sin(0.5 * kPi * double(k)) * std::cos(w * time);
    }
    EXPECT_NEAR(plucked_middle(bars, share), sum, 2e-6) << share;
  }
}

TEST(TautString, CarriesAPulseThereAndBackInTheTimeOfTwoSpans) {
  // 2 L sqrt(mu / T), any handbook; L 100 m, mu 0.06 kg/m; nine decimals printed. The middle of a pulse goes at the
  // speed of the longest waves, which beads do not slow, so there is no mesh error to take off.
  const double tensions[] = {1e3, 2e3, 5e3, 10e3}, printed[] = {1.549193338, 1.095445115, 0.692820323, 0.489897949};
  for (std::size_t row = 0; row < 4; ++row) {
    StringSpec spec = kString;
    spec.tension = tensions[row];
    AtRest string = taut_string(spec);
    const double speed = wave_speed(spec), from = 30.0, width = 2.0, height = 1e-4;
    for (Vec3& at : string.places) at.y = height * std::exp(-std::pow((at.x - from) / width, 2));
    string.places.front().y = string.places.back().y = 0.0;
    Motion motion(string.line, string.places);
    for (std::size_t i = 1; i < spec.bars; ++i) {
      const Vec3& at = string.places[i];
      motion.set_velocity(i, {0.0, 2.0 * speed * (at.x - from) / (width * width) * at.y, 0.0});
    }
    const double energy = motion.ledger().kinetic;
    run(motion, 2.0 * spec.span / speed);
    double area = 0.0, moment = 0.0;
    for (std::size_t i = 0; i <= spec.bars; ++i) {
      area += motion.place(i).y;
      moment += motion.place(i).y * motion.place(i).x;
    }
    EXPECT_NEAR(2.0 * spec.span / speed - (moment / area - from) / speed, printed[row], 1e-8) << spec.tension;
    expect_closed(motion, energy, 1e-6);
  }
}

// ---- Blows on a taut string

TEST(BlowAcrossAString, IsResistedAsBothHalvesResist) {
  // 2 v sqrt(T mu) = 173.205 N for v 5 m/s, T 5 kN, mu 0.06 kg/m, before waves return (textbook impedance sqrt(T mu)
  // on either side). It is the limit of slow blows: a kink of slope v / c lengthens the string, and what exceeds the
  // formula goes as v^2: 0.24 % at 5 m/s. Taken over the later half of the time, after the ripple of the start.
  const auto excess = [](double speed) {
    AtRest string = taut_string(kString);
    const std::size_t middle = kString.bars / 2;
    string.line.held[middle] = 1;
    Drive drive;
    drive.moved.push_back(at_velocity(middle, {0.0, speed, 0.0}));
    Motion motion(string.line, string.places, std::move(drive));
    run(motion, 0.08);
    const double before = motion.ledger().put_in;
    run(motion, 0.08);
    expect_closed(motion, motion.ledger().put_in, 1e-5);
    const double force = (motion.ledger().put_in - before) / (0.08 * speed);
    return force / (2.0 * speed * std::sqrt(kString.tension * kString.mass_per_length)) - 1.0;
  };
  const double fast = excess(5.0), slow = excess(2.5);
  EXPECT_NEAR(173.20508076 * (1.0 + fast), 173.205, 0.003 * 173.205);
  EXPECT_NEAR(fast / slow, 4.0, 0.05);
  EXPECT_NEAR((1.0 + extrapolated(fast, slow, 2.0)) * 173.20508076, 173.20508076, 1e-5 * 173.205);
}

TEST(BlowAcrossAString, SlowsAMassInTheTimeStated) {
  // Own from the same impedance: 80 kg loses speed as exp(-t / 2.30940108 s) before waves return. 0.5 m/s, so that the
  // kink's lengthening is 2e-5; the ripple of a bead chain of 400 bars leaves 2e-4.
  AtRest string = taut_string(kString);
  const std::size_t middle = kString.bars / 2;
  string.line.mass[middle] += 80.0;
  Motion motion(string.line, string.places);
  motion.set_velocity(middle, {0.0, 0.5, 0.0});
  run(motion, 0.04);
  const double before = motion.velocity(middle).y;
  run(motion, 0.12);
  EXPECT_NEAR(0.12 / std::log(before / motion.velocity(middle).y), 2.30940108, 5e-4);
  expect_closed(motion, 0.5 * 80.0 * 0.25, 1e-4);
}

TEST(BlowAlongAString, IsResistedByItsStiffness) {
  // v sqrt(EA mu) = 300 N on top of the tension for v 5 m/s, EA 60 kN, mu 0.06 kg/m unstretched (textbook impedance).
  // The sag of 0.16 m gives way by 2e-5.
  const double stretched = 1.0 + 5e3 / 60e3, speed = 5.0;
  const AtRest string = taut_string({5e3, 0.06 / stretched, 100.0 * stretched, 60e3, 400});
  Drive drive;
  drive.moved.push_back(at_velocity(400, {speed, 0.0, 0.0}));
  Motion motion(string.line, string.places, std::move(drive));
  run(motion, 0.05);
  const double before = motion.ledger().put_in;
  run(motion, 0.045);
  EXPECT_NEAR((motion.ledger().put_in - before) / (0.045 * speed) - 5e3, 300.0, 0.01);
  expect_closed(motion, motion.ledger().put_in, 1e-5);
}

// ---- Snapping back after a cut

// 100 m unstretched, EA 60 kN, 0.06 kg/m, cut at the far end under 5 kN: the exact speed of what has let go is
// T / sqrt(EA mu) = 83.333 m/s behind a front of sqrt(EA / mu) = 1000 m/s in unstretched metres (wave equation;
// speed proportional to strain: Tjavaras et al. 1998, J. Sound Vib. 213, 709).
AtRest cut_line(std::size_t bars) {
  const double bar = 100.0 / double(bars), bead = 0.06 * bar;
  AtRest line = beaded_string(60e3, bar * (1.0 + 5e3 / 60e3), std::vector<double>(bars - 1, bead));
  line.line.length.assign(bars, bar);
  line.line.mass.front() = line.line.mass.back() = 0.5 * bead;
  line.line.held.back() = 0;
  return line;
}

struct Snap { double front = 0.0, speed = 0.0; };  // [m/s]

// The front is where a third of the speed is reached: the integral of an Airy function up to its front is 1/3.
Snap snap_of(std::size_t bars) {
  const AtRest line = cut_line(bars);
  Motion motion(line.line, line.places);
  const std::size_t early = bars - bars / 5, late = bars / 5;
  const auto arrival = [&](std::size_t node) {
    const double level = -83.3333333 / 3.0;
    double before = 0.0, now = motion.velocity(node).x;
    while (now > level && motion.time() < 0.1) {
      run(motion, 5e-6);
      before = std::exchange(now, motion.velocity(node).x);
    }
    return motion.time() - 5e-6 * (now - level) / (now - before);
  };
  const double from = arrival(early), to = arrival(late);
  double momentum = 0.0;
  for (std::size_t i = 0; i <= bars; ++i) momentum -= line.line.mass[i] * motion.velocity(i).x;
  expect_closed(motion, 0.5 * 5e3 * 5e3 / 60e3 * 80.0, 3e-6);
  return {60.0 / (to - from), momentum / (0.06 * 80.0)};
}

TEST(LineThatIsCut, SnapsBackAtTheSpeedOfItsStrain) {
  // Own. Beads blur the front over bars^(1/3) of them, so both near their limits as bars^(-2/3).
  const Snap snap[] = {snap_of(200), snap_of(400), snap_of(800)};
  EXPECT_NEAR((1000.0 - snap[0].front) / (1000.0 - snap[1].front), std::pow(2.0, 2.0 / 3.0), 0.05);
  EXPECT_NEAR(extrapolated(snap[1].front, snap[2].front, 2.0 / 3.0), 1000.0, 0.02);
  EXPECT_NEAR(extrapolated(snap[1].speed, snap[2].speed, 2.0 / 3.0), 83.3333333, 0.003);
}

TEST(LineThatIsCut, ThrowsItsLastBeadTooFast) {
  // Own, by a Runge-Kutta chain of springs that only pull, half a bead at the free end: the tip flies at 1.47030 of the
  // speed of the wave, whatever the mesh. A lumped chain without loss is not to be asked for the speed of a loose end.
  for (const std::size_t bars : {100, 200}) {
    const AtRest line = cut_line(bars);
    const double short_step = 0.01 * longest_steady_step(line.line, Scheme::leapfrog);
    Motion motion(line.line, line.places, {}, {.step = short_step});
    run(motion, 5e-3);
    EXPECT_NEAR(-motion.velocity(bars).x / 83.3333333, 1.47030, 3e-5) << bars;
  }
}

}  // namespace
}  // namespace spanloom
