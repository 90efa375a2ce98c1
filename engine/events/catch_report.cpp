#include "events/catch_report.h"

#include <algorithm>
#include <cmath>

#include "base/parallel.h"
#include "events/anchor_states.h"
#include "events/fall_search.h"
#include "events/slack_costs.h"

namespace spanloom {
namespace {

constexpr double kFrameEvery = 0.04;     // of the falls told: whole points of their paths, so that times are equal [s]

// Makes one report; falls run side by side.
class Catcher {
 public:
  Catcher(const Rig& rig, const Plan& plan, const CatchReportOptions& options) : rig_(rig), plan_(plan), options_(options) {}

  CatchReportOutcome run() {
    MovingOutcome coarse = moving_rig(rig_, kSearchMesh);
    if (!coarse.rig) return {std::nullopt, coarse.why};
    MovingOutcome fine = moving_rig(rig_, kToldMesh);
    if (!fine.rig) return {std::nullopt, fine.why};
    report_.quick = options_.quick;
    report_.tape_strength_known = rig_.backup.tape_strength.has_value() || rig_.backup.joint == Joint::ring;
    std::vector<AskedFall> asked = first_round(*coarse.rig);
    expected_ = asked.size() + (options_.quick ? kToldGuess : kAfterFirstGuess);
    std::vector<SearchedFall> searched = compute(*coarse.rig, asked, {});
    if (!report_.stopped && !options_.quick) {
      std::vector<SearchedFall> more = compute(*coarse.rig, second_round(*coarse.rig, searched), {});
      std::move(more.begin(), more.end(), std::back_inserter(searched));
    }
    note_search(searched, *coarse.rig);
    if (!report_.stopped) tell(*fine.rig, worst_of(searched), searched);
    // Stopped before the worst were told: those of the search are better than nothing, and the report says so.
    if (report_.main_failure.empty()) take(searched, FallKind::main_failure);
    if (report_.leash_fall.empty()) take(searched, FallKind::leash_fall);
    const bool some = !report_.main_failure.empty() || !report_.leash_fall.empty();
    const bool all = !report_.main_failure.empty() && !report_.leash_fall.empty();
    if (report_.stopped ? !some : !all) return {std::nullopt, why_nothing(searched)};
    order();
    note_clear_height();
    report_.near = anchor_states(rig_, plan_, report_, AnchorEnd::near, options_.units);
    report_.far = anchor_states(rig_, plan_, report_, AnchorEnd::far, options_.units);
    if (!report_.stopped && !options_.quick) add_costs();
    note_assumptions(*coarse.rig);
    return {std::move(report_), {}};
  }

 private:
  static constexpr std::size_t kToldGuess = 20, kAfterFirstGuess = 120;

  bool keep_on() {
    ++done_;
    expected_ = std::max(expected_, done_);
    return !options_.progress || options_.progress(done_, expected_);
  }

  std::vector<SearchedFall> compute(const MovingRig& rig, const std::vector<AskedFall>& asked, const FallOptions& options) {
    std::vector<SearchedFall> out(asked.size());
    const auto work = [&](std::size_t i) { out[i] = {asked[i], run_fall(rig, case_on(rig, asked[i]), options)}; };
    if (!in_parallel(asked.size(), options_.threads, work, [this](std::size_t) { return keep_on(); })) report_.stopped = true;
    std::erase_if(out, [](const SearchedFall& fall) { return !fall.outcome.result && fall.outcome.why.empty(); });  // not begun
    return out;
  }

  void note_search(const std::vector<SearchedFall>& searched, const MovingRig& coarse) {
    report_.search.events = searched.size();
    for (const SearchedFall& fall : searched) {
      report_.search.failed += fall.outcome.result ? 0 : 1;
      report_.search.lost += fall.outcome.result && fall.outcome.result->lost ? 1 : 0;
    }
    std::vector<std::string>& words = report_.search.words;
    words = search_words(coarse, options_.units);
    if (report_.stopped) words.push_back("Stopped on the way: not all of these were looked at.");
    else if (!options_.quick) words.push_back("Then around the worst of these: places between, the walker sitting or hanging.");
  }

  void tell(const MovingRig& fine, const std::vector<AskedFall>& worst, const std::vector<SearchedFall>& searched) {
    FallOptions options;
    options.frame_every = kFrameEvery;
    expected_ = done_ + worst.size() + (options_.quick ? 0 : kCostGuess);
    told_ = compute(fine, worst, options);
    report_.search.told = told_.size();
    for (SearchedFall& fall : told_) {
      if (fall.outcome.result) note_mesh_change(fall, searched);
      else use_searched(fall, searched);
    }
    take(told_, FallKind::main_failure);
    take(told_, FallKind::leash_fall);
    report_.search.words.push_back(report_.stopped ? "Some of the worst were computed again on a finer mesh."
                                                   : "The worst by each measure were computed again on a finer mesh; those are the numbers told.");
  }

  // What the finer mesh gave no number for is told as the search saw it.
  void use_searched(SearchedFall& told, const std::vector<SearchedFall>& searched) {
    for (const SearchedFall& other : searched) {
      if (other.outcome.result && same_fall(other.asked, told.asked)) told = other;
    }
    ++report_.search.failed;
    --report_.search.told;
  }
  static constexpr std::size_t kCostGuess = 35;

