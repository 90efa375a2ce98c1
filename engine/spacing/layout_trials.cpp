#include "spacing/layout_trials.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/parallel.h"
#include "motion/swing_over.h"
#include "spacing/by_turns.h"
#include "spacing/compared_layouts.h"
#include "spacing/space_words.h"

namespace spanloom {
namespace {

constexpr double kMatters = 0.015;         // of return: less is scatter

Trial trial_of(LayoutJudge& judge, const Layout& layout) {
  Trial trial;
  trial.layout = layout;
  const std::optional<LayoutScore> score = judge.judge(layout);
  trial.stands = score.has_value();
  if (score) trial.small = {score->return_mean, score->return_worst};
  return trial;
}

double chosen_by_finalists(const Trial& trial) { return trial.finalist ? trial.chosen_by() : INFINITY; }

// Indices of layouts found, rising tapes, each with a value less than those before by more than scatter.
template <class Value>
std::vector<std::size_t> front(const LayoutTrials& trials, Value value) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < trials.found.size(); ++i) {
    // Where loops of the rig as it is swing over too, it is no reason to leave others out.
    const bool fits = trials.found[i].over.empty() || !trials.own.over.empty();
    if (fits && std::isfinite(value(trials.found[i]))) order.push_back(i);
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const std::size_t m = trials.found[a].layout.bays.size(), n = trials.found[b].layout.bays.size();
    return m != n ? m < n : value(trials.found[a]) < value(trials.found[b]);
  });
  std::vector<std::size_t> kept;
  for (const std::size_t i : order) {
    if (kept.empty() || value(trials.found[i]) < value(trials.found[kept.back()]) - kMatters) kept.push_back(i);
  }
  return kept;
}

class Rounds {
 public:
  Rounds(LayoutTrials& trials, const Rig& rig, const Plan& plan, const MovedJudge& moved, const SpaceOptions& options, const KeepOn& keep_on)
      : trials_(trials), rig_(rig), plan_(plan), moved_(moved), options_(options), work_(work_of(options)), keep_on_(keep_on), judge_(rig, plan) {}

  // Shakes all of them, then what of them is to be shown again, with what it is compared with.
  std::vector<std::size_t> run() {
    std::vector<std::size_t> all(trials_.found.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    shake_more(all, work_.first_rounds, {"choosing", kSearched, kHalfChosen});
    if (!trials_.stopped) shake_more(finalists(), work_.final_rounds, {"choosing", kHalfChosen, kChosen});
    if (trials_.stopped || trials_.found.empty()) return {};
    const std::vector<std::size_t> shown = front_in_gust();
    if (shown.empty()) return {};
    for (Layout& layout : random_layouts(rig_, plan_, options_.bounds, work_.random, options_.seed)) {
      Trial trial = trial_of(judge_, layout);
      if (trial.stands) trials_.random.push_back(std::move(trial));
    }
    trials_.even = trial_of(judge_, even_layout(plan_, trials_.found[shown.back()].layout.bays.size()));
    std::vector<Trial*> told{&trials_.own, &*trials_.even};
    for (const std::size_t i : shown) told.push_back(&trials_.found[i]);
    for (Trial& trial : trials_.random) told.push_back(&trial);
    tell_all(told);
    if (trials_.stopped) return {};
    return shown;
  }

 private:
  struct Run { const Layout* layout; MovedReturn* into; std::size_t round; };
  struct Stage { const char* name; double from, to; };  // shares of all work

  void shake_more(const std::vector<std::size_t>& which, std::size_t rounds, const Stage& stage) {
    std::vector<Run> runs;
    for (const std::size_t i : which) {
      Trial& trial = trials_.found[i];
      const std::size_t before = trial.choice.size();
      trial.choice.resize(before + rounds);
      for (std::size_t k = before; k < before + rounds; ++k) runs.push_back({&trial.layout, &trial.choice[k], 1 + k});
    }
    shake_all(runs, ShakeSet::fast, stage);
  }

  // The best for few tapes and the best by turns, as the candidates were.
  std::vector<std::size_t> finalists() {
    std::vector<std::size_t> order(trials_.found.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return trials_.found[a].chosen_by() < trials_.found[b].chosen_by(); });
    std::vector<std::size_t> few = front(trials_, [](const Trial& trial) { return trial.chosen_by(); });
    std::reverse(few.begin(), few.end());
    std::vector<std::size_t> kept = by_turns(few, order);
    kept.resize(std::min(kept.size(), work_.finalists));
    for (const std::size_t i : kept) trials_.found[i].finalist = true;
    return kept;
  }

