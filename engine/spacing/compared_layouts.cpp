#include "spacing/compared_layouts.h"

#include <random>

namespace spanloom {

double slack_over_all(const Plan& plan) {
  double extra = 0.0, standing = 0.0;
  for (const PlanBay& bay : plan.bays) extra += bay.slack * bay.main_standing, standing += bay.main_standing;
  return extra / standing;
}

Layout even_layout(const Plan& plan, std::size_t bays) {
  return {std::vector<double>(bays, main_length_of(plan) / double(bays)), std::vector<double>(bays, slack_over_all(plan))};
}

std::vector<Layout> random_layouts(const Rig& rig, const Plan& plan, const LayoutBounds& bounds, std::size_t count, std::uint64_t seed) {
  const double length = main_length_of(plan);
  const auto most_bays = std::size_t(length / (length_of(bounds.step, rig.spacing) * bounds.shortest)) + 1;
  std::mt19937_64 random(seed);
  std::vector<Layout> layouts;
  constexpr std::size_t kTries = 10;
  for (std::size_t tries = 0; layouts.size() < count && tries < kTries * count; ++tries) {
    Phrase phrase{{}, {slack_over_all(plan)}, CountedFrom::near_anchor, bounds.step};
    for (std::size_t i = 0; i < most_bays; ++i) {
      phrase.bays.push_back(bounds.shortest + int(random() % std::size_t(bounds.longest - bounds.shortest + 1)));
    }
    if (std::optional<Layout> layout = layout_of(phrase, rig.spacing, length)) layouts.push_back(std::move(*layout));
  }
  return layouts;
}

}  // namespace spanloom
