// Records made from formulas, with seeded noise.
#pragma once

#include <cmath>
#include <cstdint>
#include <functional>
#include <numbers>
#include <random>
#include <vector>

#include "base/constants.h"
#include "base/random_stream.h"
#include "base/vec3.h"
#include "gauge/acceleration.h"

namespace spanloom::fixture {

inline double even(std::mt19937_64& random) { return (double(random() >> 11) + 0.5) * 0x1p-53; }   // between 0 and 1

/// Box & Muller (1958); the same with every standard library.
inline double normal(std::mt19937_64& random) {
  const double radius = std::sqrt(-2.0 * std::log(even(random)));
  return radius * std::cos(2.0 * std::numbers::pi * even(random));
}

inline double wave(double frequency, double time) { return std::sin(2.0 * std::numbers::pi * frequency * time); }

/// @param jitter  of the time between rows, either way, as a share of it [-]
inline std::vector<double> times_of(double duration, double rate, double jitter, std::mt19937_64& random) {
  std::vector<double> out;
  for (double t = 0.0; t < duration; t += (1.0 + jitter * (2.0 * even(random) - 1.0)) / rate) out.push_back(t);
  return out;
}

/// Turned by any angles: what the axes of a device see of a direction of the line.
inline Vec3 turned(Vec3 a, double one, double two, double three) {
  const auto turn = [](double& p, double& q, double angle) {
    const double was = p;
    p = std::cos(angle) * was - std::sin(angle) * q;
    q = std::sin(angle) * was + std::cos(angle) * q;
  };
  turn(a.x, a.y, one), turn(a.y, a.z, two), turn(a.z, a.x, three);
  return a;
}

/// @param felt  acceleration at a time in the line's frame, without gravity [m/s2]
inline std::vector<Acceleration> record_of(const std::vector<double>& times, const std::function<Vec3(double)>& felt, double noise,
                                           std::mt19937_64& random, const Vec3& angles = {}, double gravity = kGravity) {
  std::vector<Acceleration> out;
  for (const double t : times) {
    const Vec3 a = turned(felt(t) + Vec3{0.0, 0.0, gravity}, angles.x, angles.y, angles.z);
    out.push_back({t, a.x + noise * normal(random), a.y + noise * normal(random), a.z + noise * normal(random)});
  }
  return out;
}

}  // namespace spanloom::fixture
