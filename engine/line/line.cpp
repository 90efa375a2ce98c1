#include "line/line.h"

#include <cmath>
#include <string>
#include <utility>

#include "base/constants.h"
#include "base/input_error.h"

namespace spanloom {

LineBuilder::LineBuilder(std::vector<StretchCurve> laws, const LineEnds& ends) {
  line_.laws = std::move(laws);
  line_.ends = ends;
  line_.tape_load.push_back({});
}

void LineBuilder::add_chain(std::span<const BarSpec> bars) {
  line_.chains.push_back({line_.length.size(), bars.size()});
  const bool is_loop = line_.chains.size() % 2 == 0;
  const bool first_bay = line_.chains.size() <= 2;
  Vec3& far_share = is_loop ? line_.end_loads.backup_far : line_.end_loads.main_far;
  far_share = {};
  for (std::size_t i = 0; i < bars.size(); ++i) {
    const BarSpec& bar = bars[i];
    if (!(bar.length > 0.0) || !std::isfinite(bar.length) || !(bar.mass_per_length >= 0.0)) {
      throw InputError("line.bar[" + std::to_string(line_.length.size()) + "]",
                       std::to_string(bar.length) + " m", "a length above 0 and a mass not below 0");
    }
    line_.length.push_back(bar.length);
    line_.law.push_back(bar.law);
    const double half = 0.5 * bar.length * bar.mass_per_length;
    Vec3& before = i == 0 ? line_.tape_load[line_.tape_load.size() - 2] : line_.load.back();
    before.z -= half * kGravity;
    if (i == 0 && first_bay) {
      (is_loop ? line_.end_loads.backup_near : line_.end_loads.main_near).z = -half * kGravity;
    }
    const double after = (half + bar.end_mass) * kGravity;
    const bool last = i + 1 == bars.size();
    if (last) {
      line_.tape_load.back().z -= after;
      far_share.z = -after;
    }
    line_.load.push_back(last ? Vec3{} : Vec3{0.0, 0.0, -after});
  }
}

void LineBuilder::add_bay(std::span<const BarSpec> main, std::span<const BarSpec> loop, double tape_mass) {
  if (main.empty()) throw InputError("line.bay", "no main", "at least one bar of main");
  line_.tape_load.push_back({0.0, 0.0, -tape_mass * kGravity});
  add_chain(main);
  add_chain(loop);
}

Line LineBuilder::build() && { return std::move(line_); }

void add_main_load(Line& line, const NodeAt& at, const Vec3& force) {
  const ChainRange& chain = line.main_chain(at.bay);
  if (at.bar == 0) {
    line.tape_load[at.bay] += force;
    if (at.bay == 0) line.end_loads.main_near += force;
  } else if (at.bar == chain.count) {
    line.tape_load[at.bay + 1] += force;
    if (at.bay + 1 == line.bays()) line.end_loads.main_far += force;
  } else {
    line.load[chain.first + at.bar - 1] += force;
  }
}

}  // namespace spanloom
