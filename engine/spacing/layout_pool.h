// The best layouts found, a few for each number of tapes, so that pools may come together in any order to the same one.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <vector>

#include "spacing/layout.h"
#include "spacing/phrase.h"

namespace spanloom {

/// The return of one layout over several shakes [-].
struct ReturnOver { double mean = 0.0, worst = 0.0; };

struct FoundLayout {
  Phrase phrase;
  Layout layout;
  ReturnOver small;                       ///< in small motion, by the spectrum
  std::optional<ReturnOver> glanced;      ///< in full-size shakes at a glance, as taped; empty: not looked at
  double broken = 0.0;                    ///< LimitRules::broken(): 0 where all limits are kept
  double cost = 0.0;                      ///< cost_of() [-]
  std::size_t tapes() const { return layout.bays.size() - 1; }
};

/// What a search makes as small as it can. In small motion the mean and a quarter of the worst; nine tenths of it the mean of
/// the glance instead, where there was one; a hair for every figure that must be called out, and for a phrase that does
/// not read the same from both ends; more than anything for broken limits.
double cost_of(const FoundLayout& found);

/// By number of tapes; of each the best, by cost, then by phrase; no layout twice.
class LayoutPool {
 public:
  void take(const FoundLayout& found);
  void join(const LayoutPool& other);
  bool empty() const { return by_tapes_.empty(); }
  std::size_t size() const;
  const std::map<std::size_t, std::vector<FoundLayout>>& by_tapes() const { return by_tapes_; }
  /// All of them, the least cost first.
  std::vector<const FoundLayout*> all() const;
  /// The best that keeps all limits, else the best; null where there is none.
  const FoundLayout* best() const;

 private:
  std::map<std::size_t, std::vector<FoundLayout>> by_tapes_;
};

/// Kept of each number of tapes.
inline constexpr std::size_t kKeptOfEach = 4;

}  // namespace spanloom
