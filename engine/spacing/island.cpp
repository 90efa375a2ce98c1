#include "spacing/island.h"

#include <algorithm>
#include <cmath>
#include <random>
#include <set>

#include "base/random_stream.h"

namespace spanloom {
namespace {

// Draws that are the same with every standard library.
class Dice {
 public:
  Dice(std::uint64_t seed, std::size_t island) : random_(random_stream(seed, island)) {}
  std::size_t below(std::size_t n) { return std::size_t(random_() % n); }
  int between(int low, int high) { return low + int(below(std::size_t(high - low + 1))); }
  bool one_in(std::size_t n) { return below(n) == 0; }

 private:
  std::mt19937_64 random_;
};

class Island {
 public:
  Island(const Rig& rig, const Plan& plan, const MovedJudge* moved, const IslandOptions& options, std::size_t number)
      : rig_(rig), moved_(moved), bounds_(options.bounds), rules_(rig, plan, options.bounds), judge_(rig, plan),
        dice_(options.seed, number), judgements_(options.judgements),
        main_length_(main_length_of(plan)) {}

  // No phrase twice; at the end changes of the best alone, which find what one change makes better.
  void judge_next() {
    const bool last = judged_ >= judgements_ - judgements_ / kSweep;
    const bool fresh = judged_++ < kNewcomers || pool_.empty() || (!last && dice_.one_in(kNewcomerEvery));
    for (int tries = 0; tries < kTries; ++tries) {
      Phrase phrase = fresh ? anew() : changed(last ? pool_.best()->phrase : parent().phrase);
      if (!tried_.insert(phrase).second) continue;
      if (const auto found = look_at(std::move(phrase))) pool_.take(*found);
      return;
    }
  }

  // First what small motion likes best and some by chance, for small motion says little of full-size shakes; then changes of
  // what did best.
  void glance_next(std::size_t number) {
    if (pool_.empty()) return;
    int lost = 0;                         // shaken without all numbers
    for (int tries = 0; tries < kTries; ++tries) {
      std::optional<FoundLayout> found;
      if (number + std::size_t(tries) == 0) found = *pool_.best();
      else if (glanced_.empty() || number < kFirstGlances) found = look_at(anew());
      else found = look_at(changed(better_of(glanced_).phrase));
      if (!found || found->broken > 0.0 || is_in(glanced_, *found)) continue;
      const MovedReturn seen = moved_->shake_as_taped(found->layout, ShakeSet::fast, 0);
      if (seen.without > 0) {
        if (++lost == kMostLost) return;
        continue;
      }
      found->glanced = ReturnOver{seen.mean, seen.worst};
      found->cost = cost_of(*found);
      glanced_.take(*found);
      return;
    }
  }

  const LayoutPool& judged() const { return pool_; }
  const LayoutPool& glanced() const { return glanced_; }

 private:
  static constexpr std::size_t kNewcomers = 40, kNewcomerEvery = 8, kFirstGlances = 3, kSweep = 4;
  static constexpr int kTries = 100, kMostLost = 3;

  int bay() { return dice_.between(bounds_.shortest, bounds_.longest); }
  int in_steps(double slack) const { return int(std::lround((slack - bounds_.least_slack) / bounds_.slack_step)); }
  double slack_at(int step) const { return bounds_.least_slack + bounds_.slack_step * step; }
  int slack_steps() const { return int((bounds_.most_slack - bounds_.least_slack) / bounds_.slack_step + 1e-6); }
  double slack() { return slack_at(dice_.between(0, slack_steps())); }
  std::size_t place_in(std::size_t size) { return dice_.below(size); }

  const FoundLayout& any_of(const LayoutPool& pool) {
    auto at = pool.by_tapes().begin();
    std::advance(at, std::ptrdiff_t(dice_.below(pool.by_tapes().size())));
    return at->second[place_in(at->second.size())];
  }

  // The best of all as often as any other: else a hundred numbers of tapes leave it alone.
  const FoundLayout& parent() { return dice_.one_in(2) ? *pool_.best() : any_of(pool_); }

  const FoundLayout& better_of(const LayoutPool& pool) {
    const FoundLayout &a = any_of(pool), &b = any_of(pool);
    return a.cost < b.cost ? a : b;
  }

