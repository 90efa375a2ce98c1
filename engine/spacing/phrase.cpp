#include "spacing/phrase.h"

#include "base/input_error.h"
#include "rig/tape_layout.h"

namespace spanloom {
namespace {

constexpr double kLeastRest = 0.5;  // a rest shorter than this share of the shortest bay joins its neighbour

// Half of a main from its anchor inwards: whole bays of the phrase, and what is left of the half.
std::vector<double> half_of(const Phrase& phrase, double arm_span, double half, double& rest) {
  std::vector<double> bays;
  rest = half;
  for (std::size_t i = 0;; ++i) {
    const double bay = 0.5 * arm_span * phrase.half_arm_spans[i % phrase.half_arm_spans.size()];
    if (bay > rest) return bays;
    bays.push_back(bay);
    rest -= bay;
  }
}

std::optional<std::vector<double>> mirrored(const Phrase& phrase, double arm_span, double main_length) {
  double rest = 0.0;
  std::vector<double> bays = half_of(phrase, arm_span, 0.5 * main_length, rest);
  if (bays.empty()) return std::nullopt;
  const std::vector<double> outer = bays;
  if (2.0 * rest > kLeastRest * arm_span) bays.push_back(2.0 * rest);
  else bays.back() += rest;  // and its twin on the other side
  std::vector<double> other(outer.rbegin(), outer.rend());
  if (2.0 * rest <= kLeastRest * arm_span) other.front() += rest;
  bays.insert(bays.end(), other.begin(), other.end());
  return bays;
}

std::optional<std::vector<double>> from_near(const Phrase& phrase, const Spacing& spacing, double main_length) {
  Spacing asked = spacing;
  RepeatArmSpans repeat;
  for (const int halves : phrase.half_arm_spans) repeat.arm_spans.push_back(0.5 * halves);
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

}  // namespace

std::optional<Layout> layout_of(const Phrase& phrase, const Spacing& spacing, double main_length) {
  const bool both = phrase.from == CountedFrom::both_anchors;
  if (phrase.half_arm_spans.empty() || phrase.slack.empty() || (both && spacing.close)) return std::nullopt;
  std::optional<std::vector<double>> bays =
      both ? mirrored(phrase, spacing.arm_span.value, main_length) : from_near(phrase, spacing, main_length);
  if (!bays || bays->size() < 2) return std::nullopt;
  Layout layout{std::move(*bays), {}};
  const std::size_t n = layout.bays.size();
  for (std::size_t k = 0; k < n; ++k) {
    const std::size_t from_end = both ? std::min(k, n - 1 - k) : k;
    layout.slack.push_back(phrase.slack[from_end % phrase.slack.size()]);
  }
  return layout;
}

}  // namespace spanloom
