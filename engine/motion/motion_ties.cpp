// Ties of a line in motion: what they carry, how they tear, and pushes from beside the line.
#include <algorithm>

#include "base/constants.h"
#include "motion/motion.h"

namespace spanloom {

void Motion::push_on(std::size_t node, const Vec3& impulse) {
  const auto push = [&](std::size_t at) {
    v_[0][at] += per_mass_[at] * impulse.x, v_[1][at] += per_mass_[at] * impulse.y, v_[2][at] += per_mass_[at] * impulse.z;
  };
  push(node);
  if (twin_[node] >= 0) push(std::size_t(twin_[node]));
  pushed_.push_back({node, impulse});
}

// Force of a bar on its near node.
Vec3 Motion::pull_of(std::size_t bar) const {
  if (!line_.is_bar(bar)) return {};
  const Vec3 reach = place(bar + 1) - place(bar);
  const double length = norm(reach);
  return length > 0.0 ? tension(bar) / length * reach : Vec3{};
}

Vec3 Motion::tie_force(std::size_t tie) const {
  const std::size_t node = line_.ties[tie].backup;
  Vec3 force = pull_of(node) - pull_of(node - 1) + Vec3{0.0, 0.0, -kGravity * line_.ties[tie].backup_mass};
  for (const Pushed& pushed : pushed_) {
    if (pushed.node == node) force += 1.0 / pushed_for_ * pushed.impulse;
  }
  return force;
}

void Motion::tear(std::size_t index) {
  const Tie tie = index < line_.ties.size() ? line_.ties[index] : Tie{};
  untie(line_, index);
  const std::size_t main = tie.main, backup = tie.backup;
  twin_[main] = twin_[backup] = -1;
  set_up_mass(main);
  set_up_mass(backup);
  const auto special = std::find_if(specials_.begin(), specials_.end(), [&](const Special& s) { return s.node == main; });
  special->tied = -1;
  if (std::none_of(drive_.pushes.begin(), drive_.pushes.end(), [&](const Push& p) { return p.node == main; })) specials_.erase(special);
}

}  // namespace spanloom
