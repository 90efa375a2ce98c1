// What a search found by rules is planned like any rig: nothing is shown whose plan breaks a limit that the rig as it is
// keeps.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "checks/verdicts.h"
#include "spacing/layout.h"
#include "statics/plan.h"

namespace spanloom {

struct ProvenLayout {
  Rig rig;                                ///< taped so
  Plan plan;
  std::vector<Check> checks;
  /// Sentences of the checks that say stop where the rig as it is does not, or is further from stopping; empty: it keeps all.
  std::vector<std::string> breaks;
};

/// Empty where the rig taped so has no plan.
/// @param own                   checks of the rig as it is
/// @param most_backup_tension   with a walker, while the main holds [N]; counts where it is less than the rig's limit
[[nodiscard]] std::optional<ProvenLayout> prove_layout(const Rig& rig, const Layout& layout, const std::vector<Check>& own,
                                                       double most_backup_tension, UnitSystem units);

}  // namespace spanloom
