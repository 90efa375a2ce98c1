#include "survey/survey.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/input_error.h"

namespace spanloom {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;

enum class Read { length, angle };

/// The same problems, their keys under that of the table that holds them.
InputError under(const std::string& table, const InputError& error) {
  std::vector<Problem> problems = error.problems();
  for (Problem& p : problems) p.key = table + '.' + p.key;
  return InputError(std::move(problems));
}

/// One survey being worked out.
class Worker {
 public:
  Worker(const Survey& survey, UnitSystem units) : survey_(survey), units_(units) {}

  SurveyReport work() {
    for (const PositionSurvey& position : survey_.positions) add_position(position);
    for (std::size_t i = 0; i < survey_.lasers.size(); ++i) add_laser(survey_.lasers[i], i);
    for (std::size_t i = 0; i < survey_.stands.size(); ++i) add_stand(survey_.stands[i], i);
    if (report_.ways.empty()) {
      throw InputError("survey", "no measurement of the gap",
                       "positions of both anchors, or laser readings between them",
                       "add [anchors], gpx, [[laser]] or [[stand]]");
    }
    join();
    compare();
    if (!(report_.found.gap > 0.0)) throw InputError("survey", "both anchors at one place", "two anchors apart");
    report_.well_enough = !report_.torn && report_.found.gap_sd() <= kCutShare * report_.found.gap;
    report_.ground = join_ground(ground_sources(), report_.found.gap, units_);
    for (const std::string& note : report_.ground.notes) say(note);
    return std::move(report_);
  }

 private:
  void say(std::string note) { report_.notes.push_back(std::move(note)); }

  std::string length(double si) const {
    return quantity_text(si, std::abs(si) < 0.1 ? Measure::small_length : Measure::length, units_);
  }

  std::string in_words(double value, Read read) const {
    return read == Read::length ? length(value) : fmt::format("{:.2f} deg", value / kDegree);
  }

  void assume(const Stated<double>& sd, const std::string& of, Read read) {
    if (!sd.assumed) return;
    const std::string words = fmt::format("{}: standard deviation {}", of, in_words(sd.value, read));
    const bool known = std::find(report_.assumed.begin(), report_.assumed.end(), words) != report_.assumed.end();
    if (!known) report_.assumed.push_back(words);
  }

  /// Mean of repeated readings; its outliers are told.
  Reading mean(const std::vector<double>& values, const Stated<double>& sd, const std::string& of, Read read) {
    const WeightedMean found = mean_of(values, sd.value);
    for (const std::size_t i : found.left_out) {
      say(fmt::format("{}: reading {}, {}, is more than {:g} standard deviations from the middle one and is left out.",
                      of, i + 1, in_words(values[i], read), kOutlierSds));
    }
    if (found.torn) {
      report_.torn = true;
      say(of + ": the readings contradict each other, and too few agree to say which are wrong. Measure again.");
    }
    return {found.value, found.sd};
  }

  LaserSight sight(const SightReadings& readings, const LaserSd& sd, const std::string& of) {
    assume(sd.distance, "one laser distance", Read::length);
    assume(sd.angle, "one laser angle up or down", Read::angle);
    return {mean(readings.distances, sd.distance, of + ", distance", Read::length),
            mean(readings.angles, sd.angle, of + ", angle", Read::angle)};
  }

  void add_position(const PositionSurvey& p) {
    const Vec3& far = p.far;
    GapRise found{std::hypot(far.x, far.y), far.z};
    for (const PositionSd* sd : {&p.near_sd, &p.far_sd}) {
      assume(sd->horizontal, "a satellite position, in any one direction", Read::length);
      assume(sd->height, "the height of a satellite position", Read::length);
      found.gap_variance += sd->horizontal.value * sd->horizontal.value;
      found.rise_variance += sd->height.value * sd->height.value;
    }
    const std::vector<Share> shares = {{"near anchor", p.near_sd.horizontal.value, p.near_sd.height.value},
                                       {"far anchor", p.far_sd.horizontal.value, p.far_sd.height.value}};
    report_.ways.push_back({SurveyWay::position, "positions of " + p.name, found, shares, 1.0, {}, {}});
  }

  void add_laser(const LaserSurvey& laser, std::size_t i) {
    const std::string words = fmt::format("laser {}", i + 1);
    try {
      const LaserSight s = sight(laser.sight, laser.sd, words);
      GapRise found = gap_of_sight(s);
      found.rise += laser.instrument_above - laser.target_above;
      report_.ways.push_back(
          {SurveyWay::laser, words + ", from the near anchor", found, shares_of_sight(s), 1.0, {}, {}});
    } catch (const InputError& error) {
      throw under(fmt::format("laser[{}]", i), error);
    }
  }

