#include "sheet/survey_text.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "checks/verdicts.h"
#include "sheet/text_table.h"

namespace spanloom {
namespace {

constexpr double kAlike = 0.99;  // shares so near to the greatest are named with it [-]
constexpr double kTied = 0.3;    // correlation worth a word [-]
constexpr double kSmall = 0.1;  // lengths below are told in small units [m]

std::string length(double si, UnitSystem units) {
  return quantity_text(si, std::abs(si) < kSmall ? Measure::small_length : Measure::length, units);
}

std::string plain_length(double si, UnitSystem units) { return quantity_text(si, Measure::length, units); }

/// "62.01 m +-12 mm".
std::string in_doubt(double si, double sd, UnitSystem units) {
  return fmt::format("{} +-{}", plain_length(si, units), length(sd, units));
}

std::string force(double si, UnitSystem units) { return quantity_text(si, Measure::force, units); }

bool holds(const std::optional<double>& tension, double planned) {
  return tension && std::abs(*tension - planned) <= kTensionShare * planned;
}

bool tension_holds(const TensionInDoubt& t) {
  return holds(t.longer, t.planned) && holds(t.shorter, t.planned) && holds(t.higher, t.planned) &&
         holds(t.lower, t.planned);
}

void add_ways(const SurveyReport& report, UnitSystem units, PlainText& text) {
  text.add_heading("How it was measured");
  TextTable table({"way", "gap", "+-", "rise", "+-", "part of the gap"});
  for (const WayResult& way : report.ways) {
    table.add({way.words, plain_length(way.found.gap, units), length(way.found.gap_sd(), units),
               plain_length(way.found.rise, units), length(way.found.rise_sd(), units),
               fmt::format("{:.0f} %", 100.0 * way.part)});
  }
  text.add_table(table);
  text.add_words("Each way counts by the inverse of its variance. +- is one standard deviation.");
}

void add_shares(const SurveyReport& report, UnitSystem units, PlainText& text) {
  text.add_heading("Where the doubt comes from");
  TextTable table({"way, reading", "in the gap", "in the rise"});
  for (const WayResult& way : report.ways) {
    const std::string name = way.words.substr(0, way.words.find(','));
    for (const Share& share : way.shares) {
      table.add({name + ", " + share.of, length(share.gap_sd, units), length(share.rise_sd, units)});
    }
  }
  text.add_table(table);
  const auto best = std::max_element(report.ways.begin(), report.ways.end(),
                                     [](const WayResult& a, const WayResult& b) { return a.part < b.part; });
  const auto most = [&](double Share::*sd) {
    double greatest = 0.0;
    for (const Share& share : best->shares) greatest = std::max(greatest, share.*sd);
    std::string names;
    for (const Share& share : best->shares) {
      if (share.*sd > kAlike * greatest) names += (names.empty() ? "" : " and ") + share.of;
    }
    return names;
  };
  text.add_words(
      fmt::format("Of the way that counts most ({}), most of the gap's doubt comes from: {}; of the rise's: {}.",
                  best->words, most(&Share::gap_sd), most(&Share::rise_sd)));
}

void add_length(const char* head, const LengthInDoubt& d, UnitSystem units, PlainText& text) {
  text.add_labelled(head, fmt::format("{}: from the gap {}, from the rise {}", in_doubt(d.length, d.sd, units),
                                      length(std::abs(d.by_gap), units), length(std::abs(d.by_rise), units)), 18);
}

std::string tension_or(const std::optional<double>& tension, UnitSystem units) {
  return tension ? force(*tension, units) : "no proven rest";
}

void add_rig(const SurveyedRig& rig, const GapRise& found, UnitSystem units, PlainText& text) {
  text.add_heading("What it does to the rig");
  text.add_words(rig.title + ", planned at this gap and rise:");
  if (!rig.outcome.effect) {
    text.add_words("Not known: " + rig.outcome.why + ".");
    return;
  }
  const GapEffect& effect = *rig.outcome.effect;
  add_length("main length", effect.main, units, text);
  add_length("backup length", effect.backup, units, text);
  const bool by_rise = std::abs(effect.main.by_rise) > std::abs(effect.main.by_gap);
  text.add_words(fmt::format("Most of the doubt of the main's length comes from the {}: {} +-{}.",
                             by_rise ? "rise" : "gap", by_rise ? "rise" : "gap",
                             length(by_rise ? found.rise_sd() : found.gap_sd(), units)));
  if (std::abs(found.covariance) > kTied * found.gap_sd() * found.rise_sd()) {
    text.add_words(
        "Gap and rise are off together, since one angle gives both: what they do to a length does not simply add up.");
  }
  const TensionInDoubt& t = effect.tension;
  text.add_line("");
  text.add_words(fmt::format(
      "If all webbing is cut and joined for this gap, the main stands at {}. If the gap is one standard "
      "deviation ({}) longer: {}; shorter: {}. If the far anchor is one standard deviation ({}) higher: "
      "{}; lower: {}.",
      force(t.planned, units), length(found.gap_sd(), units), tension_or(t.longer, units), tension_or(t.shorter, units),
      length(found.rise_sd(), units), tension_or(t.higher, units), tension_or(t.lower, units)));
}

void add_ground(const SurveyReport& report, UnitSystem units, PlainText& text) {
  text.add_heading("Ground");
  const std::vector<GroundPoint>& points = report.ground.points;
  if (points.empty()) {
    text.add_words("Not known from anchor to anchor: without it no clearance is checked.");
    return;
  }
  std::string from;
  for (const std::string& source : report.ground.from) from += (from.empty() ? "" : ", then ") + source;
  const auto lowest = std::min_element(points.begin(), points.end(),
                                       [](const GroundPoint& a, const GroundPoint& b) { return a.height < b.height; });
  text.add_words(fmt::format("{} points from {}; lowest {} {} the near anchor, {} from it.", points.size(), from,
                             plain_length(std::abs(lowest->height), units), lowest->height > 0.0 ? "above" : "below",
                             plain_length(lowest->distance, units)));
  if (report.ground.height_sd > 0.0) text.add_words("Caution: " + track_caution(report.ground, units));
}

}  // namespace

std::string track_caution(const GroundProfile& ground, UnitSystem units) {
  const double sd = ground.height_sd;
  const std::string about = units == UnitSystem::metric && sd >= 1.0 ? fmt::format("{:.0f} m", sd) : length(sd, units);
  return fmt::format("heights from a satellite track: good to about {}; measure the lowest clearances by other means.",
                     about);
}

CutVerdict cut_verdict(const SurveyReport& report, const std::optional<SurveyedRig>& rig, UnitSystem units) {
  const std::string gap = in_doubt(report.found.gap, report.found.gap_sd(), units);
  const std::string rise = in_doubt(report.found.rise, report.found.rise_sd(), units);
  if (report.torn) {
    return {
        false,
        "Cut nothing by this: readings contradict each other. See the notes, find out which are wrong, measure again."};
  }
  const bool only_positions = std::all_of(report.ways.begin(), report.ways.end(),
                                          [](const WayResult& way) { return way.way == SurveyWay::position; });
  if (!report.well_enough) {
    return {false, fmt::format(
                       "The gap is NOT known well enough to cut webbing: {}, and more than {} of doubt is too much. {}",
                       gap, length(kCutShare * report.found.gap, units),
                       only_positions ? "Satellite positions are good for a first plan; measure with a laser or a tape "
                                        "before you cut."
                                      : "Measure again, with better readings.")};
  }
  const bool moved = rig && rig->outcome.effect && !tension_holds(rig->outcome.effect->tension);
  if (moved || (rig && !rig->outcome.effect)) {
    return {
        false,
        fmt::format(
            "Gap and rise are NOT known well enough to cut webbing for this rig: {}, rise {}; one standard deviation "
            "moves its tension by more than {:.0f} %, or that could not be shown.",
            gap, rise, 100.0 * kTensionShare)};
  }
  if (!report.assumed.empty()) {
    return {true,
            "The gap is known well enough to cut webbing IF our assumed uncertainties hold for your instruments: state "
            "your own."};
  }
  return {true, "The gap is known well enough to cut webbing, leaving the tails you always leave."};
}

std::string survey_text(const Survey& survey, const SurveyReport& report, const std::optional<SurveyedRig>& rig,
                        const SheetInfo& info) {
  PlainText text;
  text.add_words(survey.title);
  text.add_line(std::string(kTextColumns, '='));
  text.add_words(fmt::format("Survey: {}, {}, spanloom {}", info.file_name, info.date, info.version));
  text.add_words(cautions().front());
  text.add_heading("Gap and rise");
  text.add_labelled("gap", in_doubt(report.found.gap, report.found.gap_sd(), info.units) + ", horizontal", 18);
  text.add_labelled(
      "rise", in_doubt(report.found.rise, report.found.rise_sd(), info.units) + ", far anchor above the near one", 18);
  text.add_words(cut_verdict(report, rig, info.units).words);
  add_ways(report, info.units, text);
  add_shares(report, info.units, text);
  for (const PositionSurvey& p : survey.positions) {
    const double apart = p.geodesic - std::hypot(p.far.x, p.far.y);
    text.add_words(fmt::format(
        "{}: the geodesic on the WGS84 ellipsoid, lifted to the mean height of the anchors, is {} long, {} from "
        "the straight horizontal distance.",
        p.name, plain_length(p.geodesic, info.units),
        quantity_text(std::abs(apart), Measure::small_length, info.units)));
  }
  if (rig) add_rig(*rig, report.found, info.units, text);
  add_ground(report, info.units, text);
  text.add_list("Notes", report.notes);
  text.add_list("Assumed, not stated (common practice, no source)", report.assumed);
  text.add_list("Cautions", cautions());
  return text.text();
}

}  // namespace spanloom
