#include "sheet/shake_text.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include <fmt/format.h>

#include "sheet/key_numbers.h"
#include "sheet/shake_numbers.h"
#include "sheet/text_table.h"

namespace spanloom {
namespace {

constexpr double kDegrees = 180.0 / std::numbers::pi;

class Report : private PlainText {
 public:
  Report(const Rig& rig, const ShakeReport& report, const std::vector<Check>& checks, const SheetInfo& info)
      : rig_(rig), report_(report), checks_(checks), info_(info) {}

  std::string write() {
    add_head();
    // Sentences compare all with all: of a part they would be wrong.
    if (!report_.stopped) add_meaning();
    add_returns(ShakeDirection::sideways, "Return of a sideways shake, percent");
    add_returns(ShakeDirection::up, "Return of a shake upwards, percent");
    add_reading_of_returns();
    if (!report_.stopped) add_lines();
    add_frequencies();
    if (!report_.stopped) add_swings();
    add_ledger();
    add_list("Notes", report_.notes);
    add_list("Cautions", cautions());
    return text();
  }

 private:
  void add_head();
  void add_meaning();
  void add_returns(ShakeDirection direction, const char* heading);
  void add_reading_of_returns();
  void add_lines();
  void add_frequencies();
  void add_modes(const char* name, const std::vector<double>& frequencies);
  std::string why_no_modes(ShakeDirection direction) const;
  void add_swings();
  void add_swing(const SwingCase& swing);
  void add_ledger();

