#include "spacing/space_report.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/input_error.h"
#include "base/parallel.h"
#include "checks/check_layout.h"
#include "motion/swing_over.h"
#include "spacing/candidates.h"
#include "spacing/compared_layouts.h"
#include "spacing/space_words.h"

namespace spanloom {
namespace {

constexpr std::size_t kMostRounds = 8;     // times the usual ones

// How much of everything.
struct Work {
  std::size_t islands = 12, judgements = 500, glances = 4;   // of the search
  std::size_t tried = 20, finalists = 8;   // layouts judged again, and those of them judged more
  std::size_t random = 4;                  // layouts at random
  std::size_t small_crews = 40, moved_crews = 12;
  // Rounds of shakes: the search has round 0, the choice goes by the next, what is told comes from others still, so that
  // no luck of the choice is told.
  std::size_t first_rounds = 1, final_rounds = 3, told_rounds = 2;
};

Work work_of(const SpaceOptions& options) {
  Work work;
  if (options.quick) work = {3, 250, 3, 6, 3, 2, 20, 4, 1, 1, 1};
  work.islands *= std::max<std::size_t>(1, options.effort);
  work.moved_crews *= std::max<std::size_t>(1, options.effort);
  for (std::size_t* rounds : {&work.first_rounds, &work.final_rounds, &work.told_rounds}) {
    *rounds *= std::clamp<std::size_t>(options.effort, 1, kMostRounds);
  }
  return work;
}

constexpr double kMatters = 0.015;         // of return: less is scatter
// Shares of all work, by and large, at the end of each stage.
constexpr double kSearched = 0.35, kHalfChosen = 0.5, kChosen = 0.6, kToldAll = 0.85;

struct Trial {
  std::optional<Phrase> phrase;
  Layout layout;
  ReturnOver small;
  ProvenLayout proven;
  double glanced = 0.0;                    // mean return in the search
  std::vector<MovedReturn> choice, told;   // round by round
  std::vector<std::size_t> over;           // in gust or bounce
  bool seen_in_gust = false, all_told = false, finalist = false;

  double chosen_by() const {
    double sum = glanced;
    for (const MovedReturn& round : choice) sum += round.mean;
    return sum / double(1 + choice.size());
  }
};

SearchOptions search_of(const SpaceOptions& options, const Part& part) {
  const Work work = work_of(options);
  SearchOptions search;
  search.island = {options.bounds, options.seed, work.judgements, work.glances};
  search.islands = work.islands;
  search.part = part;
  search.threads = options.threads;
  if (options.progress) {
    search.progress = [&options](double done, double best) {
      return options.progress({"searching", kSearched * done, std::isfinite(best) ? std::optional(best) : std::nullopt});
    };
  }
  return search;
}

// Makes one report out of what a search found.
class Maker {
 public:
  Maker(const Rig& rig, const Plan& plan, const MovedJudge& moved, const SearchResult& found, const SpaceOptions& options)
      : rig_(rig), plan_(plan), moved_(moved), found_(found), options_(options), work_(work_of(options)), own_checks_(judge(rig, plan, options.units)),
        judge_(rig, plan) {
    report_.bounds = options.bounds;
    report_.errors = options.errors;
    report_.seed = options.seed;
    report_.judged = found.judged;
    report_.glanced = found.glanced;
    report_.quick = options.quick;
    report_.judged_shakes = work_.told_rounds * moved.shakes(ShakeSet::all);
    report_.stopped = found.stopped;
  }

  SpaceReport run() {
    own_ = trial_of(layout_of(plan_));
    own_.proven = {rig_, plan_, own_checks_, {}};
    take_candidates();
    std::vector<std::size_t> shown;
    if (!report_.stopped) shown = shaken_front();
    if (report_.stopped) shown = front([](const Trial& trial) { return trial.small.mean; });
    show(shown);
    finish();
    return std::move(report_);
  }

 private:
  struct Run { const Layout* layout; MovedReturn* into; std::size_t round; };
  struct Stage { const char* name; double from, to; };  // shares of all work

  bool tell(const char* stage, double done) {
    if (options_.progress && !options_.progress({stage, done, best_})) report_.stopped = true;
    return !report_.stopped;
  }

