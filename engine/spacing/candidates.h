// Which of the layouts that a search found are judged again: the best, and the best for few tapes, whose plans keep all
// limits.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "spacing/layout_pool.h"
#include "spacing/layout_proof.h"

namespace spanloom {

struct Candidate {
  FoundLayout found;
  ProvenLayout proven;
};

struct Candidates {
  std::vector<Candidate> kept;            ///< by turns the best by cost and the best for few tapes
  std::size_t failed = 0;                 ///< that the rules let pass and whose plan breaks a limit, or that have none
  std::string why;                        ///< of one of them, in a sentence
};

/// The first so many whose plans keep all limits. The same on any number of threads.
/// @param own  checks of the rig as it is
Candidates choose_candidates(const Rig& rig, const LayoutPool& pool, const std::vector<Check>& own, double most_backup_tension,
                             std::size_t most, unsigned threads, UnitSystem units);

}  // namespace spanloom
