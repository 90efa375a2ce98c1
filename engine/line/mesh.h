// Cuts a rigged line into bars, with nodes where tapes, joints and walkers are.
#pragma once

#include <vector>

#include "line/line.h"
#include "rig/rig.h"
#include "rig/rigged.h"

namespace spanloom {

/// From here on a loop is long enough that its own swing is to be followed finely [m].
inline constexpr double kLongLoop = 1.2;

struct MeshOptions {
  int main_bars = 16;   ///< per bay, even [-]
  int loop_bars = 16;   ///< per bay [-]
  /// [m]; 0: as many bars as said above and a node at the middle of each bay, else as few as this allows
  double longest_main_bar = 0.0;
  double longest_loop_bar = 0.0;  ///< [m]; the same for loops
  /// Where longest_loop_bar rules: bars of a loop at the least [-], and of one that is not short (kLongLoop).
  int least_loop_bars = 3, least_long_loop_bars = 8;
};

/// A line with the way back to the rig it was cut from.
struct Mesh {
  Line line;
  std::vector<Piece> main_piece;       ///< anchor to anchor
  std::vector<Piece> backup_piece;
  std::vector<int> piece_of_bar;       ///< into main_piece or backup_piece, by chain
  std::vector<double> mass_per_length; ///< of each bar [kg/m]
  std::vector<double> drag_width;      ///< of each bar, across its flat face [m]
  std::vector<double> tape_s;          ///< bays + 1, natural coordinate from the near connector [m]
  std::vector<NodeAt> middle;          ///< halfway along the main of each bay, or the node next to it
  std::vector<double> middle_s;        ///< their natural coordinates [m]
  std::vector<NodeAt> asked;           ///< one for each asked place
};

/// Axial stiffness taken for shackles and other links: so stiff that their stretch does not show [N].
inline constexpr double kLinkStiffness = 2e7;

/// Cuts the line. Natural coordinates are those of Rigged; end hardware lies before 0 and after the end.
/// @param asked  places of the main that need a node, natural coordinate [m]
/// @throws InputError "places.walker[i]" if one lies beyond the main
Mesh cut_line(const Rig& rig, const Rigged& rigged, const MeshOptions& options,
              const std::vector<double>& asked = {});

/// Lengthens or shortens one chain: all its bars of one piece change in proportion, with their weight.
/// @param piece   index into main_piece or backup_piece; -1: all webbing of the chain
/// @param by      natural length to add [m]; what is left must be positive
void lengthen(Mesh& mesh, std::size_t chain, int piece, double by);

}  // namespace spanloom
