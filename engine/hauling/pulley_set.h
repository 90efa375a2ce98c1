// Pulley sets and bends: what the hand has to pull, and what it has to hold.
#pragma once

#include <vector>

namespace spanloom {

/// Where the rope that is pulled by hand leaves the set.
enum class RopeLeaves {
  moving_block,  ///< pulled the way the load moves: the rope turns over one sheave fewer than there are parts
  fixed_block    ///< pulled towards the load: one more sheave, as many as parts
};

/// One rope through two blocks, or such sets one behind the other, each pulling on the rope of the one before it.
struct PulleySet {
  /// Parts of rope that pull on the moving block, of each set, the one on the line first [-].
  std::vector<int> parts{5};
  RopeLeaves leaves = RopeLeaves::moving_block;  ///< the same of all sets
  double efficiency = 0.9;         ///< of one sheave: force behind it over force before it [-], in (0, 1]
};

inline constexpr int kMostParts = 20;
inline constexpr std::size_t kMostSets = 4;

/// @throws InputError "parts", "efficiency" where the set cannot be
void check(const PulleySet& set);

/// Load over hand force while the load is pulled in [-]. Each sheave hands on its share of the force, so that n parts
/// carry hand (1 + eta + ... + eta^(n-1)) = hand (1 - eta^n) / (1 - eta) where the rope leaves the moving block, and
/// eta times that where it leaves the fixed one. Sets one behind the other: the product. Source: the block and tackle
/// of machine handbooks (Machinery's Handbook, simple machines), from memory.
/// @throws InputError as check()
double hauling_ratio(const PulleySet& set);

/// Load over hand force while the load is let out or held against running out [-]: friction now helps the hand, and
/// eta in hauling_ratio() becomes 1 / eta. @throws InputError as check()
double holding_ratio(const PulleySet& set);

/// Rope through the hand over travel of the load [-]: the product of the parts.
int rope_ratio(const PulleySet& set);

/// Force on the pulling side of a bend over the force on the other, slipping: exp(friction angle) [-].
/// Euler 1769, Eytelwein 1808, the capstan equation.
/// @param friction  of the webbing on the bend [-], in [0, 1]
/// @param angle     that the webbing turns through in all [rad], in [0, 8 pi]
/// @throws InputError "bend_friction", "bend"
double capstan_ratio(double friction, double angle);

}  // namespace spanloom
