// A line that stands, taped anew with the backup it has: a tape out, a tape moved, a tape more.
#pragma once

#include <cstddef>
#include <vector>

#include "rig/rig.h"
#include "statics/plan.h"

namespace spanloom {

/// Where the tapes are and how much backup hangs between them, with what sharing backup anew has to know.
/// The last three change with the first two; `rig_with()` needs only `bays` and `loops`.
struct Taping {
  std::vector<double> bays;           ///< natural length of main in each, end hardware not counted [m]
  std::vector<double> loops;          ///< natural length of each loop, end hardware included, as [backup] length counts [m]
  std::vector<double> standing;       ///< stretched length of main in each bay, end hardware included [m]
  std::vector<double> main_hardware;  ///< end hardware of the main in each bay, 0 but at the anchors [m]
  std::vector<double> loop_hardware;  ///< end hardware of the backup in each loop, 0 but at the anchors [m]
};

/// No bay is made shorter [m].
inline constexpr double kLeastBay = 0.15;

/// The taping of a planned rig. With rings: the loops as the rings let them out.
Taping taping_of(const Rig& rig, const Plan& plan);

// The backup keeps its length in each of the three. Each throws InputError "taping" unless there are as many of everything,
// two bays at the least, and "spacing.at" where the tape or the place cannot be: with the places that can.

/// Without one tape: its two bays become one, and so do the two pieces of backup beside it.
/// @param tape  from 1 at the near anchor to bays - 1
/// @throws InputError "spacing.at" also for the only tape
Taping take_out_tape(Taping taping, std::size_t tape);

/// With one tape elsewhere between its neighbours. What the two loops have more than the main standing over them is shared
/// out: slack (loop / standing main - 1) in the ratio that the two bays had, so the same in both if it was the same; the same
/// too where one of them had none. Moved back, the tape leaves the lengths as they were, unless
/// one of the two had no slack.
/// @param s  its natural length along the main from the near connector [m]
/// @throws InputError "spacing.at" where a bay would get shorter than kLeastBay, "backup.length" where a loop would have no
/// webbing beside its hardware
Taping move_tape(Taping taping, std::size_t tape, double s);

/// With one tape more; the loop is shared so that both parts have its slack.
/// @param s  natural length along the main from the near connector [m]
/// @throws InputError as move_tape()
Taping add_tape(Taping taping, double s);

/// The rig taped so: its spacing at given places, its backup in loops of given length, all else as it was, as with_layout().
/// @throws InputError as with_layout(), or "taping" where the numbers of bays and loops differ
Rig rig_with(const Rig& rig, const Taping& taping);

}  // namespace spanloom