  void add_stand(const StandSurvey& stand, std::size_t i) {
    const std::string words = fmt::format("stand {}", i + 1);
    try {
      const LaserSight near = sight(stand.near, stand.sd, words + ", near anchor");
      const LaserSight far = sight(stand.far, stand.sd, words + ", far anchor");
      assume(stand.between_sd, "one horizontal angle", Read::angle);
      const Reading between = mean(stand.between, stand.between_sd, words + ", angle between the anchors", Read::angle);
      GapRise found = gap_from_stand(near, far, between);
      found.rise += stand.near_target_above - stand.far_target_above;
      report_.ways.push_back(
          {SurveyWay::stand, words + ", to both anchors", found, shares_of_stand(near, far, between), 1.0, {}, {}});
    } catch (const InputError& error) {
      throw under(fmt::format("stand[{}]", i), error);
    }
  }

  void join() {
    std::vector<GapRise> all;
    double weights = 0.0;
    for (const WayResult& way : report_.ways) {
      all.push_back(way.found);
      weights += 1.0 / way.found.gap_variance;
    }
    report_.found = joined(all);
    for (WayResult& way : report_.ways) way.part = 1.0 / way.found.gap_variance / weights;
  }

  /// Each way against all others together.
  void compare() {
    if (report_.ways.size() < 2) return;
    for (WayResult& way : report_.ways) {
      std::vector<GapRise> others;
      for (const WayResult& other : report_.ways) {
        if (&other != &way) others.push_back(other.found);
      }
      const GapRise rest = joined(others);
      const double gap = way.found.gap - rest.gap, rise = way.found.rise - rest.rise;
      way.gap_off = gap / std::sqrt(way.found.gap_variance + rest.gap_variance);
      way.rise_off = rise / std::sqrt(way.found.rise_variance + rest.rise_variance);
      const double worst = std::max(std::abs(*way.gap_off), std::abs(*way.rise_off));
      report_.torn |= worst > kOutlierSds;
      if (report_.ways.size() == 2 && &way != &report_.ways.front()) continue;  // the same of both
      say(fmt::format(
          "{}: the gap is {} {} and the far anchor {} {} than the rest says ({:.1f} and {:.1f} standard deviations){}",
          way.words, length(std::abs(gap)), gap < 0.0 ? "shorter" : "longer", length(std::abs(rise)),
          rise < 0.0 ? "lower" : "higher", std::abs(*way.gap_off), std::abs(*way.rise_off),
          worst > kOutlierSds ? ": they contradict each other. Find out which is wrong before you cut anything."
                              : ": no more than their doubt allows."));
    }
  }

  void told_left_out(const ProjectedGround& ground, std::size_t without_height) {
    const auto count = [&](std::size_t points, const std::string& why) {
      if (points > 0)
        say(fmt::format("{} of the track left out: {}.", points == 1 ? "1 point" : fmt::format("{} points", points),
                        why));
    };
    count(ground.sideways, "farther than " + length(survey_.sideways) + " from the line");
    count(ground.beyond, "farther than " + length(kBeyondAnchor) + " behind an anchor");
    count(without_height, "no height");
    count(ground.thinned, "a higher one lies within " + length(kClosestGround) + " along the line");
  }

  /// Stretched and tilted so that the track's own far anchor meets the joined one.
  std::vector<GroundPoint> fitted(std::vector<GroundPoint> points, const Vec3& far) const {
    const double gap = std::hypot(far.x, far.y);
    for (GroundPoint& p : points) {
      p.height += (report_.found.rise - far.z) * p.distance / gap;
      p.distance *= report_.found.gap / gap;
    }
    return points;
  }

  std::vector<GroundSource> ground_sources() {
    std::vector<GroundSource> sources = {{"the ground table", survey_.ground}};
    if (survey_.laser_ground) {
      std::vector<GroundPoint> points;
      for (const LaserGround::Shot& shot : survey_.laser_ground->shots) {
        points.push_back({shot.distance * std::cos(shot.angle),
                          shot.distance * std::sin(shot.angle) + survey_.laser_ground->instrument_above});
      }
      sources.push_back({"laser sights to the ground", thinned(std::move(points))});
    }
    for (const PositionSurvey& position : survey_.positions) {
      if (position.track.empty() && position.track_without_height == 0) continue;
      const ProjectedGround ground = project_ground(position.track, position.far, survey_.sideways);
      told_left_out(ground, position.track_without_height);
      const double anchor_sd = position.near_sd.height.value;
      const double point_sd = std::max(anchor_sd, position.far_sd.height.value);
      sources.push_back({"the track of " + position.name, fitted(ground.points, position.far),
                         std::hypot(anchor_sd, point_sd)});
    }
    return sources;
  }

  const Survey& survey_;
  UnitSystem units_;
  SurveyReport report_;
};

}  // namespace

const char* name_of(SurveyWay way) {
  if (way == SurveyWay::position) return "position";
  return way == SurveyWay::laser ? "laser" : "stand";
}

SurveyReport survey_gap(const Survey& survey, UnitSystem units) { return Worker(survey, units).work(); }

}  // namespace spanloom
