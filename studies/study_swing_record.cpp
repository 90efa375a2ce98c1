// Makes the invented record of an accelerometer of examples/practice-line/swing.csv: the full motion of the rig, struck
// sideways and upwards at the middle, as a tilted phone taped to the main would have written it down.
//
//   study_swing_record RIG.toml > swing.csv
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <random>
#include <stdexcept>
#include <utility>
#include <vector>

#include "base/constants.h"
#include "base/random_stream.h"
#include "files/rig_file.h"
#include "motion/motion.h"
#include "motion/moving_rig.h"

namespace spanloom {
namespace {

constexpr double kAt = 4.0;              // of the phone, from the near anchor [m]
constexpr double kDuration = 20.0;       // [s]
constexpr double kEvery = 0.02;          // between rows, about [s]
constexpr double kJitter = 0.004;        // of that, either way [s]
constexpr double kNoise = 0.05;          // standard deviation, each axis [m/s2]
constexpr double kFiner = 0.25;          // of the steady step: loops snap

struct Blow { double time, length, force; Vec3 direction; };   // [s], [s], greatest [N]

const std::vector<Blow>& blows() {
  static const std::vector<Blow> list = {{0.5, 0.1, 5.0, {0.0, 1.0, 0.0}}, {7.0, 0.1, 5.0, {0.0, 0.0, 1.0}},
                                         {13.5, 0.1, 5.0, {0.0, 1.0, 0.0}}};
  return list;
}

double force_of(const Blow& blow, double t) {
  const double share = (t - blow.time) / blow.length;
  return share > 0.0 && share < 1.0 ? blow.force * std::sin(std::numbers::pi * share) : 0.0;
}

// The same with every standard library; Box & Muller (1958).
double normal(std::mt19937_64& random) {
  const auto even = [&] { return (double(random() >> 11) + 0.5) * 0x1p-53; };
  const double radius = std::sqrt(-2.0 * std::log(even()));
  return radius * std::cos(2.0 * std::numbers::pi * even());
}

// Device axes in those of the line: turned about three axes, so that none of it lies along the line.
Vec3 as_device(Vec3 a) {
  const auto turn = [](double& one, double& other, double angle) {
    const double was = one;
    one = std::cos(angle) * was - std::sin(angle) * other;
    other = std::sin(angle) * was + std::cos(angle) * other;
  };
  turn(a.x, a.y, 0.6);
  turn(a.y, a.z, 0.9);
  turn(a.z, a.x, -0.4);
  return a;
}

void advance_to(Motion& motion, double time) {
  if (!motion.advance(time - motion.time())) throw std::runtime_error("the motion ran away");
}

void run(const char* file) {
  const Rig rig = read_rig_file(file).rig;
  const MovingOutcome outcome = moving_rig(rig);
  if (!outcome.rig) throw std::runtime_error(outcome.why);
  const MovingRig& line = *outcome.rig;
  Drive drive;
  for (const Blow& blow : blows()) {
    drive.pushes.push_back({line.node_near(0.5 * rig.site.gap), blow.direction, [&blow](double t) { return force_of(blow, t); }});
  }
  Motion motion(line.line, line.rest, std::move(drive), {Scheme::leapfrog, kFiner * steady_step(line.line, Scheme::leapfrog)});
  const std::size_t node = line.node_near(kAt);
  std::mt19937_64 random = random_stream(20, 4);
  std::printf("# Invented: the computed motion of the practice line, hit sideways at 0.5 s and 13.5 s and upwards at 7 s at its\n"
              "# middle, as a phone taped to the main at %.0f m would have written it down: tilted, gravity included, with\n"
              "# sensor noise and uneven times. Made by studies/study_swing_record.cpp.\n"
              "time [s],x [m/s2],y [m/s2],z [m/s2]\n", kAt);
  for (int row = 1; double(row) * kEvery < kDuration; ++row) {
    // Mean acceleration over a hundredth of a second, as a sensor's own filter gives.
    constexpr double kWindow = 0.01;     // [s]
    const double time = double(row) * kEvery + kJitter * (2.0 * double(random() >> 11) * 0x1p-53 - 1.0);
    advance_to(motion, time - 0.5 * kWindow);
    const Vec3 before = motion.velocity(node);
    advance_to(motion, time + 0.5 * kWindow);
    const Vec3 felt = (1.0 / kWindow) * (motion.velocity(node) - before) + Vec3{0.0, 0.0, kGravity};
    Vec3 read = as_device(felt);
    read += Vec3{kNoise * normal(random), kNoise * normal(random), kNoise * normal(random)};
    std::printf("%.4f,%.3f,%.3f,%.3f\n", time, read.x, read.y, read.z);
  }
  const EnergyLedger ledger = motion.ledger();
  std::fprintf(stderr, "energy put in %.3g J, drift %.2g J, standing round trip %.3f s\n", ledger.put_in, ledger.drift, line.round_trip);
}

}  // namespace
}  // namespace spanloom

int main(int argc, char** argv) {
  if (argc != 2) return 2;
  spanloom::run(argv[1]);
}
