#include "motion/shake_film.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "base/input_error.h"
#include "motion/finer_steps.h"

namespace spanloom {
namespace {

constexpr double kMostFrames = 20000.0;

class Filming {
 public:
  Filming(const MovingRig& rig, const ShakeResult& result, const ShakeFilmOptions& options, double step)
      : rig_(rig), result_(result), options_(options), axis_(result.shake.direction == ShakeDirection::sideways ? 1 : 2),
        node_(rig.node_near(result.shake.place * rig.rig.site.gap)),
        motion_(rig.line, rig.rest, one_cycle(rig, result.shake, result.force), {Scheme::leapfrog, step}) {
    film_.frame_every = options.frame_every;
    film_.main_nodes = rig.line.main_nodes;
    film_.step = step;
  }

  // Empty where the ledger did not close.
  std::optional<ShakeFilm> run() {
    const auto frames = std::size_t(std::floor(options_.duration / options_.frame_every * (1.0 + 1e-12))) + 1;
    keep_frame();
    for (std::size_t i = 1; i < frames; ++i) {
      if (!motion_.advance(options_.frame_every)) return std::nullopt;
      film_.ledger = motion_.ledger();
      if (!closes(film_.ledger, std::max(std::abs(film_.ledger.put_in), film_.ledger.kinetic))) return std::nullopt;
      keep_frame();
      if (options_.keep_on && !options_.keep_on(i + 1, frames)) {
        film_.stopped = true;
        break;
      }
    }
    return std::move(film_);
  }

 private:
  double displacement(std::size_t node) const {
    return motion_.places(axis_)[node] - (axis_ == 1 ? rig_.rest[node].y : rig_.rest[node].z);
  }

  void keep_frame() {
    std::vector<Vec3>& frame = film_.places.emplace_back();
    frame.reserve(motion_.nodes());
    for (std::size_t i = 0; i < motion_.nodes(); ++i) frame.push_back(motion_.place(i));
    double square = 0.0, whole = 0.0, kinetic = 0.0;
    for (std::size_t i = 0; i < rig_.line.main_nodes; ++i) {
      square += rig_.main_share[i] * displacement(i) * displacement(i);
      whole += rig_.main_share[i];
      kinetic += 0.5 * rig_.main_mass[i] * motion_.velocities(axis_)[i] * motion_.velocities(axis_)[i];
    }
    film_.swing.push_back(std::sqrt(square / whole));
    film_.at_place.push_back(displacement(node_));
    film_.energy.push_back(kinetic / result_.ledger.put_in);
  }

  const MovingRig& rig_;
  const ShakeResult& result_;
  const ShakeFilmOptions& options_;
  int axis_;
  std::size_t node_;
  Motion motion_;
  ShakeFilm film_;
};

}  // namespace

ShakeFilmOutcome film_shake(const MovingRig& rig, const ShakeResult& result, const ShakeFilmOptions& options) {
  const bool sensible = options.duration > 0.0 && options.frame_every > 0.0 && options.duration / options.frame_every < kMostFrames;
  if (!sensible) {
    throw InputError("film", fmt::format("{:g} s in frames of {:g} s", options.duration, options.frame_every),
                     "times above 0 s and at most 20,000 frames");
  }
  ShakeFilmOutcome outcome;
  outcome.film = with_finer_steps(result.step, [&](double step) { return Filming(rig, result, options, step).run(); });
  if (!outcome.film) outcome.why = "the film of the shake: its energy ledger did not close, however small the step";
  return outcome;
}

}  // namespace spanloom
