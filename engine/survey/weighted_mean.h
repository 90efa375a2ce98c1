// Several readings of one thing by one device.
#pragma once

#include <cstddef>
#include <vector>

namespace spanloom {

/// A reading farther than this from the middle one is an outlier [sd of the reading]. Common practice, no source.
inline constexpr double kOutlierSds = 3.0;

/// Readings of one device share the error of the device, so the mean of many is never taken to be better than this part
/// of one of them [-]: more than four readings bring nothing. Our choice, no source.
inline constexpr double kLeastPartOfOne = 0.5;

/// A reading and how well it was read.
struct Reading {
  double value = 0.0;                   ///< [any]
  double sd = 0.0;                      ///< standard deviation [as value], > 0
};

struct WeightedMean {
  double value = 0.0;                   ///< [as the readings]
  double sd = 0.0;                      ///< standard deviation [as the readings], > 0
  std::vector<std::size_t> left_out;    ///< outliers, counted from 0
  /// The readings lie farther apart than kOutlierSds and no majority says which of them are wrong: all count, and `sd`
  /// is widened to what they show.
  bool torn = false;
};

/// Mean of readings weighted with 1 / sd^2, its sd widened by the Birge ratio where they scatter more than their sd.
/// With three readings or more those beyond kOutlierSds from the median are left out, if more than half remain.
/// @throws InputError "readings" if there is none, or one is not finite, or its sd is not > 0
/// Source: weighted mean and its sd, Bevington & Robinson, Data Reduction (3rd ed. 2003), eqs. 4.17 and 4.19, from
/// memory; Birge 1932, Phys. Rev. 40, 207.
WeightedMean weighted_mean(const std::vector<Reading>& readings);

/// The same for readings that were all read equally well. @param sd  of one of them
WeightedMean mean_of(const std::vector<double>& values, double sd);

}  // namespace spanloom
