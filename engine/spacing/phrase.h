// A layout as a crew can call it out: a phrase of bays and a phrase of slacks, repeated.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "rig/rig.h"
#include "spacing/layout.h"

namespace spanloom {

/// From which ends the phrase is counted.
enum class CountedFrom { near_anchor, both_anchors };

/// What bays are whole numbers of.
enum class BayStep { half_arm_span, centimetre };
/// [m]
double length_of(BayStep step, const Spacing& spacing);

struct Phrase {
  std::vector<int> bays;                  ///< repeated [steps]
  std::vector<double> slack;              ///< of bays, repeated [-]
  CountedFrom from = CountedFrom::near_anchor;
  BayStep step = BayStep::half_arm_span;

  auto operator<=>(const Phrase&) const = default;
};

/// The bays and slacks that a phrase makes on a main: close bays of the rig kept where they are, the bays before them and
/// the last bay (the middle one or two when counted from both anchors) take the rest.
/// @param main_length  natural length of webbing and connectors between the end hardware [m]
/// @return empty where no tape fits
std::optional<Layout> layout_of(const Phrase& phrase, const Spacing& spacing, double main_length);

/// The same without figures at its end that the main is too short for.
Phrase without_unused(const Phrase& phrase, const Spacing& spacing, double main_length);

/// As it is called out: "1, 2, 1.5 arm spans, repeated from the near anchor".
std::string bays_in_words(const Phrase& phrase, UnitSystem units);
/// "1.2, 0.9 %, repeated from the near anchor".
std::string slacks_in_words(const Phrase& phrase);

}  // namespace spanloom