  const Rig& rig_;
  const ShakeReport& report_;
  const std::vector<Check>& checks_;
  const SheetInfo& info_;
};

void Report::add_head() {
  add_words(rig_.title);
  add_line(std::string(kTextColumns, '='));
  if (report_.quick) add_words(quick_look_words());
  add_words(fmt::format("Shake: {}, {}, spanloom {}", info_.file_name, info_.date, info_.version));
  add_words(cautions().front());
  add_words(fmt::format("Verdict of the plan: {} ({})", verdict_word(worst(checks_)), verdict_counts(checks_)));
  if (report_.stopped) {
    add_line("");
    add_words("STOPPED BEFORE THE END. Below is what was done until then; it is not complete, and a worse case may "
              "be among what was not done.");
  }
}

void Report::add_meaning() {
  std::vector<std::string> sentences = report_.sentences;
  sentences.insert(sentences.end(), report_.swing_sentences.begin(), report_.swing_sentences.end());
  add_list("What it means", sentences);
}

void Report::add_returns(ShakeDirection direction, const char* heading) {
  const std::vector<ComparedLine> lines = lines_shaken(report_, direction);
  if (lines.empty()) return;
  add_heading(heading);
  std::vector<std::string> heads = {"frequency"};
  for (const ComparedLine line : lines) {
    heads.push_back(fmt::format("{} mean", name_of(line)));
    heads.push_back(fmt::format("{} worst", name_of(line)));
  }
  TextTable table(std::move(heads));
  for (const double frequency : report_.frequencies) {
    std::vector<std::string> row = {hertz(frequency) + " Hz"};
    for (const ComparedLine line : lines) {
      const auto over = report_.over_places(line, frequency, direction);
      row.push_back(over ? whole_percent(over->mean) : "-");
      row.push_back(over ? whole_percent(over->worst) : "-");
    }
    table.add(std::move(row));
  }
  add_table(table);
}

void Report::add_reading_of_returns() {
  if (report_.shakes.empty()) return;
  std::string places;
  for (std::size_t i = 0; i < report_.places.size(); ++i) {
    const bool last = i + 1 == report_.places.size();
    places += fmt::format("{}{} %", i == 0 ? "" : last ? " and " : ", ", whole_percent(report_.places[i]));
  }
  std::string others;
  for (const ComparedLine line : {ComparedLine::even, ComparedLine::bare}) {
    const auto is_of_it = [&](const ReportedShake& shake) { return shake.line == line; };
    if (std::none_of(report_.shakes.begin(), report_.shakes.end(), is_of_it)) continue;
    others += line == ComparedLine::even
                  ? "\"even\" is the line evenly taped: as many tapes, the same share of slack over all, at the same tension. "
                  : "\"bare\" is the main alone, no loops, at the same tension. ";
  }
  add_line("");
  add_words(fmt::format(
      "Return: how much of the swing that a shake sends the main still has two round trips later, over its whole "
      "length. \"mean\" is over shakes at {} of the gap, \"worst\" the greatest of them. {}More than 100 can be: while "
      "the shake lasts, what it sends has not yet spread over the whole line.",
      places, others));
}

void Report::add_lines() {
  if (report_.lines.empty()) return;
  add_heading(report_.quick ? "The line" : "The lines compared");
  const UnitSystem units = info_.units;
  TextTable table({"line", fmt::format("tension {}", unit_text(Measure::force, units)), "round trip s", "sideways %",
                   "up %"});
  bool any = false;
  for (const ComparedState& line : report_.lines) {
    if (!line.there) continue;
    any = true;
    const auto mean = [&](double value, ShakeDirection direction) {
      const std::vector<ComparedLine> shaken = lines_shaken(report_, direction);
      const bool has = std::find(shaken.begin(), shaken.end(), line.line) != shaken.end();
      return has ? whole_percent(value) : std::string("-");
    };
    table.add({label_of(line.line), number_text(line.tension, Measure::force, units),
               number_text(line.round_trip, Measure::duration, units), mean(line.mean_sideways, ShakeDirection::sideways),
               mean(line.mean_up, ShakeDirection::up)});
  }
  if (any) {
    add_table(table);
    add_words("Sideways and up: mean return over frequencies and places.");
  }
  for (const ComparedState& line : report_.lines) {
    if (!line.there && !line.why_not.empty()) add_words(fmt::format("{}: {}", label_of(line.line), line.why_not));
  }
}

void Report::add_modes(const char* name, const std::vector<double>& frequencies) {
  constexpr std::size_t kLowest = 6;
  if (frequencies.empty()) return add_labelled(name, "none below 5 Hz", 11);
  std::string lowest;
  for (std::size_t i = 0; i < std::min(kLowest, frequencies.size()); ++i) {
    lowest += fmt::format("{}{:.2f}", i == 0 ? "" : ", ", frequencies[i]);
  }
  add_labelled(name, fmt::format("{} below 5 Hz, the lowest {} Hz", frequencies.size(), lowest), 11);
}

std::string Report::why_no_modes(ShakeDirection direction) const {
  if (report_.quick && direction == ShakeDirection::up) return "not computed in a quick look";
  return report_.stopped ? "not computed, stopped before" : "not computed, see the notes";
}

void Report::add_frequencies() {
  if (report_.shakes.empty() && !report_.lateral && !report_.in_plane) return;
  add_heading("Natural frequencies, standing");
  const auto add = [this](ShakeDirection direction, const std::optional<std::vector<double>>& frequencies) {
    if (frequencies) return add_modes(name_of(direction), *frequencies);
    add_labelled(name_of(direction), why_no_modes(direction), 11);
  };
  add(ShakeDirection::sideways, report_.lateral);
  add(ShakeDirection::up, report_.in_plane);
}

void Report::add_swing(const SwingCase& swing) {
  if (swing.why_not) return add_labelled("-", fmt::format("{}: not computed, {}.", swing.name, *swing.why_not), 2);
  if (swing.loops.empty()) return add_labelled("-", swing.name + ": there are no loops.", 2);
  const SwungLoops swung = swung_loops(swing);
  std::string words = fmt::format("{}: farthest {:.0f} degrees, in bay {}.", swing.name, kDegrees * swung.greatest,
                                  swung.greatest_bay);
  if (!swung.far.empty()) words += fmt::format(" Higher than level with the main: {}.", bays_text(swung.far));
  words += swung.over.empty() ? " None passes over the main."
                              : fmt::format(" PASSES OVER THE MAIN: {}.", bays_text(swung.over));
  add_labelled("-", words, 2);
}

void Report::add_swings() {
  if (report_.swings.empty()) return;
  add_heading("How far loops swing about the main");
  for (const SwingCase& swing : report_.swings) add_swing(swing);
  if (report_.quick) add_labelled("-", "gust and bounce: not computed in a quick look.", 2);
  add_words("0 degrees: hanging; 90: level with the main; 180: above it.");
  if (const std::string words = after_a_shake(report_); !words.empty()) add_words(words);
}

void Report::add_ledger() {
  if (report_.shakes.empty()) return;
  double drift = 0.0;
  for (const ReportedShake& shake : report_.shakes) {
    const EnergyLedger& ledger = shake.result.ledger;
    if (ledger.put_in > 0.0) drift = std::max(drift, std::abs(ledger.drift) / ledger.put_in);
  }
  const double hundredths = std::max(1.0, std::ceil(1e4 * drift - 1e-9));  // of a percent
  add_heading("How good the numbers are");
  add_words(fmt::format("Every one of the {} shakes is a run of the whole line whose energy was kept account of: the "
                        "energy adds up to within {:g} % of what was put in. That is the arithmetic; the webbing data, "
                        "most of all their loss, decide the rest.",
                        report_.shakes.size(), 0.01 * hundredths));
}

}  // namespace

std::string shake_text(const Rig& rig, const ShakeReport& report, const std::vector<Check>& checks,
                       const SheetInfo& info) {
  return Report(rig, report, checks, info).write();
}

}  // namespace spanloom