  void note_mesh_change(const SearchedFall& told, const std::vector<SearchedFall>& searched) {
    const auto same = std::find_if(searched.begin(), searched.end(), [&](const SearchedFall& other) {
      return same_fall(other.asked, told.asked) && other.outcome.result;
    });
    if (same == searched.end() || !told.outcome.result || told.outcome.result->lost) return;
    const auto change = [](double fine, double coarse) { return coarse > 0.0 ? fine / coarse - 1.0 : 0.0; };
    const auto keep = [](double& most, double value) { most = std::abs(value) > std::abs(most) ? value : most; };
    keep(report_.search.mesh_change_body, change(told.outcome.result->body, same->outcome.result->body));
    keep(report_.search.mesh_change_fall, change(told.outcome.result->fall, same->outcome.result->fall));
  }

  void take(const std::vector<SearchedFall>& falls, FallKind kind) {
    for (const SearchedFall& fall : falls) {
      if (!fall.outcome.result || fall.asked.what.kind != kind) continue;
      (kind == FallKind::main_failure ? report_.main_failure : report_.leash_fall).push_back(*fall.outcome.result);
    }
  }

  std::string why_nothing(const std::vector<SearchedFall>& searched) const {
    for (const SearchedFall& fall : searched) {
      if (!fall.outcome.result) return fall.outcome.why;
    }
    return report_.stopped ? "stopped before the first falls were computed" : "no fall was computed";
  }

  void order() {
    for (auto* falls : {&report_.main_failure, &report_.leash_fall}) {
      std::stable_sort(falls->begin(), falls->end(), [](const FallResult& a, const FallResult& b) {
        return a.lost != b.lost ? a.lost : a.body > b.body;
      });
    }
    report_.worst_failure = worst(report_.main_failure);
    report_.worst_leash_fall = worst(report_.leash_fall);
  }

  static CatchReport::Worst worst(const std::vector<FallResult>& falls) {
    const auto by = [&](FallMeasure measure) {
      const auto most = std::max_element(falls.begin(), falls.end(), [&](const FallResult& a, const FallResult& b) {
        return badness(a, measure) < badness(b, measure);
      });
      return std::size_t(most - falls.begin());
    };
    return {by(FallMeasure::body), by(FallMeasure::fall), by(FallMeasure::clearance), by(FallMeasure::wall),
            by(FallMeasure::near), by(FallMeasure::far), by(FallMeasure::backup)};
  }

  void note_clear_height() {
    if (report_.search.lost > 0) return;
    for (const auto* falls : {&report_.main_failure, &report_.leash_fall}) {
      for (const FallResult& fall : *falls) {
        const double needed = fall.clear_height + rig_.limits.reserve.value;
        if (fall.lost || fall.in_anchor_zone || needed <= report_.clear_height_needed) continue;
        report_.clear_height_needed = needed;
        report_.clear_height_at = fall.walker_m;
      }
    }
  }

  // The rig's worst main failures, by fall and by force, are what a change of slack is judged by.
  void add_costs() {
    std::vector<AskedFall> falls;
    for (const FallMeasure measure : {FallMeasure::fall, FallMeasure::body}) {
      const SearchedFall* most = nullptr;
      for (const SearchedFall& fall : told_) {
        if (fall.asked.what.kind != FallKind::main_failure || !fall.outcome.result || fall.outcome.result->lost) continue;
        if (!most || badness(*fall.outcome.result, measure) > badness(*most->outcome.result, measure)) most = &fall;
      }
      if (most && (falls.empty() || !same_fall(falls.front(), most->asked))) falls.push_back(most->asked);
    }
    SlackCosts costs(rig_, plan_, falls);
    expected_ = done_ + costs.pieces();
    if (in_parallel(costs.pieces(), options_.threads, [&](std::size_t i) { costs.do_piece(i); }, [this](std::size_t) { return keep_on(); })) {
      report_.costs = costs.table();
      report_.cost_shakes = SlackCosts::shakes();
    } else {
      report_.stopped = true;
    }
  }

  void note_assumptions(const MovingRig& coarse) {
    std::vector<std::string>& notes = report_.notes;
    if (!coarse.has_loops()) notes.push_back("There is no backup in this rig.");
    if (rig_.backup.joint == Joint::taped && !rig_.backup.tape_strength) {
      notes.push_back("How much a tape holds is not given (backup.tape_strength): everything was computed with tapes that never "
                      "tear and with tapes that hold nothing, and the worse of the two counts.");
    }
    notes.push_back("The walker loses the footing at the latest half a second after the main has failed, and does not find it again.");
    notes.push_back("The body meets neither line nor leash on its way down, and nothing but the leash holds it. No ground and no wall "
                    "stops it: where it meets them, what is told of the time after does not hold. Leash and webbing are taken not to break.");
    notes.push_back("A failed main whips back with whatever hangs on its end. Nobody belongs in line with it behind an anchor.");
    const auto tugs = [](const FallResult& fall) { return !fall.lost && fall.what.cut && fall.body > fall.backup; };
    if (std::any_of(report_.main_failure.begin(), report_.main_failure.end(), tugs)) {
      notes.push_back("Where the body feels more than the backup carries, it is hardly the catch: the loose end of the main, with the "
                      "hardware on it, shoots through the leash ring and tugs at it. How hard is a matter of chance. Hardware that is "
                      "tied back to something sound does not fly.");
    }
    if (report_.search.failed > 0) {
      notes.push_back(std::to_string(report_.search.failed) + " of the falls gave no number (no proven rest, or energy that does not add up); they are left out, "
                      "or told as the coarser mesh of the search saw them.");
    }
  }

  const Rig& rig_;
  const Plan& plan_;
  CatchReportOptions options_;
  CatchReport report_;
  std::vector<SearchedFall> told_;
  std::size_t done_ = 0, expected_ = 1;
};

}  // namespace

CatchReportOutcome make_catch_report(const Rig& rig, const Plan& plan, const CatchReportOptions& options) {
  return Catcher(rig, plan, options).run();
}

}  // namespace spanloom