  Trial trial_of(const Layout& layout) {
    Trial trial;
    trial.layout = layout;
    if (const std::optional<LayoutScore> score = judge_.judge(layout)) trial.small = {score->return_mean, score->return_worst};
    return trial;
  }

  void take_candidates() {
    Candidates candidates = choose_candidates(rig_, found_.pool, own_checks_, options_.bounds.most_backup_tension, work_.tried,
                                              options_.threads, options_.units);
    if (candidates.failed > 0) report_.notes.push_back(left_out_words(candidates.failed, candidates.why));
    for (Candidate& candidate : candidates.kept) {
      Trial& trial = trials_.emplace_back();
      trial.phrase = candidate.found.phrase;
      trial.layout = std::move(candidate.found.layout);
      trial.small = candidate.found.small;
      if (candidate.found.glanced) trial.glanced = candidate.found.glanced->mean;
      trial.proven = std::move(candidate.proven);
    }
  }

  // Indices of trials, rising tapes, each with a value less than those before by more than scatter.
  template <class Value>
  std::vector<std::size_t> front(Value value) const {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < trials_.size(); ++i) {
      // Where loops of the rig as it is swing over too, it is no reason to leave others out.
      const bool fits = trials_[i].over.empty() || !own_.over.empty();
      if (fits && std::isfinite(value(trials_[i]))) order.push_back(i);
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      const std::size_t m = trials_[a].layout.bays.size(), n = trials_[b].layout.bays.size();
      return m != n ? m < n : value(trials_[a]) < value(trials_[b]);
    });
    std::vector<std::size_t> kept;
    for (const std::size_t i : order) {
      if (kept.empty() || value(trials_[i]) < value(trials_[kept.back()]) - kMatters) kept.push_back(i);
    }
    return kept;
  }

  // Shakes all of them, then what of them is to be shown again, with what it is compared with.
  std::vector<std::size_t> shaken_front() {
    report_.shaken = trials_.size();
    std::vector<std::size_t> all(trials_.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    shake_more(all, work_.first_rounds, {"choosing", kSearched, kHalfChosen});
    if (!report_.stopped) shake_more(finalists(), work_.final_rounds, {"choosing", kHalfChosen, kChosen});
    if (report_.stopped || trials_.empty()) return {};
    const std::vector<std::size_t> shown = front_in_gust();
    if (shown.empty()) return {};
    for (Layout& layout : random_layouts(rig_, plan_, options_.bounds, work_.random, options_.seed)) random_.push_back(trial_of(layout));
    even_ = trial_of(even_layout(plan_, trials_[shown.back()].layout.bays.size()));
    std::vector<Trial*> told{&own_, &*even_};
    for (const std::size_t i : shown) told.push_back(&trials_[i]);
    for (Trial& trial : random_) told.push_back(&trial);
    tell_all(told);
    if (report_.stopped) return {};
    return shown;
  }

  void shake_more(const std::vector<std::size_t>& which, std::size_t rounds, const Stage& stage) {
    std::vector<Run> runs;
    for (const std::size_t i : which) {
      Trial& trial = trials_[i];
      const std::size_t before = trial.choice.size();
      trial.choice.resize(before + rounds);
      for (std::size_t k = before; k < before + rounds; ++k) runs.push_back({&trial.layout, &trial.choice[k], 1 + k});
    }
    shake_all(runs, ShakeSet::fast, stage);
  }

  // By turns the best and the best for few tapes, as the twenty were.
  std::vector<std::size_t> finalists() {
    std::vector<std::size_t> order(trials_.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return trials_[a].chosen_by() < trials_[b].chosen_by(); });
    std::vector<std::size_t> few = front([](const Trial& trial) { return trial.chosen_by(); }), kept;
    std::reverse(few.begin(), few.end());
    const auto take = [&](std::size_t i) {
      if (trials_[i].finalist || kept.size() == work_.finalists) return;
      trials_[i].finalist = true;
      kept.push_back(i);
    };
    for (std::size_t i = 0; i < order.size(); ++i) {
      if (i < few.size()) take(few[i]);
      take(order[i]);
    }
    return kept;
  }

