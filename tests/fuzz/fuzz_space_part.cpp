// Part files of a search for spacing and of a study of taping errors: finite layouts and crews, or errors with their places.
#include <cstddef>
#include <cstdint>
#include <string>

#include "files/space_parts.h"
#include "fuzz_check.h"

namespace spanloom::fuzz {
namespace {

// Also in the files to start from.
const std::string kPrint = "0123456789abcdef";

Rig short_line() {
  Rig rig = rig_with_defaults();
  rig.spacing.arm_span = Stated<double>::given(1.75);
  rig.spacing.pattern = EvenBays{2.0};
  return rig;
}

/// Of a main of 19 m; nothing else of it is asked.
Plan plan_of_short_line() {
  Plan plan;
  plan.bays.resize(10);
  for (PlanBay& bay : plan.bays) bay.main_natural = 1.9;
  return plan;
}

void demand_sound(const FoundLayout& found) {
  demand(found.layout.bays.size() == found.layout.slack.size() && found.layout.bays.size() > 1, "a layout has tapes");
  for (const double bay : found.layout.bays) demand(bay > 0.0 && bay < 20.0, "a bay is on the main");
  for (const double slack : found.layout.slack) demand_finite(slack, "a slack is finite");
  for (const double value : {found.small.mean, found.small.worst, found.broken, found.cost}) {
    demand_finite(value, "a return is finite");
  }
  if (found.glanced) demand(std::isfinite(found.glanced->mean + found.glanced->worst), "a glance is finite");
}

void join_search(const std::vector<PartFile>& files) {
  static const Rig rig = short_line();
  static const Plan plan = plan_of_short_line();
  try {
    const SearchResult joined = join_search_parts(files, kPrint, rig, plan);
    for (const FoundLayout* found : joined.pool.all()) demand_sound(*found);
    const PartFile written{"again.json", search_part_json(rig, kPrint, {1, 1}, joined)};
    const SearchResult again = join_search_parts({written}, kPrint, rig, plan);
    demand(again.pool.size() == joined.pool.size(), "what was read is written so that it can be read");
  } catch (const FileError& error) {
    demand_located(error.problems());
  }
}

void join_taping(const std::vector<PartFile>& files) {
  try {
    const TapingStudy joined = join_taping_parts(files, kPrint);
    for (std::size_t i = 0; i < joined.crews.size(); ++i) {
      demand(joined.crews[i].crew == i, "no crew is missing");
      demand(std::isfinite(joined.crews[i].small.value_or(0.0) + joined.crews[i].glanced.value_or(0.0)), "a return is finite");
    }
  } catch (const FileError& error) {
    demand_located(error.problems());
  }
}

}  // namespace
}  // namespace spanloom::fuzz

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace spanloom;
  const std::string text(reinterpret_cast<const char*>(data), size);
  for (const std::vector<PartFile>& files : {std::vector<PartFile>{{"a.json", text}}, {{"a.json", text}, {"b.json", text}}}) {
    fuzz::join_search(files);
    fuzz::join_taping(files);
  }
  return 0;
}
