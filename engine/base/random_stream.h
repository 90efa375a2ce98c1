// Streams of draws that are the same wherever and in whatever order they are used.
#pragma once

#include <cstdint>
#include <random>

namespace spanloom {

/// The stream of one population, crew or the like. std::mt19937_64 is the same with every standard library; its
/// distributions are not.
inline std::mt19937_64 random_stream(std::uint64_t seed, std::uint64_t number) {
  constexpr std::uint64_t kSpread = 0x9E3779B97F4A7C15u;   // 2^64 over the golden ratio: neighbouring seeds lie far apart
  return std::mt19937_64(seed * kSpread + number);
}

}  // namespace spanloom