  // A layout whose loops swing over in gust or bounce makes room for others.
  std::vector<std::size_t> front_in_gust() {
    std::size_t over = 0;
    for (;;) {
      const std::vector<std::size_t> shown = front([](const Trial& trial) { return trial.finalist ? trial.chosen_by() : INFINITY; });
      std::vector<Trial*> unknown;
      for (const std::size_t i : shown) {
        if (!trials_[i].seen_in_gust) unknown.push_back(&trials_[i]);
      }
      if (!own_.seen_in_gust) unknown.push_back(&own_);
      if (unknown.empty()) {
        if (over > 0 && own_.over.empty()) report_.notes.push_back(swung_over_words(over));
        best_ = trials_[shown.back()].chosen_by();
        return shown;
      }
      in_parallel(unknown.size(), options_.threads, [&](std::size_t i) {
        if (const std::optional<MovingRig> line = moved_.line(unknown[i]->layout)) unknown[i]->over = over_in_gust_or_bounce(*line);
        unknown[i]->seen_in_gust = true;
      }, {});
      for (const Trial* trial : unknown) over += trial->over.empty() ? 0 : 1;
      if (front([](const Trial& trial) { return trial.finalist ? trial.chosen_by() : INFINITY; }).empty()) {
        report_.notes.push_back(swung_over_words(over));
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
    for (Trial* trial : trials) trial->all_told = !report_.stopped;
  }

  void shake_all(const std::vector<Run>& runs, ShakeSet set, const Stage& stage) {
    in_parallel(runs.size(), options_.threads,
                [&](std::size_t i) { *runs[i].into = moved_.shake_as_taped(*runs[i].layout, set, runs[i].round); },
                [&](std::size_t done) { return tell(stage.name, stage.from + (stage.to - stage.from) * double(done) / double(runs.size())); });
  }

  // The last one: they fall by more than scatter. Or the asked number of tapes, or the next fewer.
  std::size_t chosen_of(const std::vector<std::size_t>& shown) const {
    if (!options_.tapes) return shown.back();
    std::size_t chosen = shown.front();
    for (const std::size_t i : shown) {
      if (trials_[i].layout.bays.size() - 1 <= *options_.tapes) chosen = i;
    }
    return chosen;
  }

  JudgedLayout judged(const Trial& trial) {
    JudgedLayout out;
    out.phrase = trial.phrase;
    out.layout = trial.layout;
    out.small = trial.small;
    out.over_in_gust = trial.over;
    if (trial.all_told) out.moved = mean_of(trial.told);
    if (const auto taped = return_as_taped(judge_, trial.layout, options_.errors, work_.small_crews, options_.seed)) out.small_as_taped = *taped;
    if (const auto touch = touch_of_bays(judge_, trial.layout)) out.touch = *touch;
    return out;
  }

  void take_plan(JudgedLayout& out, const ProvenLayout& proven) const {
    out.breaks = proven.breaks;
    out.least_ankle_margin = proven.plan.bays[proven.plan.worst_ankle_bay].ankle_margin;
    for (const PlanBay& bay : proven.plan.bays) {
      out.drop.push_back(bay.drop);
      out.ankle_margin.push_back(bay.ankle_margin);
    }
    out.backup_tension = proven.plan.standing.backup_tension_max;
    for (const PieceForce& force : proven.plan.forces) {
      if (force.on_backup) out.backup_tension = std::max(out.backup_tension, force.tension);
    }
  }

  void show(const std::vector<std::size_t>& shown) {
    take_plan(report_.own = judged(own_), own_.proven);
    for (const std::size_t i : shown) take_plan(report_.points.emplace_back(judged(trials_[i])), trials_[i].proven);
    if (shown.empty()) return;
    const std::size_t chosen = chosen_of(shown);
    report_.chosen = std::size_t(std::find(shown.begin(), shown.end(), chosen) - shown.begin());
    report_.proven = trials_[chosen].proven;
  }

  void finish() {
    if (!report_.stopped) {
      take_even();
      take_random();
      if (report_.chosen && tell("taping", kToldAll)) {
        take_taped(report_.own);
        if (tell("taping", 0.5 * (1.0 + kToldAll))) take_taped(report_.points[*report_.chosen]);
      }
    }
    const CommonPractice practice = common_practice(rig_.site.gap, rig_.spacing.arm_span.value, options_.units);
    report_.practice.words = practice.words;
    if (report_.proven) report_.practice.outside = bays_outside(practice, report_.proven->plan);
    report_.practice.agrees = report_.practice.outside.empty();
    say(report_, rig_, options_.units);
  }

  void take_taped(JudgedLayout& out) {
    TapingStudyOptions study;
    study.errors = options_.errors;
    study.crews = work_.moved_crews;
    study.seed = options_.seed;
    study.threads = options_.threads;
    if (const auto done = study_taping(rig_, plan_, moved_, out.layout, study)) out.moved_as_taped = done->glanced();
    const std::optional<MovingRig> line = moved_.line(out.layout);
    if (line) out.moved_glance = moved_.shake(*line, ShakeSet::fast).mean;
  }

  void take_even() {
    if (!even_) return;
    if (mean_of(even_->told).shakes == 0) {
      report_.why_no_even = "evenly taped it found no proven rest, or a tape meets a joint";
      return;
    }
    report_.even = judged(*even_);
    const std::optional<ProvenLayout> proven =
        prove_layout(rig_, even_->layout, own_checks_, options_.bounds.most_backup_tension, options_.units);
    if (proven) take_plan(*report_.even, *proven);
  }

  void take_random() {
    std::vector<MovedReturn> moved;
    RandomLayouts random;
    for (const Trial& trial : random_) {
      moved.push_back(mean_of(trial.told));
      if (moved.back().shakes == 0) moved.pop_back();
      else ++random.count, random.small.mean += trial.small.mean, random.small.worst += trial.small.worst;
    }
    if (random.count == 0) return;
    const double share = 1.0 / double(random.count);
    random.small.mean *= share, random.small.worst *= share;
    for (const MovedReturn& of : moved) random.moved.mean += share * of.mean, random.moved.worst += share * of.worst;
    for (const MovedReturn& of : moved) random.moved_spread += share * (of.mean - random.moved.mean) * (of.mean - random.moved.mean);
    random.moved_spread = std::sqrt(random.moved_spread);
    report_.random = random;
  }

  const Rig& rig_;
  const Plan& plan_;
  const MovedJudge& moved_;
  const SearchResult& found_;
  const SpaceOptions& options_;
  Work work_;
  std::vector<Check> own_checks_;
  LayoutJudge judge_;
  SpaceReport report_;
  Trial own_;
  std::vector<Trial> trials_, random_;
  std::optional<Trial> even_;
  std::optional<double> best_;
};

SpaceOutcome report_on(const Rig& rig, const Plan& plan, const MovedJudge& moved, const SearchResult& found, const SpaceOptions& options) {
  if (!moved.stands()) return {std::nullopt, "the line found no proven rest when cut for motion"};
  return {Maker(rig, plan, moved, found, options).run(), {}};
}

}  // namespace

void check_can_be_spaced(const Rig& rig) {
  if (rig.backup.joint != Joint::ring) return;
  throw InputError("backup.joint", "\"ring\"", "\"taped\"",
                   "through rings the backup runs from bay to bay, so that no bay keeps a slack of its own");
}

SearchResult search_part(const Rig& rig, const Plan& plan, const SpaceOptions& options, const Part& part) {
  check_can_be_spaced(rig);
  const MovedJudge moved(rig, options.seed, options.errors);
  return search_layouts(rig, plan, &moved, search_of(options, part));
}

SpaceOutcome make_space_report(const Rig& rig, const Plan& plan, const SearchResult& found, const SpaceOptions& options) {
  check_can_be_spaced(rig);
  check_bounds(options.bounds);
  return report_on(rig, plan, MovedJudge(rig, options.seed, options.errors), found, options);
}

SpaceOutcome find_spacing(const Rig& rig, const Plan& plan, const SpaceOptions& options) {
  check_can_be_spaced(rig);
  const MovedJudge moved(rig, options.seed, options.errors);
  return report_on(rig, plan, moved, search_layouts(rig, plan, &moved, search_of(options, {})), options);
}

}  // namespace spanloom
