#include "motion/shake_report.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numeric>

#include <fmt/format.h>

#include "base/input_error.h"
#include "base/parallel.h"
#include "motion/shake_words.h"
#include "motion/small_motion.h"
#include "rig/find_problems.h"

namespace spanloom {
namespace {

constexpr double kHighestMode = 5.0;        // [Hz]
constexpr double kPicturedFrequency = 2.5;  // [Hz]
constexpr double kPicturedPlace = 0.15;     // share of the gap
constexpr double kPicturedTrips = 5.0;      // round trips in the picture

double spread(const std::vector<double>& values) {
  if (values.size() < 2) return 0.0;
  const double mean = std::accumulate(values.begin(), values.end(), 0.0) / double(values.size());
  double square = 0.0;
  for (const double v : values) square += (v - mean) * (v - mean);
  return std::sqrt(square / double(values.size())) / mean;
}

std::optional<std::vector<double>> frequencies_of(const MovingRig& rig, Swing swing, std::vector<std::string>& notes) {
  const auto beside = [](const Vec3& at) { return at.y != 0.0; };
  if (std::any_of(rig.rest.begin(), rig.rest.end(), beside)) {
    notes.push_back("Natural frequencies left out: an anchor of the backup lies beside the line, so that it does not swing "
                    "sideways and up on its own.");
    return std::nullopt;
  }
  ModeRange range;
  range.below_Hz = kHighestMode;
  const Modes modes = natural_modes(rig.line, rig.rest, swing, range);
  if (!modes.certified) {
    notes.push_back("Natural frequencies left out: not all of them could be proven.");
    return std::nullopt;
  }
  std::vector<double> all;
  for (const Mode& mode : modes.modes) all.push_back(mode.frequency);
  return all;
}

// Makes one report; the pieces of work run side by side.
class Reporter {
 public:
  Reporter(const Rig& rig, const ShakeReportOptions& options) : rig_(rig), options_(options) {}

  ShakeReportOutcome run() {
    MovingOutcome standing = moving_rig(rig_, options_.mesh);
    if (!standing.rig) return {std::nullopt, standing.why};
    lines_.push_back(std::move(standing));
    if (!options_.quick) {
      lines_.push_back(evenly_taped(*lines_[0].rig, options_.mesh));
      lines_.push_back(without_loops(*lines_[0].rig));
    }
    describe_lines();
    list_work();
    const bool finished = in_parallel(work_.size(), options_.threads, [this](std::size_t i) { work_[i](); },
                                      [this](std::size_t done) { return tell(done); });
    report_.stopped = !finished;
    collect();
    return {std::move(report_), {}};
  }

 private:
  const MovingRig& rig() const { return *lines_[0].rig; }

  // The settling of the worst case comes when all else is done.
  bool tell(std::size_t done) { return !options_.progress || options_.progress(done, work_.size() + (options_.quick ? 0 : 1)); }

  void describe_lines() {
    report_.frequencies = third_octaves();
    report_.places = {0.15, 0.35, 0.5};
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      ComparedState& state = report_.lines.emplace_back();
      state.line = ComparedLine(i);
      state.there = lines_[i].rig.has_value();
      state.why_not = lines_[i].why;
      if (!state.there) continue;
      state.tension = lines_[i].rig->tension;
      state.round_trip = lines_[i].rig->round_trip;
    }
    report_.unevenness = {spread(rig().bay_length), spread(rig().drop)};
    report_.pictured = {kPicturedFrequency, kPicturedPlace, ShakeDirection::sideways, rig_.shake.swing.value};
  }

  // The longest runs come first, so that no thread is left alone with one at the end.
  void list_work() {
    if (!options_.quick) {
      work_.push_back([this] { gust_ = swing_in_gust(rig(), options_.units); });
      work_.push_back([this] { bounce_ = swing_in_bounce(rig(), options_.units); });
    }
    work_.push_back([this] {
      report_.lateral = frequencies_of(rig(), Swing::lateral, mode_notes_);
      if (!options_.quick) report_.in_plane = frequencies_of(rig(), Swing::in_plane, mode_notes_);
      mode_notes_.erase(std::unique(mode_notes_.begin(), mode_notes_.end()), mode_notes_.end());
    });
    work_.push_back([this] {
      const double time = 1.0 / kPicturedFrequency + kPicturedTrips * rig().round_trip;
      ShakeOutcome pictured = run_shake(rig(), report_.pictured, {true, time});
      report_.history = std::move(pictured.history);
      if (!pictured.result) picture_why_ = std::move(pictured.why.words);
    });
    std::vector<ShakeDirection> directions = {ShakeDirection::sideways};
    if (!options_.quick) directions.push_back(ShakeDirection::up);
    for (const double frequency : report_.frequencies) {
      for (std::size_t line = 0; line < lines_.size(); ++line) {
        if (!lines_[line].rig) continue;
        for (const ShakeDirection direction : directions) {
          for (const double place : report_.places) {
            slots_.push_back({ComparedLine(line), {frequency, place, direction, rig_.shake.swing.value}, {}, {}});
          }
        }
      }
    }
    for (std::size_t i = 0; i < slots_.size(); ++i) work_.push_back([this, i] { shake_slot(slots_[i]); });
  }

  struct Slot { ComparedLine line; Shake shake; std::optional<ShakeResult> result; std::string why; };

