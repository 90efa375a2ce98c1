#include "statics/ring_chain.h"

#include <cmath>

#include "base/constants.h"

namespace spanloom {
namespace {

bool slides(const Mesh& mesh, std::size_t bar) {
  return mesh.backup_piece[mesh.piece_of_bar[bar]].kind == Piece::Kind::webbing;
}

}  // namespace

LengthDerivatives length_derivatives(const Mesh& mesh, const Line& line, std::size_t chain,
                                     const Vec3& near_force, const Vec3& near, const Vec3& far,
                                     double trace_squared) {
  const ChainRange range = line.chains[chain];
  double webbing = 0.0;
  for (std::size_t bar = range.first; bar < range.first + range.count; ++bar) {
    if (slides(mesh, bar)) webbing += line.length[bar];
  }
  LengthDerivatives out;
  Vec3 force = near_force, before;  // before: q'_i
  double half_before = 0.0;         // half of the last bar's weight rate [N/m]
  for (std::size_t i = 0; i < range.count; ++i) {
    const std::size_t bar = range.first + i;
    const double share = slides(mesh, bar) ? line.length[bar] / webbing : 0.0;
    const double half = 0.5 * share * mesh.mass_per_length[bar] * kGravity;
    const Vec3 rate{0.0, 0.0, -(half_before + half)};
    if (i == 0) out.near_load_rate = rate;
    else before += rate;
    half_before = half;

    const StretchCurve& law = line.laws[line.law[bar]];
    const double bare = dot(force, force), u = trace_squared / (bare + trace_squared);
    const double tension = std::sqrt(bare + trace_squared * u), length = line.length[bar];
    const StretchAt at = law.stretch_at(tension);
    const Vec3 unit = (1.0 / tension) * force;
    const Vec3 stretched = (1.0 + at.stretch) * unit;
    const double across = length * (1.0 + at.stretch) / tension, along = length * at.compliance;
    const Vec3 give = across * before + ((1.0 - u * u) * (along - across) * dot(unit, before)) * unit;  // C_i q'_i
    out.slope += -share * (tension + law.coenergy(tension)) + length * dot(stretched, before);
    out.curvature += 2.0 * share * dot(stretched, before) - dot(before, give);
    out.reach_rate += share * stretched - give;
    force -= line.load[bar];
  }
  out.far_load_rate = before + Vec3{0.0, 0.0, -half_before};
  out.slope -= dot(out.near_load_rate, near) + dot(out.far_load_rate, far);
  return out;
}

}  // namespace spanloom
