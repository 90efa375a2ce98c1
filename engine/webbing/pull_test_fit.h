// A rising curve through noisy readings of a loading.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "webbing/stretch_curve.h"

namespace spanloom {

/// One reading, or the mean of several.
struct FitReading {
  double stretch;       ///< [-]
  double tension;       ///< [N]
  double weight = 1.0;  ///< how many readings it stands for [-], > 0
};

/// The rising values nearest to readings in the sense of least squares: isotonic regression by pooling adjacent
/// violators. Source: Barlow, Bartholomew, Bremner & Brunk, Statistical Inference under Order Restrictions (1972),
/// ch. 1; Robertson, Wright & Dykstra, Order Restricted Statistical Inference (1988), sect. 1.2.
/// @param readings  in order of stretch @return the tension for each of them, never falling [N]
std::vector<double> isotonic_tensions(std::span<const FitReading> readings);

/// Readings in order of stretch, at most `bins` of them: those between the same two of so many even steps become
/// their mean.
std::vector<FitReading> binned(std::vector<FitReading> readings, std::size_t bins);

/// Points rounded to five figures of the last one, so that a file can hold them as they are.
std::vector<CurvePoint> in_five_figures(std::vector<CurvePoint> points);

/// A curve of few points, its tensions those of least squares, and how it was come by.
struct RisingFit {
  std::vector<CurvePoint> points;  ///< at most kMostCurvePoints, strictly rising, without the origin
  double from_isotonic_rms = 0.0;  ///< curve against the isotonic regression [N]
};

inline constexpr std::size_t kMostCurvePoints = 12;

/// The StretchCurve of at most kMostCurvePoints points that lies nearest to readings. Points are added one by one, in the
/// middle of where the curve misses the isotonic regression most, until it is within 0.05 % of the greatest tension (rms),
/// or a point more does not take 1 % off the residual per degree of freedom.
/// @param readings  binned, in order of stretch, stretch > 0
/// @throws InputError where they are fewer than four, or no curve that rises lies near them
RisingFit fit_rising_curve(std::span<const FitReading> readings);

}  // namespace spanloom
