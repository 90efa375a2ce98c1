#include "spacing/phrase.h"

#include <algorithm>
#include <numeric>

#include <fmt/format.h>

#include "base/input_error.h"
#include "rig/tape_layout.h"

namespace spanloom {
namespace {

constexpr double kLeastRest = 0.5;  // a rest shorter than this share of the next bay joins its neighbour

struct Outer {
  std::vector<double> bays;   // from the anchor inwards [m]
  double rest = 0.0;          // between the last of them and the end of the room [m]
};

// Whole bays of the phrase from an anchor inwards, as many as fit into a room.
Outer outer_bays(const Phrase& phrase, double step, double room) {
  Outer outer{{}, room};
  for (std::size_t i = 0;; ++i) {
    const double bay = step * phrase.bays[i % phrase.bays.size()];
    if (bay > outer.rest) return outer;
    outer.bays.push_back(bay);
    outer.rest -= bay;
  }
}

// The rest is a bay of its own where it is long enough.
void put_rest(Outer& outer, double next) {
  if (outer.bays.empty() || outer.rest > kLeastRest * next) outer.bays.push_back(outer.rest);
  else outer.bays.back() += outer.rest;
}

std::optional<std::vector<double>> about_close_bays(const Phrase& phrase, double step, const CloseStretch& close, double main_length) {
  if (!(close.start > 0.1) || !(close.end() < main_length - 0.1)) return std::nullopt;
  std::vector<double> bays;
  Outer near = outer_bays(phrase, step, close.start), far = outer_bays(phrase, step, main_length - close.end());
  put_rest(near, close.bay);
  put_rest(far, close.bay);
  bays = std::move(near.bays);
  bays.insert(bays.end(), std::size_t(close.count), close.bay);
  bays.insert(bays.end(), far.bays.rbegin(), far.bays.rend());
  return bays;
}

std::optional<std::vector<double>> mirrored(const Phrase& phrase, double step, double main_length) {
  Outer outer = outer_bays(phrase, step, 0.5 * main_length);
  if (outer.bays.empty()) return std::nullopt;
  const double shortest = step * *std::min_element(phrase.bays.begin(), phrase.bays.end());
  const bool has_middle = 2.0 * outer.rest > kLeastRest * shortest;
  if (!has_middle) outer.bays.back() += outer.rest;
  std::vector<double> bays = outer.bays;
  const double next = step * phrase.bays[outer.bays.size() % phrase.bays.size()];
  if (has_middle && 2.0 * outer.rest > next) bays.insert(bays.end(), 2, outer.rest);   // a tape at the middle
  else if (has_middle) bays.push_back(2.0 * outer.rest);
  bays.insert(bays.end(), outer.bays.rbegin(), outer.bays.rend());
  return bays;
}

std::optional<std::vector<double>> from_near(const Phrase& phrase, double step, const Spacing& spacing, double main_length) {
  Spacing asked = spacing;
  RepeatArmSpans repeat;
  for (const int bay : phrase.bays) repeat.arm_spans.push_back(step * bay / spacing.arm_span.value);
  asked.pattern = std::move(repeat);
  try {
    std::vector<double> bays = lay_out_tapes(asked, main_length).at;
    bays.push_back(main_length);
    for (std::size_t k = bays.size(); k-- > 1;) bays[k] -= bays[k - 1];
    return bays;
  } catch (const InputError&) {
    return std::nullopt;  // no tape fits
  }
}

std::string repeated(const Phrase& phrase, std::size_t figures) {
  const char* from = phrase.from == CountedFrom::both_anchors ? "from both anchors inwards" : "from the near anchor";
  return fmt::format("{} {}", figures == 1 ? "all along" : "repeated", from);
}

}  // namespace

double length_of(BayStep step, const Spacing& spacing) {
  return step == BayStep::centimetre ? 0.01 : 0.5 * spacing.arm_span.value;
}

std::optional<Layout> layout_of(const Phrase& phrase, const Spacing& spacing, double main_length) {
  if (phrase.bays.empty() || phrase.slack.empty()) return std::nullopt;
  const bool both = phrase.from == CountedFrom::both_anchors;
  const double step = length_of(phrase.step, spacing);
  std::optional<std::vector<double>> bays;
  if (!both) bays = from_near(phrase, step, spacing, main_length);
  else if (spacing.close) bays = about_close_bays(phrase, step, close_stretch(*spacing.close, spacing.arm_span.value), main_length);
  else bays = mirrored(phrase, step, main_length);
  if (!bays || bays->size() < 2) return std::nullopt;
  Layout layout{std::move(*bays), {}};
  const std::size_t n = layout.bays.size();
  for (std::size_t k = 0; k < n; ++k) {
    const std::size_t from_end = both ? std::min(k, n - 1 - k) : k;
    layout.slack.push_back(phrase.slack[from_end % phrase.slack.size()]);
  }
  return layout;
}

Phrase without_unused(const Phrase& phrase, const Spacing& spacing, double main_length) {
  const std::optional<Layout> whole = layout_of(phrase, spacing, main_length);
  Phrase shorter = phrase;
  const auto shorten = [&](auto& figures) {
    while (figures.size() > 1) {
      const auto last = figures.back();
      figures.pop_back();
      if (layout_of(shorter, spacing, main_length) == whole) continue;
      figures.push_back(last);
      return;
    }
  };
  shorten(shorter.bays);
  shorten(shorter.slack);
  return shorter;
}

std::string bays_in_words(const Phrase& phrase, UnitSystem units) {
  std::string words;
  for (const int bay : phrase.bays) {
    if (!words.empty()) words += ", ";
    words += phrase.step == BayStep::half_arm_span ? fmt::format("{:g}", 0.5 * bay)
                                                   : number_text(0.01 * bay, Measure::length, units);
  }
  const bool one = phrase.bays == std::vector<int>{2};
  const std::string unit = phrase.step == BayStep::centimetre ? unit_text(Measure::length, units) : one ? "arm span" : "arm spans";
  return fmt::format("{} {}, {}", words, unit, repeated(phrase, phrase.bays.size()));
}

std::string slacks_in_words(const Phrase& phrase) {
  std::string words;
  for (const double slack : phrase.slack) words += fmt::format("{}{:.4g}", words.empty() ? "" : ", ", 100.0 * slack);
  return fmt::format("{} %, {}", words, repeated(phrase, phrase.slack.size()));
}

}  // namespace spanloom
