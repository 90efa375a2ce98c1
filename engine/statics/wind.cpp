#include "statics/wind.h"

#include "base/constants.h"

namespace spanloom {

double strip_drag(double width, double speed) {
  return 0.5 * kAirDensity * kStripDragCoefficient * width * speed * speed;
}

Vec3 walker_drag(const Walker& walker, double speed) {
  return {0.0, 0.5 * kAirDensity * walker.drag_area.value * speed * speed, 0.0};
}

Line in_side_wind(const Mesh& mesh, const EquilibriumSolver& solver, const Equilibrium& standing, double speed) {
  Line line = mesh.line;
  for (std::size_t c = 0; c < line.chains.size(); ++c) {
    const ChainRange range = line.chains[c];
    if (range.count == 0) continue;
    const std::size_t bay = c / 2;
    const bool is_loop = c % 2 == 1;
    const double longer = solver.chains().stretched_length(c, standing.near_force[c]) /
                          solver.chains().natural_length(c);
    for (std::size_t i = 0; i < range.count; ++i) {
      const std::size_t bar = range.first + i;
      const bool first = i == 0, last = i + 1 == range.count;
      const double half = 0.5 * strip_drag(mesh.drag_width[bar], speed) * line.length[bar] * longer;
      (first ? line.tape_load[bay] : line.load[bar - 1]).y += half;
      (last ? line.tape_load[bay + 1] : line.load[bar]).y += half;
      EndLoads& end = line.end_loads;
      if (first && bay == 0) (is_loop ? end.backup_near : end.main_near).y += half;
      if (last && bay + 1 == line.bays()) (is_loop ? end.backup_far : end.main_far).y += half;
    }
  }
  return line;
}

}  // namespace spanloom
