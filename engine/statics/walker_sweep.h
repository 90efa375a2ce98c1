// A walker, or two, at places of the line, one after the other.
#pragma once

#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "line/mesh.h"
#include "statics/equilibrium.h"
#include "statics/force_ledger.h"
#include "statics/plan.h"

namespace spanloom {

/// Solves one walker place after another on one line. Each answer starts from the standing line.
class WalkerSweep {
 public:
  /// @param base      the loads without a walker: still air or wind
  /// @param standing  the certified line under `base`
  /// @param units     of the words the ledger gets
  /// @param joint     ring: the backup runs freely through its rings; taped: it does not
  /// @param places    still-air standing tapes and mesh, which give places their position on the gap axis
  WalkerSweep(const Rig& rig, const Mesh& mesh, Line base, Equilibrium standing, const Shape& places,
              ForceLedger& ledger, Joint joint, UnitSystem units = UnitSystem::metric);

  struct Place {
    NodeAt node;
    double s = 0.0;
    bool at_tape = false;
  };
  /// All tapes, the anchors among them, and the places of all bays, from the near anchor on: 2 bays + 1
  /// where no bay is longer than a tenth of the gap.
  std::vector<Place> all_places() const;
  /// The middle of every bay, and places between in long bays, so that no two places (tapes count) are
  /// further apart than a 20th of the gap or one bar of main.
  std::vector<Place> bay_places() const;
  bool is_middle(const Place& place) const;

  struct Answer {
    WalkerPlace place;
    double ankle_margin = 0.0;    ///< of its bay, taken at the foot [m]
    Shape shape;                  ///< of the line under the walker [m]
  };
  /// @param force  of the body on the main [N]
  /// @param words  what the ledger calls this state, "{}" standing for the position
  Answer solve(const Place& place, const Vec3& force, const std::string& words);

 private:
  std::vector<Place> outwards(std::size_t bay, int direction) const;
  WalkerPlace describe(const Place& place, const Equilibrium& at, const Line& line, const Shape& shape) const;

  const Rig& rig_;
  const Mesh& mesh_;
  Line base_;
  Equilibrium standing_;
  const Shape& places_;
  ForceLedger& ledger_;
  Joint joint_;
  UnitSystem units_;
  EquilibriumSolver solver_;
};

/// Loads on the anchors of a solved line.
AnchorLoad near_anchor_load(const Line& line, const Equilibrium& at);
AnchorLoad far_anchor_load(const Line& line, const Equilibrium& at);

}  // namespace spanloom
