#include "spacing/layout_search.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <numeric>
#include <random>

#include "base/parallel.h"

namespace spanloom {
namespace {

constexpr std::size_t kLongestPhrase = 6, kLongestSlackPhrase = 5;
constexpr double kBrokenLimit = 10.0;     // cost of a metre below a limit
constexpr double kWorstCounts = 0.25;
constexpr double kLongLine = 100.0;       // [m]

// Draws that are the same with every standard library.
class Dice {
 public:
  Dice(std::uint64_t seed, std::size_t island) : random_(seed * 0x9E3779B97F4A7C15u + island) {}
  std::size_t below(std::size_t n) { return std::size_t(random_() % n); }
  int between(int low, int high) { return low + int(below(std::size_t(high - low + 1))); }

 private:
  std::mt19937_64 random_;
};

double slack_of(const LayoutBounds& bounds, int step) { return bounds.least_slack + bounds.slack_step * step; }
int slack_steps(const LayoutBounds& bounds) {
  return std::max(0, int(std::lround((bounds.most_slack - bounds.least_slack) / bounds.slack_step)));
}

class Island {
 public:
  Island(const Rig& rig, const Plan& plan, const SearchOptions& options, std::size_t number)
      : rig_(rig), bounds_(options.bounds), judge_(rig, plan), dice_(options.seed, number),
        main_length_(std::accumulate(plan.bays.begin(), plan.bays.end(), 0.0,
                                     [](double sum, const PlanBay& bay) { return sum + bay.main_natural; })) {}

  void judge_next() {
    const std::size_t first = kNewcomers;
    look_at(judged_ < first || best_.empty() || dice_.below(kNewcomerEvery) == 0 ? anew() : changed());
    ++judged_;
  }
  const BestByTapes& best() const { return best_; }
  double least_return() const {
    double least = INFINITY;
    for (const auto& [tapes, found] : best_) {
      if (found.keeps_limits) least = std::min(least, found.score.return_mean);
    }
    return least;
  }

 private:
  static constexpr std::size_t kNewcomers = 40, kNewcomerEvery = 8;

  int bay() { return dice_.between(bounds_.shortest, bounds_.longest); }
  double slack() { return slack_of(bounds_, dice_.between(0, slack_steps(bounds_))); }

  Phrase anew() {
    Phrase phrase;
    for (std::size_t i = 1 + dice_.below(kLongestPhrase); i-- > 0;) phrase.half_arm_spans.push_back(bay());
    for (std::size_t i = 1 + dice_.below(kLongestSlackPhrase); i-- > 0;) phrase.slack.push_back(slack());
    if (dice_.below(3) == 0 && !rig_.spacing.close) phrase.from = CountedFrom::both_anchors;
    return phrase;
  }

  // A small change of one of the best.
  Phrase changed() {
    auto parent = best_.begin();
    std::advance(parent, std::ptrdiff_t(dice_.below(best_.size())));
    Phrase phrase = parent->second.phrase;
    std::vector<int>& bays = phrase.half_arm_spans;
    std::vector<double>& slacks = phrase.slack;
    switch (dice_.below(6)) {
      case 0: bays[dice_.below(bays.size())] = bay(); break;
      case 1: if (bays.size() < kLongestPhrase) bays.insert(bays.begin() + std::ptrdiff_t(dice_.below(bays.size() + 1)), bay()); break;
      case 2: if (bays.size() > 1) bays.erase(bays.begin() + std::ptrdiff_t(dice_.below(bays.size()))); break;
      case 3: slacks[dice_.below(slacks.size())] = slack(); break;
      case 4: if (slacks.size() < kLongestSlackPhrase) slacks.insert(slacks.begin() + std::ptrdiff_t(dice_.below(slacks.size() + 1)), slack()); break;
      default: if (slacks.size() > 1) slacks.erase(slacks.begin() + std::ptrdiff_t(dice_.below(slacks.size()))); break;
    }
    return phrase;
  }

