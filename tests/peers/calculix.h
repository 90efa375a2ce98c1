// CalculiX as a peer: writes a line of bars as an input deck, runs ccx on it, reads what it found.
//
// How it must be driven. Its trusses (T3D2) stop converging once loops go slack, so each bar is a
// non-linear spring between two nodes (SPRINGA) whose table is flat, but not quite zero, where the bar is
// shorter than its natural length. NLGEOM; weights as nodal loads (CLOAD); force tolerance 1e-7, since
// the default leaves the sag 1e-4 off. Everything stays in the vertical plane (y held).
// Motion (*DYNAMIC, the method of Hilber, Hughes and Taylor) needs point masses and, from the first step on,
// the energy among the results asked for, or it does not know the state it starts from.
#pragma once

#include <filesystem>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "base/vec3.h"

namespace spanloom::peers {

/// Bars that share a table: their stretch law and how long they are drawn.
struct BarKind {
  double axial_stiffness;  ///< EA [N]
  double natural_length;   ///< [m]
  double drawn_length;     ///< between its nodes before the first step [m]
};

struct PeerBar {
  std::size_t near, far;   ///< nodes
  std::size_t kind;
};

/// A last step in which the line moves, from where the step before it came to rest.
struct PeerMotion {
  std::vector<double> mass;          ///< of each node [kg]
  std::vector<Vec3> load;            ///< on each node from its beginning on [N]
  double duration = 0.5;             ///< [s]
  double step = 1e-3;                ///< fixed [s]
  double alpha = 0.0;                ///< -1/3 to 0, numerical loss of the method [-]; 0: none
  std::vector<std::size_t> watched;  ///< nodes whose history is kept
};

/// A line as the peer sees it. Nodes are drawn where its iteration starts.
struct PeerModel {
  std::vector<Vec3> node;                ///< [m]
  std::vector<BarKind> kind;
  std::vector<PeerBar> bar;
  std::vector<std::size_t> held;         ///< nodes that do not move
  std::vector<std::vector<Vec3>> loads;  ///< of each static step, on each node [N]
  std::optional<PeerMotion> motion;      ///< after them
};

/// Where a step came to rest.
struct PeerState {
  std::vector<Vec3> node;        ///< [m], seven digits of the way from where it was drawn
  std::vector<Vec3> held_force;  ///< of the bars on each held node, in the order of PeerModel::held [N]
};

/// Where the watched nodes were at an instant of the motion.
struct PeerInstant {
  double time;              ///< since its beginning [s]
  std::vector<Vec3> place;  ///< in the order of PeerMotion::watched [m]
};

struct PeerRun {
  std::vector<PeerState> states;    ///< one a static step
  std::vector<PeerInstant> motion;  ///< one a step of time
  int iterations = 0;               ///< over all steps
  double seconds = 0.0;             ///< wall time of the ccx process

  /// Place of a watched node at a time that is the end of a step of the motion [m]. @throws PeerError if it is none
  Vec3 place_at(double time, std::size_t watched = 0) const;
};

/// ccx is not there, did not converge, or wrote what cannot be read.
struct PeerError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// A folder of its own under the system's temporary one, removed at the end.
class PeerFolder {
 public:
  PeerFolder();
  ~PeerFolder();
  PeerFolder(const PeerFolder&) = delete;
  PeerFolder& operator=(const PeerFolder&) = delete;
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

/// Writes "<name>.inp" into a folder.
void write_deck(const PeerModel& model, const std::filesystem::path& folder, const std::string& name);
/// Runs ccx with one thread on a deck of that folder. @return wall seconds. @throws PeerError
double run_deck(const std::filesystem::path& folder, const std::string& name);
/// Reads what run_deck left. @throws PeerError
PeerRun read_run(const PeerModel& model, const std::filesystem::path& folder, const std::string& name);

/// All three in a folder of their own.
PeerRun run_calculix(const PeerModel& model);

}  // namespace spanloom::peers
