// Layouts on trial: shaken in rounds as crews tape them, fewer and fewer of them more and more, until those that are shown
// are left; and what they are compared with.
#pragma once

#include <functional>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "spacing/candidates.h"
#include "spacing/moved_return.h"
#include "spacing/space_options.h"

namespace spanloom {

struct Trial {
  std::optional<Phrase> phrase;
  Layout layout;
  ReturnOver small;
  ProvenLayout proven;
  double glanced = std::numeric_limits<double>::infinity();  ///< mean return in the search [-]
  std::vector<MovedReturn> choice, told;   ///< round by round
  std::vector<std::size_t> over;           ///< bays whose loops swing over the main in gust or bounce, from 1
  bool stands = true;                      ///< found rest in small motion
  bool seen_in_gust = false, all_told = false, finalist = false;

  /// Mean return over the search and all rounds of choice [-]; infinite where a shake gave no number.
  double chosen_by() const {
    double sum = glanced;
    for (const MovedReturn& round : choice) {
      if (round.without > 0) return std::numeric_limits<double>::infinity();
      sum += round.mean;
    }
    return sum / double(1 + choice.size());
  }
};

struct LayoutTrials {
  Trial own;                               ///< the rig as it is
  std::vector<Trial> found, random;
  std::optional<Trial> even;               ///< as many even bays as the last of those shown has
  std::vector<std::size_t> shown;          ///< indices of found: rising tapes, falling return
  std::vector<std::string> notes;
  bool stopped = false;
};

/// @param own_checks  of the rig as it is
LayoutTrials begin_trials(const Rig& rig, const Plan& plan, const LayoutPool& pool, const std::vector<Check>& own_checks, const SpaceOptions& options);

/// Runs all rounds. The same on any number of threads.
/// @param keep_on  asked with the name of the stage, the share of all work done and the least return so far; false stops
using KeepOn = std::function<bool(const SpaceProgress&)>;
void run_trials(LayoutTrials& trials, const Rig& rig, const Plan& plan, const MovedJudge& moved, const SpaceOptions& options, const KeepOn& keep_on);

/// Indices of layouts found, rising tapes, each returning less in small motion than those before: where nothing was shaken.
std::vector<std::size_t> front_in_small_motion(const LayoutTrials& trials);

}  // namespace spanloom