  // A layout whose loops swing over in gust or bounce makes room for others.
  std::vector<std::size_t> front_in_gust() {
    std::size_t over = 0;
    for (;;) {
      const std::vector<std::size_t> shown = front(trials_, chosen_by_finalists);
      std::vector<Trial*> unknown;
      for (const std::size_t i : shown) {
        if (!trials_.found[i].seen_in_gust) unknown.push_back(&trials_.found[i]);
      }
      if (!trials_.own.seen_in_gust) unknown.push_back(&trials_.own);
      if (shown.empty()) return {};
      if (unknown.empty()) {
        if (over > 0 && trials_.own.over.empty()) trials_.notes.push_back(swung_over_words(over));
        best_ = trials_.found[shown.back()].chosen_by();
        return shown;
      }
      in_parallel(unknown.size(), options_.threads, [&](std::size_t i) {
        if (const std::optional<MovingRig> line = moved_.line(unknown[i]->layout)) unknown[i]->over = over_in_gust_or_bounce(*line);
        unknown[i]->seen_in_gust = true;
      }, {});
      for (const Trial* trial : unknown) over += trial->over.empty() ? 0 : 1;
      if (front(trials_, chosen_by_finalists).empty()) {
        trials_.notes.push_back(swung_over_words(over));
        return {};
      }
    }
  }

  void tell_all(const std::vector<Trial*>& trials) {
    std::vector<Run> runs;
    for (Trial* trial : trials) {
      trial->told.resize(work_.told_rounds);
      for (std::size_t i = 0; i < work_.told_rounds; ++i) runs.push_back({&trial->layout, &trial->told[i], 1 + work_.first_rounds + work_.final_rounds + i});
    }
    shake_all(runs, ShakeSet::all, {"shaking", kChosen, kToldAll});
    for (Trial* trial : trials) trial->all_told = !trials_.stopped;
  }

  void shake_all(const std::vector<Run>& runs, ShakeSet set, const Stage& stage) {
    in_parallel(runs.size(), options_.threads,
                [&](std::size_t i) { *runs[i].into = moved_.shake_as_taped(*runs[i].layout, set, runs[i].round); },
                [&](std::size_t done) { return tell(stage.name, stage.from + (stage.to - stage.from) * double(done) / double(runs.size())); });
  }

  bool tell(const char* stage, double done) {
    if (!keep_on_({stage, done, best_})) trials_.stopped = true;
    return !trials_.stopped;
  }

  LayoutTrials& trials_;
  const Rig& rig_;
  const Plan& plan_;
  const MovedJudge& moved_;
  const SpaceOptions& options_;
  SpaceWork work_;
  const KeepOn& keep_on_;
  LayoutJudge judge_;
  std::optional<double> best_;
};

}  // namespace

LayoutTrials begin_trials(const Rig& rig, const Plan& plan, const LayoutPool& pool, const std::vector<Check>& own_checks, const SpaceOptions& options) {
  LayoutTrials trials;
  LayoutJudge judge(rig, plan);
  trials.own = trial_of(judge, layout_of(plan));
  trials.own.proven = {rig, plan, own_checks, {}};
  Candidates candidates = choose_candidates(rig, pool, own_checks, options.bounds.most_backup_tension, work_of(options).tried, options.threads,
                                            options.units);
  if (candidates.kept.empty() && candidates.failed == 0) trials.notes.push_back(none_kept_words());
  if (candidates.failed > 0) trials.notes.push_back(left_out_words(candidates.failed, candidates.why));
  for (Candidate& candidate : candidates.kept) {
    Trial& trial = trials.found.emplace_back();
    trial.phrase = without_unused(candidate.found.phrase, rig.spacing, main_length_of(plan));
    trial.layout = std::move(candidate.found.layout);
    trial.small = candidate.found.small;
    if (candidate.found.glanced) trial.glanced = candidate.found.glanced->mean;
    trial.proven = std::move(candidate.proven);
  }
  return trials;
}

void run_trials(LayoutTrials& trials, const Rig& rig, const Plan& plan, const MovedJudge& moved, const SpaceOptions& options, const KeepOn& keep_on) {
  trials.shown = Rounds(trials, rig, plan, moved, options, keep_on).run();
}

std::vector<std::size_t> front_in_small_motion(const LayoutTrials& trials) {
  return front(trials, [](const Trial& trial) { return trial.small.mean; });
}

}  // namespace spanloom
