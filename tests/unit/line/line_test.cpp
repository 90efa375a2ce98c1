#include "line/line.h"

#include <gtest/gtest.h>

#include <limits>
#include <utility>

#include "base/constants.h"
#include "base/input_error.h"

namespace spanloom {
namespace {

LineBuilder builder() {
  const Vec3 far{10.0, 0.0, 0.0};
  return LineBuilder({StretchCurve::linear(1e5), StretchCurve::linear(2e5)}, {{}, far, {}, far});
}

TEST(LineBuilder, GivesEachEndHalfABar) {
  LineBuilder b = builder();
  b.add_bay(std::vector<BarSpec>{{2.0, 0, 0.1}, {3.0, 0, 0.2, 0.7}}, std::vector<BarSpec>{{6.0, 1, 0.5}}, 0.25);
  b.add_bay(std::vector<BarSpec>{{5.0, 0, 0.1}}, {}, 0.25);
  const Line line = std::move(b).build();
  const double g = kGravity;
  EXPECT_DOUBLE_EQ(line.load[0].z, -(0.1 + 0.3) * g);              // between the bars of main
  EXPECT_DOUBLE_EQ(line.load[1].z, 0.0);                           // a chain's last bar ends at a tape
  EXPECT_DOUBLE_EQ(line.tape_load[0].z, -(0.1 + 1.5) * g);
  EXPECT_DOUBLE_EQ(line.tape_load[1].z, -(0.3 + 0.7 + 1.5 + 0.25 + 0.25) * g);
  EXPECT_DOUBLE_EQ(line.end_loads.main_near.z, -0.1 * g);
  EXPECT_DOUBLE_EQ(line.end_loads.backup_near.z, -1.5 * g);
  EXPECT_DOUBLE_EQ(line.end_loads.main_far.z, -0.25 * g);
}

TEST(LineBuilder, WeighsWhatItsBarsWeigh) {
  LineBuilder b = builder();
  for (int k = 0; k < 5; ++k) {
    b.add_bay(std::vector<BarSpec>(7, {0.3, 0, 0.06, 0.01}), std::vector<BarSpec>(4, {0.55, 1, 0.05}), 0.02);
  }
  const Line line = std::move(b).build();
  double load = 0.0;
  for (const Vec3& l : line.load) load += l.z;
  for (const Vec3& l : line.tape_load) load += l.z;
  EXPECT_NEAR(-load / kGravity, 5 * (7 * (0.3 * 0.06 + 0.01) + 4 * 0.55 * 0.05 + 0.02), 1e-12);
}

TEST(LineBuilder, RefusesABarThatIsNone) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const BarSpec& bar : {BarSpec{0.0, 0, 0.1}, BarSpec{-1.0, 0, 0.1}, BarSpec{nan, 0, 0.1},
                             BarSpec{1.0, 0, -0.1}, BarSpec{1.0, 0, nan}}) {
    LineBuilder b = builder();
    EXPECT_THROW(b.add_bay(std::vector<BarSpec>{bar}, {}), InputError);
  }
}

TEST(LineBuilder, RefusesABayWithoutMain) {
  LineBuilder b = builder();
  EXPECT_THROW(b.add_bay({}, {}), InputError);
}

TEST(AddMainLoad, FindsTheNodeOfABar) {
  LineBuilder b = builder();
  for (int k = 0; k < 2; ++k) b.add_bay(std::vector<BarSpec>(3, {1.0, 0, 0.0}), {});
  Line line = std::move(b).build();
  add_main_load(line, {1, 0}, {0.0, 0.0, -1.0});
  add_main_load(line, {1, 3}, {0.0, 0.0, -2.0});
  add_main_load(line, {1, 2}, {0.0, 0.0, -3.0});
  EXPECT_EQ(line.tape_load[1].z, -1.0);
  EXPECT_EQ(line.tape_load[2].z, -2.0);
  EXPECT_EQ(line.load[4].z, -3.0);  // after the second bar of the second bay
}

}  // namespace
}  // namespace spanloom
