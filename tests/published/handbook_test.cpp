// Worked examples and problems from text books and lecture sheets, each with its source. Where a number is
// not printed there, the closed form's value is used and said to be our own.
#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "support/cable_line.h"

namespace spanloom {
namespace {

// A cable through given points with given loads on the inner ones. Statics alone give its horizontal force
// and so every tension; each piece is cut so short that it spans its two points at that tension. The
// solver, which knows none of this, must find points and forces again.
struct Funicular {
  double h, near_v, far_v;     // what the anchors hold, bars only [N]
  std::vector<Vec3> node;
};

Funicular funicular(const std::vector<Vec3>& point, const std::vector<double>& load, double h) {
  const double axial_stiffness = 100.0 * h;
  LineBuilder builder({StretchCurve::linear(axial_stiffness)}, {point.front(), point.back(), {}, {}});
  for (std::size_t i = 0; i + 1 < point.size(); ++i) {
    const Vec3 piece = point[i + 1] - point[i];
    const double tension = h * norm(piece) / piece.x;
    builder.add_bay(std::vector<BarSpec>{{norm(piece) / (1.0 + tension / axial_stiffness), 0, 0.0}}, {});
  }
  Line line = std::move(builder).build();
  for (std::size_t i = 0; i < load.size(); ++i) line.tape_load[i + 1].z -= load[i];
  EquilibriumSolver solver(line);
  const Equilibrium state = solver.solve();
  EXPECT_TRUE(state.certified());
  return {state.near_force.front().x, -state.near_force.front().z, state.far_force[2 * line.bays() - 2].z, state.tapes};
}

// A load q per horizontal metre hangs a cable in a parabola; on its chords at equal steps of x the nodal
// loads q dx hang them exactly on the parabola too, whatever the step.
Funicular parabola(double span, double sag, double load_per_length) {
  constexpr int kSteps = 64;
  const double step = span / kSteps;
  std::vector<Vec3> point;
  for (int i = 0; i <= kSteps; ++i) {
    const double x = step * i;
    point.push_back({x, 0.0, -4.0 * sag * x * (span - x) / (span * span)});
  }
  return funicular(point, std::vector<double>(kSteps - 1, load_per_length * step),
                   load_per_length * span * span / (8.0 * sag));
}

TEST(ParabolicCable, MatchesTheLectureSheet) {
  // "6.6 Cables: Uniform Loads", example 1: 10 kip/ft, 3800 ft, sag 400 ft: T0 45125, Tmax 49000 kip.
  // In kip and feet throughout. Tolerance: the printed digits; own values to 1e-6.
  const Funicular ours = parabola(3800.0, 400.0, 10.0);
  EXPECT_NEAR(ours.h, 45125.0, 0.5);
  const double end = std::hypot(ours.h, ours.near_v + 0.5 * 10.0 * 3800.0 / 64.0);
  EXPECT_NEAR(end, 49000.0, 50.0);
  EXPECT_NEAR(end / 48961.8793, 1.0, 1e-6);
}

TEST(ParabolicCable, MatchesTheEngineersTable) {
  // Engineering ToolBox, "Cable loads": 4 kN/m, 30 m, sag 10 m: H 45, T 75 kN. (Its length, a two-term
  // series, is 4 % out at this sag and is not used.)
  const Funicular ours = parabola(30.0, 10.0, 4.0);
  EXPECT_NEAR(ours.h, 45.0, 1e-7);
  EXPECT_NEAR(std::hypot(ours.h, ours.near_v + 0.5 * 4.0 * 30.0 / 64.0), 75.0, 1e-7);
}

TEST(WeightlessCable, MatchesTheWorkedExampleWithThreeLoads) {
  // Tayal, Engineering Mechanics, ex. 10.1: 400, 600, 400 N at 2, 4, 6 m of 8 m; left end A 2 m below the
  // right end B, the middle point D 2.25 m below B. X_B 1600 N, Y_B 1100 N, y_E 1.375 m, T_CA 1627.882060,
  // T_max 1941.648784 N. Tolerance: the last printed digits.
  const std::vector<Vec3> point{{0.0, 0.0, -2.0}, {2.0, 0.0, -2.375}, {4.0, 0.0, -2.25}, {6.0, 0.0, -1.375}, {8.0, 0.0, 0.0}};
  const Funicular ours = funicular(point, {400.0, 600.0, 400.0}, 1600.0);
  EXPECT_NEAR(ours.h / 1600.0, 1.0, 1e-9);
  EXPECT_NEAR(ours.far_v / 1100.0, 1.0, 1e-9);
  EXPECT_NEAR(ours.node[3].z, -1.375, 1e-9);
  EXPECT_NEAR(ours.node[2].z, -2.25, 1e-9);
  EXPECT_NEAR(std::hypot(ours.h, ours.near_v) / 1627.882060, 1.0, 1e-9);
  EXPECT_NEAR(std::hypot(ours.h, ours.far_v) / 1941.648784, 1.0, 1e-9);
}

TEST(WeightlessCable, CarriesOneLoadAsStaticsSay) {
  // H = W a b / (L d), statics. 80 kg, 100 m, drop 5 m. Tolerance: the last printed digits of
  // our own values.
  const double weight = 80.0 * kGravity;
  const Funicular middle = funicular({{}, {50.0, 0.0, -5.0}, {100.0, 0.0, 0.0}}, {weight}, weight * 5.0);
  EXPECT_NEAR(middle.h, 3922.66, 1e-5);
  EXPECT_NEAR(std::hypot(middle.h, middle.near_v), 3942.22451, 1e-5);
  const Funicular quarter = funicular({{}, {25.0, 0.0, -5.0}, {100.0, 0.0, 0.0}}, {weight}, weight * 3.75);
  EXPECT_NEAR(quarter.h, 2941.995, 1e-5);
  EXPECT_NEAR(std::hypot(quarter.h, quarter.near_v), 3000.257983, 1e-5);
  EXPECT_NEAR(std::hypot(quarter.h, quarter.far_v), 2948.525519, 1e-5);
}

// A chain that does not stretch between level ends: tension at the ends, at the bottom, and sag.
struct Chain { double end, bottom, sag; };
Chain chain(double length, double span, double weight_per_length) {
  // EA so that the strain stays near 1e-9; 8192 bars a half: mesh error below 1e-7.
  const double stiff = 1e9 * weight_per_length * length;
  const HungCable ours = hang_cable({stiff, weight_per_length, {0.5 * length, 0.5 * length}, {0.0}}, span, 0.0, {32, 256});
  EXPECT_TRUE(ours.certified);
  return {norm(ours.near), ours.near.x, -ours.joint[0].z};
}

TEST(Chain, MatchesBeerAndJohnston7_127) {
  // Statement: 25 ft of chain, 30 lb, sag 10 ft. Own answer (inextensible catenary): span 12.35938825 ft,
  // greatest tension 15.375 lb. In feet and pounds-force throughout.
  const Chain ours = chain(25.0, 12.35938825, 30.0 / 25.0);
  EXPECT_NEAR(ours.sag, 10.0, 1e-6);
  EXPECT_NEAR(ours.end, 15.375, 2e-6);
}

TEST(Chain, MatchesBeerAndJohnston7_136) {
  // Statement: 90 m of wire, 60 m apart, greatest tension 300 N. Own answer: sag 30.1579957 m, 56.5708126 kg
  // at g 9.81.
  const Chain ours = chain(90.0, 60.0, 56.5708126 * 9.81 / 90.0);
  EXPECT_NEAR(ours.sag, 30.1579957, 3e-6);
  EXPECT_NEAR(ours.end, 300.0, 3e-5);
}

TEST(Chain, MatchesBeerAndJohnston7_130) {
  // Statement: 50 m tape of 1.6 kg held with 60 N at each end, how far apart are they? Own answer
  // 49.85607089 m (g 9.81), so at that span the tension must be 60 N. The last printed digit of the span
  // moves the tension by 3e-6 N, the strain of 4e-9 by twenty times its share.
  const Chain ours = chain(50.0, 49.85607089, 1.6 * 9.81 / 50.0);
  EXPECT_NEAR(ours.end, 60.0, 1e-4);
}

TEST(Chain, MatchesHibbelersCatenary) {
  // 5 N/m, 20 m, sag 6 m (from memory): 45.9 N, 24.2 m long, 75.9 N at the ends. Own digits beyond.
  const Chain ours = chain(24.18820347, 20.0, 5.0);
  EXPECT_NEAR(ours.sag, 6.0, 1e-6);
  EXPECT_NEAR(ours.bottom, 45.9, 0.05);
  EXPECT_NEAR(ours.end, 75.9, 0.05);
  EXPECT_NEAR(ours.bottom / 45.94470701, 1.0, 2e-7);
  EXPECT_NEAR(ours.end / 75.94470701, 1.0, 2e-7);
}

// Point load P at x = n l of a sagging cable, l 100 m, 1 N/m, H 1250 N (sag about 1 m). Irvine 1981,
// ch. 2 (cubic for the parabola; number of the equation not confirmed). p = P / (w l); h = dH / H.
struct OnParabola {
  double lambda_squared, axial_stiffness, n, p, h_cubic, h_exact, added_parabola, added_exact;
};
void PrintTo(const OnParabola& c, std::ostream* out) { *out << "lambda^2 " << c.lambda_squared << ", n " << c.n; }
const OnParabola kOnParabola[] = {
    {1, 195468.75, 0.5, 0.5, 0.0754218728, 0.0751435391, 0.859735282, 0.860563127},
    {10, 1954687.5, 0.5, 2, 1.20766697, 1.20712423, 1.26483435, 1.2656666},
    {10, 1954687.5, 0.25, 1, 0.544280068, 0.543809186, 0.706989601, 0.706682898},
    {100, 19546875, 0.5, 2, 2.45714245, 2.45702045, 0.446281161, 0.446305342},
};

class PointLoadOnParabola : public testing::TestWithParam<OnParabola> {
 protected:
  static constexpr double kSpan = 100.0, kH = 1250.0;
  struct Added { double h, sag; };
  static Added added() {
    const OnParabola& c = GetParam();
    const double length = length_at(kSpan, kH, c.axial_stiffness);
    const ElasticCable bare{c.axial_stiffness, 1.0, {length}, {}};
    const ElasticCable::Ends ends{kH, 0.5 * length};
    double low = 0.0, high = length;  // where along the cable x = n l is before loading
    for (int i = 0; i < 100; ++i) {
      const double middle = 0.5 * (low + high);
      (bare.along(middle, ends).x > c.n * kSpan ? high : low) = middle;
    }
    ElasticCable cable{c.axial_stiffness, 1.0, {low, length - low}, {0.0}};
    const HungCable before = hang_cable(cable, kSpan, 0.0, {8, 128});
    cable.load = {c.p * kSpan};
    const HungCable after = hang_cable(cable, kSpan, 0.0, {8, 128});
    EXPECT_TRUE(before.certified && after.certified);
    return {after.near.x / before.near.x - 1.0, before.joint[0].z - after.joint[0].z};
  }
  // Length of the cable that hangs at H over the span, by bisection on the closed form.
  static double length_at(double span, double h, double axial_stiffness) {
    double low = 0.9 * span, high = 1.1 * span;
    for (int i = 0; i < 100; ++i) {
      const double middle = 0.5 * (low + high);
      const ElasticCable cable{axial_stiffness, 1.0, {middle}, {}};
      (cable.along(middle, {h, 0.5 * middle}).x > span ? high : low) = middle;
    }
    return low;
  }
};

TEST_P(PointLoadOnParabola, MatchesTheExactCatenary) {
  // Mesh error of 2048 bars: below 2e-6 relative.
  const Added ours = added();
  EXPECT_NEAR(ours.h / GetParam().h_exact, 1.0, 2e-6);
  EXPECT_NEAR(ours.sag / GetParam().added_exact, 1.0, 2e-6);
}

TEST_P(PointLoadOnParabola, ComesNearIrvinesCubic) {
  // The parabola is the catenary's limit: at d/l = 0.01 they part by 4e-3 and 1e-3 at most, by the
  // exact column of the table.
  const Added ours = added();
  EXPECT_NEAR(ours.h / GetParam().h_cubic, 1.0, 4e-3);
  EXPECT_NEAR(ours.sag / GetParam().added_parabola, 1.0, 1.1e-3);
}
INSTANTIATE_TEST_SUITE_P(Cases, PointLoadOnParabola, testing::ValuesIn(kOnParabola),
                         [](const auto& info) { return "Row" + std::to_string(info.index + 1); });

}  // namespace
}  // namespace spanloom