  void look_at(const Phrase& phrase) {
    std::optional<Layout> layout = layout_of(phrase, rig_.spacing, main_length_);
    if (!layout || layout->bays.size() - 1 > bounds_.most_tapes) return;
    std::optional<LayoutScore> score = judge_.judge(*layout);
    if (!score) return;
    FoundLayout found{phrase, std::move(*layout), std::move(*score), 0.0, false};
    price(found);
    const std::size_t tapes = found.layout.bays.size() - 1;
    BestByTapes one;
    one.emplace(tapes, std::move(found));
    join(best_, one);
  }

  void price(FoundLayout& found) const {
    double broken = 0.0;
    const auto at_least = [&](double value, double limit) { broken += std::max(0.0, limit - value); };
    for (std::size_t k = 0; k < found.score.drop.size(); ++k) {
      at_least(found.score.ankle_margin[k], rig_.limits.least_ankle_margin.value);
      at_least(found.score.drop[k], rig_.limits.least_drop.value);
      at_least(bounds_.most_drop, found.score.drop[k]);
    }
    found.keeps_limits = broken == 0.0;
    found.cost = found.score.return_mean + kWorstCounts * found.score.return_worst + (broken > 0.0 ? 1.0 + kBrokenLimit * broken : 0.0);
  }

  const Rig& rig_;
  LayoutBounds bounds_;
  LayoutJudge judge_;
  Dice dice_;
  double main_length_;
  std::size_t judged_ = 0;
  BestByTapes best_;
};

}  // namespace

LayoutBounds usual_bounds(const Rig& rig, const Plan& plan) {
  LayoutBounds bounds;
  const double span = rig.spacing.arm_span.value;
  if (rig.site.gap >= kLongLine) bounds.shortest = 4, bounds.longest = 8;
  else if (rig.site.gap < 20.0 * span) bounds.shortest = 1, bounds.longest = 4;
  double least = INFINITY, most = 0.0;
  for (const PlanBay& bay : plan.bays) least = std::min(least, bay.slack), most = std::max(most, bay.slack);
  const auto rounded = [&](double slack) { return bounds.slack_step * std::round(slack / bounds.slack_step); };
  bounds.least_slack = std::max(bounds.slack_step, rounded(0.5 * least));
  bounds.most_slack = std::max(bounds.least_slack, rounded(2.0 * most));
  return bounds;
}

void join(BestByTapes& into, const BestByTapes& other) {
  for (const auto& [tapes, found] : other) {
    const auto [at, is_new] = into.try_emplace(tapes, found);
    const FoundLayout& held = at->second;
    const bool better = found.cost < held.cost || (found.cost == held.cost && found.phrase < held.phrase);
    if (!is_new && better) at->second = found;
  }
}

BestByTapes grow_island(const Rig& rig, const Plan& plan, const SearchOptions& options, std::size_t island,
                        const std::function<bool(double best)>& keep_on) {
  Island population(rig, plan, options, island);
  for (std::size_t i = 0; i < options.judgements; ++i) {
    population.judge_next();
    if (keep_on && !keep_on(population.least_return())) break;
  }
  return population.best();
}

SearchResult search_layouts(const Rig& rig, const Plan& plan, const SearchOptions& options, std::size_t first, std::size_t last) {
  const std::size_t count = last > first ? last - first : 0;
  std::vector<BestByTapes> grown(count);
  std::atomic<std::size_t> judged{0};
  std::atomic<double> best{INFINITY};
  std::atomic<bool> stop{false};
  const auto keep_on = [&](double least) {
    for (double before = best; least < before && !best.compare_exchange_weak(before, least);) {
    }
    ++judged;
    return !stop;
  };
  SearchResult result;
  const auto tell = [&](std::size_t) {
    if (options.progress && !options.progress(judged, count * options.judgements, best)) stop = true;
    return !stop;
  };
  const auto grow = [&](std::size_t i) { grown[i] = grow_island(rig, plan, options, first + i, keep_on); };
  result.stopped = !in_parallel(count, options.threads, grow, tell);
  for (const BestByTapes& island : grown) join(result.best, island);
  result.judged = judged;
  return result;
}

}  // namespace spanloom