  void shake_slot(Slot& slot) {
    ShakeOutcome outcome = run_shake(*lines_[std::size_t(slot.line)].rig, slot.shake);
    slot.result = std::move(outcome.result);
    slot.why = std::move(outcome.why.words);
  }

  // A shake without a number is left out and said so.
  void collect() {
    report_.quick = options_.quick;
    for (Slot& slot : slots_) {
      if (slot.result) report_.shakes.push_back({slot.line, std::move(*slot.result), std::nullopt});
      else if (!slot.why.empty()) report_.notes.push_back(fmt::format("Left out ({}): {}.", name_of(slot.line), slot.why));
    }
    if (!picture_why_.empty()) report_.notes.push_back(fmt::format("Picture left out: {}.", picture_why_));
    report_.notes.insert(report_.notes.end(), mode_notes_.begin(), mode_notes_.end());
    if (!report_.stopped) {
      take_means();
      find_worst();
    }
    if (!report_.stopped) add_swings();
    say(report_, rig(), options_.units);
  }

  void find_worst() {
    for (std::size_t i = 0; i < report_.shakes.size(); ++i) {
      if (report_.shakes[i].line != ComparedLine::rig) continue;
      if (!report_.worst || report_.shakes[i].result.returned > report_.shakes[*report_.worst].result.returned) report_.worst = i;
    }
    if (!report_.worst || options_.quick) return;
    ReportedShake& worst = report_.shakes[*report_.worst];
    worst.settling = settling_of(rig(), worst.result, [this] { return !(report_.stopped = !tell(work_.size())); });
    if (!report_.stopped && !worst.settling) report_.notes.push_back("Settling time left out: its energy ledger did not close.");
    if (!report_.stopped) tell(work_.size() + 1);
  }

  void take_means() {
    for (ComparedState& state : report_.lines) {
      for (const ShakeDirection direction : {ShakeDirection::sideways, ShakeDirection::up}) {
        double sum = 0.0;
        std::size_t count = 0;
        for (const ReportedShake& shake : report_.shakes) {
          if (shake.line != state.line || shake.result.shake.direction != direction) continue;
          sum += shake.result.returned;
          ++count;
        }
        if (count > 0) (direction == ShakeDirection::sideways ? state.mean_sideways : state.mean_up) = sum / double(count);
      }
    }
  }

  void add_swings() {
    SwingCase shakes{"shakes", "In the sideways shakes", std::vector<LoopSwing>(rig().has_loops() ? rig().bays() : 0), std::nullopt};
    for (const ReportedShake& shake : report_.shakes) {
      if (shake.line != ComparedLine::rig || shake.result.shake.direction != ShakeDirection::sideways) continue;
      for (std::size_t bay = 0; bay < shakes.loops.size(); ++bay) {
        const LoopSwing& here = shake.result.loops[bay];
        shakes.loops[bay].greatest = std::max(shakes.loops[bay].greatest, here.greatest);
        shakes.loops[bay].passes_over = shakes.loops[bay].passes_over || here.passes_over;
      }
    }
    report_.swings.push_back(std::move(shakes));
    if (options_.quick) return;
    report_.swings.push_back(std::move(gust_));
    report_.swings.push_back(std::move(bounce_));
  }

  const Rig& rig_;
  const ShakeReportOptions& options_;
  std::vector<MovingOutcome> lines_;      // rig, even, bare
  std::vector<std::function<void()>> work_;
  std::vector<Slot> slots_;
  SwingCase gust_, bounce_;
  std::vector<std::string> mode_notes_;
  std::string picture_why_;
  ShakeReport report_;
};

}  // namespace

const char* name_of(ComparedLine line) {
  switch (line) {
    case ComparedLine::rig: return "rig";
    case ComparedLine::even: return "even";
    default: return "bare";
  }
}

const char* name_of(ShakeDirection direction) { return direction == ShakeDirection::sideways ? "sideways" : "up"; }

std::vector<double> third_octaves() { return {0.5, 0.63, 0.8, 1.0, 1.25, 1.6, 2.0, 2.5, 3.15, 4.0}; }

const ReportedShake* ShakeReport::find(ComparedLine line, double frequency, double place, ShakeDirection direction) const {
  const auto found = std::find_if(shakes.begin(), shakes.end(), [&](const ReportedShake& s) {
    const Shake& shake = s.result.shake;
    return s.line == line && shake.frequency == frequency && shake.place == place && shake.direction == direction;
  });
  return found == shakes.end() ? nullptr : &*found;
}

std::optional<ReturnOverPlaces> ShakeReport::over_places(ComparedLine line, double frequency, ShakeDirection direction) const {
  ReturnOverPlaces over;
  for (const double place : places) {
    const ReportedShake* shake = find(line, frequency, place, direction);
    if (shake == nullptr) continue;
    over.mean += shake->result.returned;
    over.worst = std::max(over.worst, shake->result.returned);
    ++over.places;
  }
  if (over.places == 0) return std::nullopt;
  over.mean /= double(over.places);
  return over;
}

ShakeReportOutcome make_shake_report(const Rig& rig, const ShakeReportOptions& options) {
  if (std::vector<Problem> problems = find_problems(rig); !problems.empty()) throw InputError(std::move(problems));
  return Reporter(rig, options).run();
}

}  // namespace spanloom