  static bool is_in(const LayoutPool& pool, const FoundLayout& found) {
    const auto at = pool.by_tapes().find(found.tapes());
    return at != pool.by_tapes().end() && std::any_of(at->second.begin(), at->second.end(), [&](const FoundLayout& other) {
      return other.layout == found.layout;
    });
  }

  Phrase anew() {
    Phrase phrase;
    phrase.step = bounds_.step;
    for (std::size_t i = 1 + dice_.below(bounds_.longest_phrase); i-- > 0;) phrase.bays.push_back(bay());
    for (std::size_t i = 1 + dice_.below(bounds_.longest_slack_phrase); i-- > 0;) phrase.slack.push_back(slack());
    if (dice_.one_in(2)) phrase.from = CountedFrom::both_anchors;
    return phrase;
  }

  // One step up or down, within bounds.
  int up_or_down() { return dice_.one_in(2) ? 1 : -1; }
  int stepped(int bay) { return std::clamp(bay + up_or_down(), bounds_.shortest, bounds_.longest); }
  double stepped(double slack) { return slack_at(std::clamp(in_steps(slack) + up_or_down(), 0, slack_steps())); }

  template <class Figures, class Draw>
  void change(Figures& figures, std::size_t most, Draw draw) {
    const auto at = figures.begin() + std::ptrdiff_t(place_in(figures.size()));
    switch (dice_.below(5)) {
      case 0: if (figures.size() < most) figures.insert(at, draw()); break;
      case 1: if (figures.size() > 1) figures.erase(at); break;
      case 2: std::swap(*at, figures[place_in(figures.size())]); break;
      case 3: *at = stepped(*at); break;
      default: *at = draw(); break;
    }
  }

  // A small change.
  Phrase changed(Phrase phrase) {
    const std::size_t which = dice_.below(9);
    if (which == 0) {
      phrase.from = phrase.from == CountedFrom::near_anchor ? CountedFrom::both_anchors : CountedFrom::near_anchor;
    } else if (which < 5) {
      change(phrase.bays, bounds_.longest_phrase, [this] { return bay(); });
    } else {
      change(phrase.slack, bounds_.longest_slack_phrase, [this] { return slack(); });
    }
    return phrase;
  }

  std::optional<FoundLayout> look_at(Phrase phrase) {
    std::optional<Layout> layout = layout_of(phrase, rig_.spacing, main_length_);
    if (!layout || layout->bays.size() - 1 > bounds_.most_tapes) return std::nullopt;
    const std::optional<LayoutScore> score = judge_.judge(*layout);
    if (!score) return std::nullopt;
    FoundLayout found{std::move(phrase), std::move(*layout), {score->return_mean, score->return_worst}, std::nullopt, 0.0, 0.0};
    found.broken = rules_.broken(found.layout, *score);
    found.cost = cost_of(found);
    return found;
  }

  const Rig& rig_;
  const MovedJudge* moved_;
  LayoutBounds bounds_;
  LimitRules rules_;
  LayoutJudge judge_;
  Dice dice_;
  std::size_t judgements_, judged_ = 0;
  double main_length_;
  std::set<Phrase> tried_;
  LayoutPool pool_, glanced_;
};

double least_return(const LayoutPool& pool) {
  const FoundLayout* best = pool.best();
  if (!best || best->broken > 0.0) return INFINITY;
  return best->glanced ? best->glanced->mean : best->small.mean;
}

}  // namespace

LayoutPool grow_island(const Rig& rig, const Plan& plan, const MovedJudge* moved, const IslandOptions& options, std::size_t number,
                       const std::function<bool(double best)>& keep_on) {
  check_bounds(options.bounds);
  Island island(rig, plan, moved, options, number);
  const bool glances = moved && options.glances > 0;
  for (std::size_t i = 0; i < options.judgements; ++i) {
    island.judge_next();
    if (keep_on && !keep_on(glances ? INFINITY : least_return(island.judged()))) return island.judged();
  }
  if (!glances) return island.judged();
  for (std::size_t i = 0; i < options.glances; ++i) {
    island.glance_next(i);
    if (keep_on && !keep_on(least_return(island.glanced()))) return island.glanced().empty() ? island.judged() : island.glanced();
  }
  return island.glanced();
}

}  // namespace spanloom
