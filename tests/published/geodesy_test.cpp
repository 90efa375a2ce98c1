// Positions to metres against published geodesics and constants of WGS84.
#include <gtest/gtest.h>

#include <GeographicLib/Geodesic.hpp>

#include <array>
#include <cmath>
#include <numbers>

#include "files/survey_geodesy.h"

namespace spanloom {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;
// WGS84: NIMA TR8350.2 (3rd ed., 2000), table 3.1.
constexpr double kA = 6378137.0, kF = 1.0 / 298.257223563;

// Earth-centred coordinates by the closed formula. Source: NIMA TR8350.2, eq. 4-14.
std::array<double, 3> earth_centred(const GeoPoint& p) {
  const double e2 = kF * (2.0 - kF), s = std::sin(p.latitude * kDegree), c = std::cos(p.latitude * kDegree);
  const double n = kA / std::sqrt(1.0 - e2 * s * s);
  return {(n + p.height) * c * std::cos(p.longitude * kDegree), (n + p.height) * c * std::sin(p.longitude * kDegree),
          (n * (1.0 - e2) + p.height) * s};
}

TEST(Wgs84, HasThePublishedAxisAndFlattening) {
  EXPECT_EQ(GeographicLib::Geodesic::WGS84().EquatorialRadius(), kA);
  EXPECT_NEAR(GeographicLib::Geodesic::WGS84().Flattening() * 298.257223563, 1.0, 1e-15);
}

TEST(Geodesic, IsTheDirectExampleOfKarney) {
  // Karney 2013, J. Geodesy 87, table 2: phi1 = 40, alpha1 = 30, s12 = 10 000 km. Half a unit of the last printed
  // digit.
  double latitude = 0.0, longitude = 0.0, azimuth = 0.0;
  GeographicLib::Geodesic::WGS84().Direct(40.0, 0.0, 30.0, 1e7, latitude, longitude, azimuth);
  EXPECT_NEAR(latitude, 41.79331020506, 5e-12);
  EXPECT_NEAR(longitude, 137.84490004377, 5e-12);
  EXPECT_NEAR(azimuth, 149.09016931807, 5e-12);
}

TEST(Geodesic, GoesBackTheDirectExampleOfKarney) {
  const Geodesic g = geodesic({40.0, 0.0, 0.0}, {41.79331020506, 137.84490004377, 0.0});
  EXPECT_NEAR(g.length, 1e7, 2e-6);  // the printed 1e-11 deg are 1.1 um
  EXPECT_NEAR(g.azimuth, 30.0, 2e-11);
}

TEST(Geodesic, IsTheShortExampleOfKarney) {
  // Karney 2013, table 3: phi1 = -30.12345, phi2 = -30.12344, lambda12 = 0.00005.
  const Geodesic g = geodesic({-30.12345, 0.0, 0.0}, {-30.12344, 0.00005, 0.0});
  EXPECT_NEAR(g.length, 4.944208, 5e-7);
}

TEST(Geodesic, FollowsTheEquatorAndTheMeridian) {
  // Along the equator a x lambda; the quarter meridian of WGS84 is 10 001 965.729 m (from memory).
  EXPECT_NEAR(geodesic({0.0, 10.0, 0.0}, {0.0, 11.0, 0.0}).length, kA * kDegree, 1e-8);
  EXPECT_NEAR(geodesic({0.0, 0.0, 0.0}, {90.0, 0.0, 0.0}).length, 10001965.729, 5e-4);
}

TEST(EastNorthUp, IsTheTurnedDifferenceOfEarthCentredPlaces) {
  const GeoPoint near{47.3, 11.2, 1800.0}, far{47.3006, 11.2009, 1795.0};
  const auto a = earth_centred(near), b = earth_centred(far);
  const double x = b[0] - a[0], y = b[1] - a[1], z = b[2] - a[2];
  const double sp = std::sin(near.latitude * kDegree), cp = std::cos(near.latitude * kDegree);
  const double sl = std::sin(near.longitude * kDegree), cl = std::cos(near.longitude * kDegree);
  const Vec3 found = east_north_up(near, far);
  // Rounding of 6.4e6 m: 1e-9 each.
  EXPECT_NEAR(found.x, -sl * x + cl * y, 1e-8);
  EXPECT_NEAR(found.y, -sp * cl * x - sp * sl * y + cp * z, 1e-8);
  EXPECT_NEAR(found.z, cp * cl * x + cp * sl * y + sp * z, 1e-8);
}

TEST(EastNorthUp, AgreesWithTheLiftedGeodesicOverAGap) {
  for (const double latitude : {-60.0, -10.0, 0.0, 47.3, 80.0}) {
    for (const double turn : {0.0, 37.0, 90.0, 200.0}) {
      const GeoPoint near{latitude, -20.0, 1500.0};
      GeoPoint far{0.0, 0.0, 1500.0};
      GeographicLib::Geodesic::WGS84().Direct(near.latitude, near.longitude, turn, 62.0, far.latitude, far.longitude);
      const Vec3 p = east_north_up(near, far);
      const double lifted = lifted_geodesic(near, far), gap = std::hypot(p.x, p.y);
      EXPECT_NEAR(geodesic(near, far).length, 62.0, 2e-8);
      // 62 m x 1500 m / R is 14.6 mm: that lifting is there, and agrees to what an arc differs from its chord and the
      // near end's frame from the middle's, parts of d^3 / R^2.
      EXPECT_GT(lifted - 62.0, 0.0145);
      EXPECT_NEAR(gap, lifted, 1e-7) << latitude << " deg, towards " << turn;
      // The earth falls off by d^2 / 2R below the straight frame: 0.3 mm.
      EXPECT_NEAR(p.z, -62.0 * 62.0 / (2.0 * 6.37e6), 0.01 * 3.1e-4);
    }
  }
}

TEST(Coordinate, IsReadInDegreesMinutesAndSecondsToo) {
  EXPECT_NEAR(std::get<double>(parse_coordinate("45:07:24.4 N", Axis::latitude)), 45.0 + 7.0 / 60.0 + 24.4 / 3600.0,
              1e-13);
  EXPECT_EQ(std::get<double>(parse_coordinate("20.5 W", Axis::longitude)), -20.5);
  EXPECT_EQ(std::get<double>(parse_coordinate("-20.5 deg", Axis::longitude)), -20.5);
  EXPECT_EQ(std::get<double>(parse_coordinate(" S 10.25 ", Axis::latitude)), -10.25);
}

}  // namespace
}  // namespace spanloom
