#include "checks/generic_webbing.h"

#include <cstddef>
#include <set>

#include <fmt/format.h>

namespace spanloom {

void add_generic_webbings(const Rig& rig, Pulling pulling, Check& check) {
  std::set<std::size_t> rigged;
  for (const WebbingRun* run : {&rig.main.run, &rig.backup.run}) {
    for (const Segment& segment : run->segments) rigged.insert(segment.webbing);
  }
  if (pulling == Pulling::line_and_leash && rig.walker.leash_webbing) rigged.insert(*rig.walker.leash_webbing);
  for (const std::size_t index : rigged) {
    const Webbing& webbing = rig.webbings[index];
    if (webbing.generic) check.assumed.push_back(fmt::format("webbing {} is generic handbook data", webbing.name));
  }
}

}  // namespace spanloom
