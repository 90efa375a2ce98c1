// R100 as CalculiX sees it, built from its numbers alone and not from the engine's line.
#pragma once

#include "peers/calculix.h"

namespace spanloom::peers {

/// Nodes of the model: main 0..400 from the near anchor, tape k at node 10 k.
struct R100Model {
  PeerModel model;                                  ///< two steps: standing, walker at mid span
  std::vector<std::vector<std::size_t>> loop_node;  ///< of each bay, from tape to tape
};

/// Main drawn straight, loops as arcs of equal chords at a few newtons: CalculiX's best start.
R100Model r100_model(std::size_t times = 1);

/// R100 standing, with the walker, and then let go: the history of the mid point.
/// @param alpha  loss of the method: with none, steps of half a millisecond do not converge once loops snap
PeerModel r100_release(double duration, double step, double alpha = 0.0);

/// Three bars under their weight, two steps: what it costs to start CalculiX at all.
PeerModel trivial_model();

}  // namespace spanloom::peers
