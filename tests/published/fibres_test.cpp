// Yarn values of handbooks. Modulus and strength: Tension Technology International, "Synthetic fibre yarn properties",
// table 1. Stretch at break: Bigon, The Morrow Guide to Knots; that of HMPE, 3 to 4 %, from memory.
#include <gtest/gtest.h>

#include "base/input_error.h"
#include "webbing/fibres.h"

namespace spanloom {
namespace {

struct Published {
  const char* name;
  double modulus, strength;    // [N/tex]
  double density;              // relative to water
  double modulus_gpa, strength_gpa;
  double break_least, break_most;  // [-]
};

// Moduli and strengths in GPa are N/tex times the density, to the digits printed.
const Published kPublished[] = {
    {"nylon", 4.0, 0.84, 1.14, 4.56, 0.958, 0.19, 0.19},
    {"polyester", 10.0, 0.84, 1.38, 13.8, 1.159, 0.14, 0.14},
    {"hmpe", 124.0, 2.65, 0.97, 120.3, 2.57, 0.03, 0.04},
};

TEST(Fibres, AreThoseOfTheTable) {
  for (const Published& row : kPublished) {
    const Fibre& fibre = fibre_named(row.name);
    EXPECT_DOUBLE_EQ(fibre.modulus, row.modulus * 1e6) << row.name;
    EXPECT_DOUBLE_EQ(fibre.strength, row.strength * 1e6) << row.name;
    // N m/kg times kg/m3 is Pa.
    EXPECT_NEAR(fibre.modulus * row.density * 1e3 / 1e9, row.modulus_gpa, 0.05) << row.name;
    EXPECT_NEAR(fibre.strength * row.density * 1e3 / 1e9, row.strength_gpa, 0.005) << row.name;
    EXPECT_GE(fibre.break_stretch, row.break_least) << row.name;
    EXPECT_LE(fibre.break_stretch, row.break_most) << row.name;
  }
}

// N/tex x 1000 kN for a kilogram a metre: polyester of 60 g/m has an EA of 600 kN and breaks at 50.4 kN.
TEST(Fibres, GiveWebbingTheStiffnessAndStrengthOfItsMass) {
  const YarnWebbing polyester = yarn_webbing(fibre_named("polyester"), 0.060);
  EXPECT_NEAR(polyester.strength, 50.4e3, 1e-9 * 50.4e3);
  // The points are rounded to 1 N, the first slope rests on the first two of them: 2e-4.
  EXPECT_NEAR(polyester.curve.stiffness(1e-9), 600e3, 2e-4 * 600e3);
}

TEST(Fibres, RiseFromTheModulusToTheBreak) {
  for (const Fibre& fibre : fibres()) {
    const YarnWebbing webbing = yarn_webbing(fibre, 0.050);
    EXPECT_NEAR(webbing.curve.points().back().tension, webbing.strength, 1e-4 * webbing.strength) << fibre.name;
    EXPECT_NEAR(webbing.curve.points().back().stretch, fibre.break_stretch, 1e-4 * fibre.break_stretch) << fibre.name;
    EXPECT_NEAR(webbing.curve.stiffness(1e-9), 0.050 * fibre.modulus, 1e-3 * 0.050 * fibre.modulus) << fibre.name;
    for (int i = 1; i <= 100; ++i) EXPECT_GT(webbing.curve.stiffness(0.01 * i * fibre.break_stretch), 0.0) << fibre.name;
  }
}

TEST(Fibres, RefuseWhatIsNoFibreAndNoMass) {
  EXPECT_THROW(fibre_named("steel"), InputError);
  EXPECT_THROW(yarn_webbing(fibre_named("nylon"), 0.0), InputError);
}

}  // namespace
}  // namespace spanloom
