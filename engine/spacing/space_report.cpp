#include "spacing/space_report.h"

#include <algorithm>
#include <cmath>

#include "base/input_error.h"
#include "checks/check_layout.h"
#include "spacing/layout_trials.h"
#include "spacing/space_words.h"

namespace spanloom {
namespace {

constexpr const char* kNoRest = "the line found no proven rest when cut for motion";

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
    trials_ = begin_trials(rig_, plan_, found_.pool, own_checks_, options_);
    if (!report_.stopped) {
      report_.shaken = trials_.found.size();
      run_trials(trials_, rig_, plan_, moved_, options_, [&](const SpaceProgress& at) { return !options_.progress || options_.progress(at); });
      report_.stopped = trials_.stopped;
    }
    if (report_.stopped) trials_.shown = front_in_small_motion(trials_);
    report_.notes.insert(report_.notes.end(), trials_.notes.begin(), trials_.notes.end());
    show();
    finish();
    return std::move(report_);
  }

 private:
  bool tell(const char* stage, double done) {
    if (options_.progress && !options_.progress({stage, done, std::nullopt})) report_.stopped = true;
    return !report_.stopped;
  }

  // The last one: they fall by more than scatter. Or the asked number of tapes, or the next fewer.
  std::size_t chosen_of(const std::vector<std::size_t>& shown) const {
    if (!options_.tapes) return shown.back();
    std::size_t chosen = shown.front();
    for (const std::size_t i : shown) {
      if (trials_.found[i].layout.bays.size() - 1 <= *options_.tapes) chosen = i;
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

  void show() {
    const std::vector<std::size_t>& shown = trials_.shown;
    take_plan(report_.own = judged(trials_.own), trials_.own.proven);
    for (const std::size_t i : shown) take_plan(report_.points.emplace_back(judged(trials_.found[i])), trials_.found[i].proven);
    if (shown.empty()) return;
    const std::size_t chosen = chosen_of(shown);
    report_.chosen = std::size_t(std::find(shown.begin(), shown.end(), chosen) - shown.begin());
    report_.proven = trials_.found[chosen].proven;
    if (options_.tapes && trials_.found[chosen].layout.bays.size() - 1 > *options_.tapes) {
      report_.notes.push_back(not_so_few_words(*options_.tapes, trials_.found[chosen].layout.bays.size() - 1));
    }
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
    study.seed = ~options_.seed;   // crews that nothing was chosen by
    study.threads = options_.threads;
    study.progress = [this](double) { return tell("taping", kToldAll); };
    const auto done = study_taping(rig_, plan_, moved_, out.layout, study);
    if (done && !report_.stopped) out.moved_as_taped = done->glanced(), out.taut_crews = done->small().taut;
    const std::optional<MovingRig> line = moved_.line(out.layout);
    if (!line) return;
    const MovedReturn planned = moved_.shake(*line, ShakeSet::fast);
    if (planned.shakes > 0) out.moved_glance = planned.mean;
  }

  void take_even() {
    if (!trials_.even) return;
    if (!trials_.even->stands || mean_of(trials_.even->told).shakes == 0) {
      report_.why_no_even = "evenly taped it found no proven rest, or a tape meets a joint";
      return;
    }
    const std::optional<ProvenLayout> proven =
        prove_layout(rig_, trials_.even->layout, own_checks_, options_.bounds.most_backup_tension, options_.units);
    if (!proven) {
      report_.why_no_even = "evenly taped it has no plan";
      return;
    }
    take_plan(report_.even.emplace(judged(*trials_.even)), *proven);
  }

  void take_random() {
    std::vector<MovedReturn> moved;
    RandomLayouts random;
    for (const Trial& trial : trials_.random) {
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
  SpaceWork work_;
  std::vector<Check> own_checks_;
  LayoutJudge judge_;
  SpaceReport report_;
  LayoutTrials trials_;
};

SpaceOutcome report_on(const Rig& rig, const Plan& plan, const MovedJudge& moved, const SearchResult& found, const SpaceOptions& options) {
  if (!moved.stands()) return {std::nullopt, kNoRest};
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
  if (!moved.stands()) return {std::nullopt, kNoRest};
  return report_on(rig, plan, moved, search_layouts(rig, plan, &moved, search_of(options, {})), options);
}

}  // namespace spanloom
