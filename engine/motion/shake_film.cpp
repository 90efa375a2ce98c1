#include "motion/shake_film.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "base/input_error.h"

namespace spanloom {
namespace {

constexpr double kMostFrames = 20000.0;

class Filming {
 public:
  Filming(const MovingRig& rig, const Shake& shake, const ShakeFilmOptions& options)
      : rig_(rig), options_(options), axis_(shake.direction == ShakeDirection::sideways ? 1 : 2),
        node_(rig.node_near(shake.place * rig.rig.site.gap)) {}

  void look(const Motion& motion) {
    if (motion.time() == 0.0) film_ = {};  // an attempt begins
    Seen now{motion.time(), {}, 0.0};
    now.places.reserve(motion.nodes());
    for (std::size_t i = 0; i < motion.nodes(); ++i) now.places.push_back(motion.place(i));
    for (std::size_t i = 0; i < rig_.line.main_nodes; ++i) {
      const double v = motion.velocities(axis_)[i];
      now.kinetic += 0.5 * rig_.main_mass[i] * v * v;
    }
    if (now.time == 0.0) before_ = now;
    for (double next = next_frame(); next <= now.time * (1.0 + 1e-12); next = next_frame()) keep_frame(next, now);
    before_ = std::move(now);
    if (options_.progress) {
      const auto all = std::size_t(options_.duration / options_.frame_every) + 1;
      options_.progress(std::min(film_.places.size(), all), all);
    }
  }

  ShakeFilm finished(ShakeResult result) {
    for (double& energy : film_.energy) energy /= result.ledger.put_in;
    film_.result = std::move(result);
    film_.frame_every = options_.frame_every;
    film_.main_nodes = rig_.line.main_nodes;
    return std::move(film_);
  }

 private:
  struct Seen { double time = 0.0; std::vector<Vec3> places; double kinetic = 0.0; };

  double next_frame() const { return double(film_.places.size()) * options_.frame_every; }
  double along(const Vec3& p) const { return axis_ == 1 ? p.y : p.z; }

  void keep_frame(double time, const Seen& now) {
    const double share = now.time > before_.time ? (time - before_.time) / (now.time - before_.time) : 1.0;
    std::vector<Vec3>& frame = film_.places.emplace_back();
    frame.reserve(now.places.size());
    for (std::size_t i = 0; i < now.places.size(); ++i) {
      frame.push_back(before_.places[i] + share * (now.places[i] - before_.places[i]));
    }
    double square = 0.0, whole = 0.0;
    for (std::size_t i = 0; i < rig_.line.main_nodes; ++i) {
      const double moved = along(frame[i]) - along(rig_.rest[i]);
      square += rig_.main_share[i] * moved * moved;
      whole += rig_.main_share[i];
    }
    film_.swing.push_back(std::sqrt(square / whole));
    film_.at_place.push_back(along(frame[node_]) - along(rig_.rest[node_]));
    film_.energy.push_back(before_.kinetic + share * (now.kinetic - before_.kinetic));
  }

  const MovingRig& rig_;
  const ShakeFilmOptions& options_;
  int axis_;
  std::size_t node_;
  Seen before_;
  ShakeFilm film_;
};

}  // namespace

ShakeFilmOutcome film_shake(const MovingRig& rig, const Shake& shake, const ShakeFilmOptions& options) {
  const bool sensible = options.duration > 0.0 && options.frame_every > 0.0 && options.duration / options.frame_every < kMostFrames;
  if (!sensible) {
    throw InputError("film", fmt::format("{:g} s in frames of {:g} s", options.duration, options.frame_every),
                     "times above 0 s and at most 20,000 frames");
  }
  Filming filming(rig, shake, options);
  ShakeOptions run;
  run.history_time = options.duration;
  run.show = [&](const Motion& motion) { filming.look(motion); };
  ShakeOutcome outcome = run_shake(rig, shake, run);
  if (!outcome.result) return {std::nullopt, outcome.why.words};
  return {filming.finished(std::move(*outcome.result)), {}};
}

}  // namespace spanloom
