#include "files/place_json.h"

namespace spanloom {

Json certificate_json(const Certificate& c) {
  return {{"iterations", c.iterations},
          {"residual_N", finite(c.residual)},
          {"residual_floor_N", finite(c.residual_floor)},
          {"greatest_force_N", finite(c.greatest_force)},
          {"energy_gap_J", finite(c.energy_gap)},
          {"energy_scale_J", finite(c.energy_scale)}};
}

void put_anchor(Json& out, const std::string& side, const AnchorLoad& load) {
  out["anchor_" + side + "_N"] = finite(norm(load.total()));
  out["anchor_" + side + "_main_vector_N"] = vector_of(load.main);
  out["anchor_" + side + "_backup_vector_N"] = vector_of(load.backup);
}

Json place_json(const WalkerPlace& place) {
  Json out = {{"position_m", finite(place.position)},
              {"running_length_m", finite(place.s)},
              {"bay", place.bay},
              {"at_tape", place.at_tape},
              {"in_anchor_zone", place.in_anchor_zone},
              {"sag_m", finite(place.sag)},
              {"slope", finite(place.slope)},
              {"sideways_m", finite(place.sideways)},
              {"tension_near_N", finite(place.tension_near)},
              {"tension_far_N", finite(place.tension_far)},
              {"tension_max_N", finite(place.tension_max)},
              {"backup_tension_max_N", finite(place.backup_tension_max)},
              {"backup_tension_bay", place.backup_tension_bay},
              {"ground_clearance_m", optional(place.ground_clearance)},
              {"hang_clearance_m", optional(place.hang_clearance)},
              {"line_clearance_m", optional(place.line_clearance)}};
  put_anchor(out, "near", place.near);
  put_anchor(out, "far", place.far);
  out["certificate"] = certificate_json(place.certificate);
  return out;
}

}  // namespace spanloom
