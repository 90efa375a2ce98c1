// Where the tapes go along the unloaded main.
#pragma once

#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "rig/rig.h"

namespace spanloom {

struct TapeLayout {
  std::vector<std::size_t> leftover_bays;  ///< bays, counted from 0, that took what was left over
  std::vector<std::size_t> close_bays;     ///< bays, counted from 0, of the stretch where tricks are done
  std::vector<double> at;           ///< interior tapes, natural length from the near connector [m]
  std::vector<std::string> notes;   ///< what was left over and which bay took it, in words
};

/// Where close bays lie: as many whole ones as come nearest to the asked length, about the asked centre.
struct CloseStretch {
  double start = 0.0, bay = 0.0;    ///< [m]
  double count = 0.0;               ///< of bays, whole, >= 1
  double end() const { return start + count * bay; }
};
CloseStretch close_stretch(const CloseBays& close, double arm_span);

/// Expands the spacing over a main of a known natural length.
/// Arm spans run from the near anchor; close bays are centred where asked, the bay before them takes
/// up what is left over; the last bay at the far anchor takes up the rest. Even bays keep their
/// length, rounded to the centimetre, and the two end bays share the rest. Beside given places close bays only say where
/// tricks are done.
/// @param units        of the notes
/// @param main_length  webbing and connectors between the end hardware [m], > 0
/// @throws InputError when no tape fits or a given one lies beyond the main
TapeLayout lay_out_tapes(const Spacing& spacing, double main_length, UnitSystem units = UnitSystem::metric);

}  // namespace spanloom
