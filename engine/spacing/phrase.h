// A layout as a crew can call it out: a phrase of bays in arm spans and a phrase of slacks, repeated.
#pragma once

#include <optional>
#include <vector>

#include "rig/rig.h"
#include "spacing/layout.h"

namespace spanloom {

/// From which ends the phrase is counted.
enum class CountedFrom { near_anchor, both_anchors };

struct Phrase {
  std::vector<int> half_arm_spans;        ///< of bays, repeated
  std::vector<double> slack;              ///< of bays, repeated [-]
  CountedFrom from = CountedFrom::near_anchor;

  auto operator<=>(const Phrase&) const = default;
};

/// The bays and slacks that a phrase makes on a main: close bays of the rig kept where they are, the last bay (the middle
/// one when counted from both anchors) takes the rest.
/// @param main_length  natural length of webbing and connectors between the end hardware [m]
/// @return empty where no tape fits, or where the rig asks for close bays and the phrase counts from both anchors
std::optional<Layout> layout_of(const Phrase& phrase, const Spacing& spacing, double main_length);

}  // namespace spanloom
