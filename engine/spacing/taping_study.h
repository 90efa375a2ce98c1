// Many crews tape one layout, each with its own errors: what comes back on their lines, in small motion and in full-size
// shakes. May be cut into parts.
#pragma once

#include <functional>

#include "spacing/layout_search.h"
#include "spacing/taping_errors.h"

namespace spanloom {

struct CrewReturn {
  std::size_t crew = 0;                   ///< from 0
  std::optional<double> small, glanced;   ///< mean return [-]; `small` empty where a loop is taut, both where the line found no rest
};

struct TapingStudyOptions {
  TapingErrors errors;
  std::size_t crews = 20;
  std::uint64_t seed = 1;
  Part part;                              ///< of the crews
  unsigned threads = 1;
  /// @return false to stop. One call at a time. @param done  share of the work [-]
  std::function<bool(double done)> progress;
};

struct TapingStudy {
  std::vector<CrewReturn> crews;          ///< rising numbers
  bool stopped = false;

  ReturnAsTaped small() const;
  ReturnAsTaped glanced() const;
};

/// The same on any number of threads. Empty where the layout itself does not stand.
/// @throws InputError "part" as search_layouts()
[[nodiscard]] std::optional<TapingStudy> study_taping(const Rig& rig, const Plan& plan, const MovedJudge& moved, const Layout& layout,
                                                      const TapingStudyOptions& options);

}  // namespace spanloom
