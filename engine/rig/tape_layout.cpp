#include "rig/tape_layout.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/input_error.h"

namespace spanloom {
namespace {

constexpr std::size_t kMostTapes = 4999;
// A bay may grow to half as much again before another tape goes in.
constexpr double kLeastShareOfBay = 0.5;

void fill(std::vector<double>& at, const std::vector<double>& bays, std::size_t& next, double from,
          double to) {
  double place = from;
  while (at.size() < kMostTapes) {
    const double bay = bays[next % bays.size()];
    if (place + bay > to - kLeastShareOfBay * bays[(next + 1) % bays.size()]) return;
    place += bay;
    ++next;
    at.push_back(place);
  }
  throw InputError("spacing", "more than 4999 tapes", "longer bays");
}

// Bays of given tapes that lie where tricks are done.
std::vector<std::size_t> bays_within(const CloseStretch& close, const std::vector<double>& at, double length) {
  constexpr double kHair = 0.01;  // [m]
  std::vector<std::size_t> within;
  for (std::size_t k = 0; k <= at.size(); ++k) {
    const double from = k == 0 ? 0.0 : at[k - 1], to = k == at.size() ? length : at[k];
    if (from > close.start - kHair && to < close.end() + kHair) within.push_back(k);
  }
  return within;
}

TapeLayout repeat(const std::vector<double>& bays, const std::optional<CloseBays>& close, double arm_span,
                  double length, UnitSystem units) {
  TapeLayout layout;
  std::size_t next = 0;
  double from = 0.0;
  if (close) {
    const auto [start, bay, count] = close_stretch(*close, arm_span);
    const double end = start + count * bay;
    if (!(start > 0.1) || !(end < length - 0.1)) {
      throw InputError("spacing.close", fmt::format("{:.2f} m to {:.2f} m", start, end),
                       fmt::format("a stretch inside the main, 0 m to {:.2f} m", length),
                       "move its centre or make it shorter");
    }
    if (count > double(kMostTapes)) throw InputError("spacing.close", "too many bays", "longer bays");
    fill(layout.at, bays, next, 0.0, start);
    const double before = start - (layout.at.empty() ? 0.0 : layout.at.back());
    layout.notes.push_back(fmt::format("The bay before the close bays takes up what is left over: {}.",
                                       quantity_text(before, Measure::length, units)));
    layout.leftover_bays.push_back(layout.at.size());
    for (double i = 0.0; i <= count; ++i) {
      if (i > 0.0) layout.close_bays.push_back(layout.at.size());
      layout.at.push_back(start + i * bay);
    }
    from = end;
  }
  fill(layout.at, bays, next, from, length);
  const double rest = length - (layout.at.empty() ? 0.0 : layout.at.back());
  layout.notes.push_back(fmt::format("The last bay, at the far anchor, takes up what is left over: {}.",
                                     quantity_text(rest, Measure::length, units)));
  layout.leftover_bays.push_back(layout.at.size());
  return layout;
}

TapeLayout even(double bay, double length, UnitSystem units) {
  TapeLayout layout;
  const double count = std::round(length / bay);
  if (count > double(kMostTapes)) throw InputError("spacing.even", fmt::format("{:g} m", bay), "longer bays");
  if (count < 2.0) return layout;
  // The crew measures the first tape to the centimetre; the far end bay takes the millimetres.
  const double first = std::round(50.0 * (length - (count - 2.0) * bay)) / 100.0;
  for (double i = 0.0; i + 1.0 < count; ++i) layout.at.push_back(first + i * bay);
  layout.leftover_bays = {0, layout.at.size()};
  const auto text = [&](double l) { return quantity_text(l, Measure::length, units); };
  layout.notes.push_back(
      fmt::format("{:.0f} bays of {}; the end bays take up what is left over: {} near, {} far.", count - 2.0,
                  text(bay), text(first), text(length - layout.at.back())));
  return layout;
}

}  // namespace

CloseStretch close_stretch(const CloseBays& close, double arm_span) {
  const double bay = close.arm_spans * arm_span;
  const double count = std::max(1.0, std::round(close.length / bay));
  return {close.centre - 0.5 * count * bay, bay, count};
}

TapeLayout lay_out_tapes(const Spacing& spacing, double main_length, UnitSystem units) {
  TapeLayout layout;
  const double arm_span = spacing.arm_span.value;
  if (const auto* at = std::get_if<TapesAt>(&spacing.pattern)) {
    layout.at = at->positions;
    for (std::size_t i = 0; i < layout.at.size(); ++i) {
      if (layout.at[i] > main_length - 0.01) {
        throw InputError(fmt::format("spacing.at[{}]", i), fmt::format("{:.2f} m", layout.at[i]),
                         fmt::format("a place on the main, which is {:.2f} m long unloaded", main_length));
      }
    }
    if (spacing.close) layout.close_bays = bays_within(close_stretch(*spacing.close, arm_span), layout.at, main_length);
  } else if (const auto* pattern = std::get_if<RepeatArmSpans>(&spacing.pattern)) {
    std::vector<double> bays;
    for (double spans : pattern->arm_spans) bays.push_back(spans * arm_span);
    layout = repeat(bays, spacing.close, arm_span, main_length, units);
  } else if (spacing.close) {
    layout = repeat({std::get<EvenBays>(spacing.pattern).length}, spacing.close, arm_span, main_length, units);
  } else {
    layout = even(std::get<EvenBays>(spacing.pattern).length, main_length, units);
  }
  if (layout.at.empty()) {
    throw InputError("spacing", fmt::format("no tape on {:.2f} m of main", main_length), "at least one tape",
                     "make the bays shorter");
  }
  return layout;
}

}  // namespace spanloom
