#include "events/fall_search.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "statics/clearance.h"

namespace spanloom {
namespace {

constexpr std::size_t kWalkers = 10;   // evenly spaced places of the first round
constexpr double kNothing = -std::numeric_limits<double>::infinity();

// Where walkers are put: from edge to edge of the ground. Where no edge is stated, from the middle of one anchor zone to
// that of the other.
Stretch searched_stretch(const MovingRig& rig) {
  const double gap = rig.rig.site.gap;
  const std::array<Stretch, 2> zones = anchor_zones(rig.rig);
  const auto inwards = [&](const AnchorSpec& anchor, const Stretch& zone) { return anchor.edge.value_or(0.5 * (zone.to - zone.from)); };
  const Stretch stretch{inwards(rig.rig.near_anchor, zones[0]), gap - inwards(rig.rig.far_anchor, zones[1])};
  return stretch.to - stretch.from > 0.2 * gap ? stretch : Stretch{0.1 * gap, 0.9 * gap};
}

double walker_distance(const MovingRig& rig) {
  const Stretch stretch = searched_stretch(rig);
  return (stretch.to - stretch.from) / double(kWalkers - 1);
}

void add_once(std::vector<AskedFall>& list, const AskedFall& asked) {
  if (std::none_of(list.begin(), list.end(), [&](const AskedFall& other) { return same_fall(asked, other); })) list.push_back(asked);
}

std::vector<AskedFall> failures_at(const MovingRig& rig, double walker) {
  std::vector<AskedFall> asked;
  for (const double strength : tape_strengths(rig.rig)) {
    AskedFall fall;
    fall.what.tape_strength = strength;
    fall.walker = walker;
    for (const CutWhere cut : {CutWhere::beside_nearer, CutWhere::beside_farther, CutWhere::halfway_near, CutWhere::halfway_far,
                               CutWhere::near_anchor, CutWhere::far_anchor}) {
      fall.cut = cut;
      asked.push_back(fall);
    }
    fall.cut = CutWhere::connector;
    for (fall.connector = 0; fall.connector < rig.rig.main.run.connectors.size(); ++fall.connector) asked.push_back(fall);
  }
  return asked;
}

std::vector<AskedFall> leash_falls_at(const MovingRig& rig, double walker) {
  AskedFall fall;
  fall.what.kind = FallKind::leash_fall;
  fall.what.tape_strength = rig.rig.backup.tape_strength.value_or(kTapesHold);
  fall.walker = walker;
  std::vector<AskedFall> asked;
  for (const RingRun ring : {RingRun::runs, RingRun::caught_between_tapes}) {
    for (const StepOff step_off : {StepOff::sideways, StepOff::backwards, StepOff::from_sitting}) {
      fall.what.ring = ring;
      fall.what.step_off = step_off;
      fall.what.posture = step_off == StepOff::from_sitting ? Posture::sitting : Posture::standing;
      asked.push_back(fall);
    }
  }
  return asked;
}

std::size_t cut_bar(const MovingRig& rig, const AskedFall& asked, std::size_t walker) {
  const std::size_t last = rig.line.main_nodes - 2;
  switch (asked.cut) {
    case CutWhere::nowhere:
    case CutWhere::near_anchor: return 0;
    case CutWhere::far_anchor: return last;
    case CutWhere::connector: return std::min(last, connector_bars(rig).at(asked.connector));
    case CutWhere::beside_nearer: return walker - 1;
    case CutWhere::beside_farther: return walker;
    case CutWhere::halfway_near: return rig.node_near(0.5 * rig.rest[walker].x) - 1;
    case CutWhere::halfway_far: return std::min(last, rig.node_near(0.5 * (rig.rest[walker].x + rig.rig.site.gap)));
  }
  return 0;
}

// The worst `count` of each kind and strength of tapes, the worst first.
std::vector<const SearchedFall*> worst_of_each(const std::vector<SearchedFall>& searched, FallMeasure measure, std::size_t count) {
  std::map<std::pair<FallKind, double>, std::vector<const SearchedFall*>> kinds;
  for (const SearchedFall& fall : searched) {
    if (!fall.outcome.result || badness(*fall.outcome.result, measure) == kNothing) continue;
    kinds[{fall.asked.what.kind, fall.asked.what.tape_strength}].push_back(&fall);
  }
  std::vector<const SearchedFall*> worst;
  for (auto& [kind, falls] : kinds) {
    std::stable_sort(falls.begin(), falls.end(), [&](const SearchedFall* a, const SearchedFall* b) {
      return badness(*a->outcome.result, measure) > badness(*b->outcome.result, measure);
    });
    falls.resize(std::min(count, falls.size()));
    worst.insert(worst.end(), falls.begin(), falls.end());
  }
  return worst;
}

// Between the edges, and where the anchor zones end.
std::vector<double> walkers(const MovingRig& rig) {
  const double from = searched_stretch(rig).from, apart = walker_distance(rig);
  std::vector<double> places;
  for (std::size_t i = 0; i < kWalkers; ++i) places.push_back(from + apart * double(i));
  if (const std::optional<Stretch> open = between_zones(rig.rig)) {
    constexpr double kInside = 0.05;  // [m]: a node nearby must not be in the zone
    if (open->to - open->from > 2.0 * kInside) places.insert(places.end(), {open->from + kInside, open->to - kInside});
  }
  std::sort(places.begin(), places.end());
  return places;
}

}  // namespace

bool same_fall(const AskedFall& a, const AskedFall& b) {
  constexpr double kSamePlace = 1e-6;  // [m]
  return a.what.kind == b.what.kind && a.what.posture == b.what.posture && a.what.tape_strength == b.what.tape_strength &&
         a.what.step_off == b.what.step_off && a.what.ring == b.what.ring && a.cut == b.cut && a.connector == b.connector &&
         std::abs(a.walker - b.walker) < kSamePlace;
}

FallCase case_on(const MovingRig& rig, const AskedFall& asked) {
  FallCase what = asked.what;
  what.walker = rig.node_near(asked.walker);
  what.cut.reset();
  if (asked.cut != CutWhere::nowhere) what.cut = cut_bar(rig, asked, what.walker);
  return what;
}

double badness(const FallResult& result, FallMeasure measure) {
  if (result.lost) return kNothing;
  // The rim is near there and would stop a body that here falls past it.
  const bool past_the_rim = result.in_anchor_zone;
  switch (measure) {
    case FallMeasure::body: return result.body;
    case FallMeasure::fall: return past_the_rim ? kNothing : result.fall;
    case FallMeasure::clearance: return result.clearance ? -*result.clearance : kNothing;
    case FallMeasure::wall: return result.wall ? -*result.wall : kNothing;
    case FallMeasure::near: return norm(result.near);
    case FallMeasure::far: return norm(result.far);
    case FallMeasure::backup: return result.backup;
    case FallMeasure::main: return result.what.kind == FallKind::leash_fall ? result.main : kNothing;
    case FallMeasure::clear_height: return past_the_rim ? kNothing : result.clear_height;
  }
  return kNothing;
}

std::vector<double> tape_strengths(const Rig& rig) {
  if (rig.backup.joint == Joint::ring) return {kTapesHold};
  return {kTapesHold, rig.backup.tape_strength.value_or(0.0)};
}

std::vector<AskedFall> first_round(const MovingRig& rig) {
  std::vector<AskedFall> asked;
  for (const double walker : walkers(rig)) {
    for (const auto& some : {failures_at(rig, walker), leash_falls_at(rig, walker)}) asked.insert(asked.end(), some.begin(), some.end());
  }
  return asked;
}

std::vector<AskedFall> second_round(const MovingRig& rig, const std::vector<SearchedFall>& first) {
  const Stretch stretch = searched_stretch(rig);
  const double apart = walker_distance(rig);
  std::vector<AskedFall> asked;
  const auto ask = [&](const AskedFall& fall) {
    const auto same = [&](const SearchedFall& other) { return same_fall(other.asked, fall); };
    if (std::none_of(first.begin(), first.end(), same)) add_once(asked, fall);
  };
  for (const FallMeasure measure : {FallMeasure::body, FallMeasure::fall, FallMeasure::clearance}) {
    for (const SearchedFall* worst : worst_of_each(first, measure, 1)) {
      AskedFall fall = worst->asked;
      for (const double aside : {-0.5, -0.25, 0.25, 0.5}) {
        fall.walker = std::clamp(worst->asked.walker + aside * apart, stretch.from, stretch.to);
        ask(fall);
      }
      if (fall.what.kind == FallKind::leash_fall) continue;
      fall.walker = worst->asked.walker;
      for (const Posture posture : {Posture::sitting, Posture::hanging}) {
        fall.what.posture = posture;
        ask(fall);
      }
    }
  }
  return asked;
}

std::vector<AskedFall> worst_of(const std::vector<SearchedFall>& searched) {
  std::vector<AskedFall> worst;
  for (const SearchedFall& fall : searched) {
    // Whoever is lost is told, one of each kind of tapes.
    const bool lost = fall.outcome.result && fall.outcome.result->lost;
    const bool told = std::any_of(worst.begin(), worst.end(), [&](const AskedFall& other) {
      return other.what.tape_strength == fall.asked.what.tape_strength;
    });
    if (lost && !told) worst.push_back(fall.asked);
  }
  // The finer mesh may make another one the worst: of what decides verdicts two are told.
  for (const FallMeasure measure : kFallMeasures) {
    const bool decides = measure == FallMeasure::body || measure == FallMeasure::clearance || measure == FallMeasure::fall;
    for (const SearchedFall* fall : worst_of_each(searched, measure, decides ? 2 : 1)) add_once(worst, fall->asked);
  }
  return worst;
}

std::vector<std::string> search_words(const MovingRig& rig, UnitSystem units) {
  const Stretch stretch = searched_stretch(rig);
  const std::size_t connectors = rig.rig.main.run.connectors.size();
  const bool rings = rig.rig.backup.joint == Joint::ring;
  std::vector<std::string> words;
  words.push_back(fmt::format("Walkers at {} places from {} to {} of the gap, standing, those in the anchor zones for the forces only.", walkers(rig).size(),
                              quantity_text(stretch.from, Measure::length, units), quantity_text(stretch.to, Measure::length, units)));
  words.push_back(fmt::format("For each the main fails beside the walker on either side, halfway to either anchor, at either anchor{}; "
                              "{}.",
                              connectors == 0 ? "" : connectors == 1 ? " and at the connector" : " and at each connector",
                              rings ? "the backup runs in its slider rings" : "each with tapes that hold and tapes that tear"));
  words.push_back("Leash falls: stepping off to the side, backwards along the line towards the nearer anchor, off the seat; the leash ring running or caught between two " +
                  std::string(rings ? "slider rings." : "tapes."));
  return words;
}

}  // namespace spanloom
