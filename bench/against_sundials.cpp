// Motion: ours, SUNDIALS (ARKODE, explicit Runge-Kutta) and CalculiX (HHT) in turns on one core. Beside every time
// stands the error it buys: the greatest difference of the watched node from SUNDIALS at tight tolerance over the
// samples of the case; setting up is timed with it. Then the energy that the undamped line gains or loses over 10 s.
#include <fmt/format.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <limits>
#include <memory>

#include "peers/motion_cases.h"
#include "peers/r100_model.h"
#include "turns.h"

namespace {
using namespace spanloom;
using peers::at_rest;
using peers::greatest_difference;
using peers::History;
using peers::MotionCase;
using peers::SundialsVectors;
using peers::tolerance;

struct Contender {
  enum class Who { ours, sundials, packaged_sundials, calculix };
  std::string name;
  Who who;
  std::function<History()> prepare;      ///< untimed, gives the history once
  std::function<void()> run;             ///< timed
  int repeats;                           ///< runs a round
  double error = 0.0;
  bench::Taken taken = {};
};

struct HhtStep { double step, alpha; };  // [s], [-]

struct Race {
  MotionCase motion;
  peers::SundialsOptions reference;
  std::vector<double> leapfrog, fourth_order;     // steps [s]
  std::vector<peers::SundialsOptions> sundials;
  std::vector<HhtStep> calculix;
};

Contender our_contender(const MotionCase& of, Scheme scheme, double step) {
  const auto run = [=, &of] {
    Motion motion = our_motion(of, {scheme, step});
    return watched(motion, of);
  };
  const int repeats = std::max(1, int(0.05 / of.times.back()));
  return {fmt::format("{} {:.3g} us", scheme == Scheme::leapfrog ? "leapfrog" : "fourth order", 1e6 * step),
          Contender::Who::ours, run, [run] { run(); }, repeats};
}

Contender sundials_contender(const MotionCase& of, const peers::SundialsOptions& options) {
  const auto run = [options, &of] { return watched(by_sundials(of, options)); };
  const bool packaged = options.vectors == peers::SundialsVectors::as_packaged;
  return {fmt::format("SUNDIALS{} order {}, {:.0e}", packaged ? " packaged" : "", options.order, options.relative),
          packaged ? Contender::Who::packaged_sundials : Contender::Who::sundials, run, [run] { run(); }, 1};
}

Contender calculix_contender(const MotionCase& of, const HhtStep& by) {
  const auto model = std::make_shared<peers::PeerModel>(peers::r100_release(of.times.back(), by.step, by.alpha));
  const auto folder = std::make_shared<peers::PeerFolder>();
  write_deck(*model, folder->path(), "motion");
  const auto run = [folder] { peers::run_deck(folder->path(), "motion"); };
  const auto history = [=, &of] {
    run();
    const peers::PeerRun found = read_run(*model, folder->path(), "motion");
    History places;
    for (double time : of.times) places.push_back(found.place_at(time));
    return places;
  };
  return {fmt::format("CalculiX {:.3g} us, alpha {:.1f}", 1e6 * by.step, by.alpha), Contender::Who::calculix, history, run, 1};
}

// Seconds a contender takes for one of the motion.
double cost(const Contender& contender, const MotionCase& of) {
  return bench::median(contender.taken.processor) / of.times.back();
}

// What a peer takes for an error: log-log between its best runs; NaN beyond them.
double cost_at(double error, Contender::Who who, const std::vector<Contender>& all, const MotionCase& of) {
  double tighter_cost = std::numeric_limits<double>::infinity(), looser_cost = tighter_cost;
  double tighter = 0.0, looser = 0.0;
  for (const Contender& c : all) {
    if (c.who != who || c.error <= 0.0) continue;
    // The cheapest run at least as good, and the next best below it.
    if (c.error <= error && cost(c, of) < tighter_cost) tighter_cost = cost(c, of), tighter = c.error;
  }
  for (const Contender& c : all) {
    if (c.who != who || c.error <= error) continue;
    if (cost(c, of) < tighter_cost && (looser == 0.0 || c.error < looser)) looser_cost = cost(c, of), looser = c.error;
  }
  if (tighter == 0.0) return std::numeric_limits<double>::quiet_NaN();
  if (looser == 0.0) return tighter_cost;
  const double share = std::log(error / tighter) / std::log(looser / tighter);
  return tighter_cost * std::pow(looser_cost / tighter_cost, share);
}

void report(const std::vector<Contender>& all, const MotionCase& of, const peers::SundialsRun& reference) {
  fmt::print("\n{}, error over {:.3g} s, reference {} steps\n", of.name, of.times.back(), reference.steps);
  fmt::print("  {:<30} {:>10} {:>10}   SUNDIALS at equal error takes\n", "", "s a second", "error [m]");
  for (const Contender& c : all) {
    fmt::print("  {:<30} {:>10.4g} {:>10.2e}", c.name, cost(c, of), c.error);
    if (c.who == Contender::Who::ours) {
      const double peer = cost_at(c.error, Contender::Who::sundials, all, of);
      const double packaged = cost_at(c.error, Contender::Who::packaged_sundials, all, of);
      if (std::isfinite(peer)) fmt::print("   {:.0f} times", peer / cost(c, of));
      if (std::isfinite(packaged)) fmt::print(", as packaged {:.0f} times", packaged / cost(c, of));
    }
    fmt::print("\n");
  }
  std::fflush(stdout);
}

void race(const Race& race, int rounds) {
  const MotionCase& of = race.motion;
  const peers::SundialsRun reference = by_sundials(of, race.reference);
  std::vector<Contender> all;
  for (double step : race.leapfrog) all.push_back(our_contender(of, Scheme::leapfrog, step));
  for (double step : race.fourth_order) all.push_back(our_contender(of, Scheme::fourth_order, step));
  for (const peers::SundialsOptions& options : race.sundials) all.push_back(sundials_contender(of, options));
  for (const HhtStep& by : race.calculix) all.push_back(calculix_contender(of, by));
  for (Contender& c : all) c.error = greatest_difference(c.prepare(), watched(reference));
  for (int round = 0; round < rounds; ++round) {
    for (Contender& c : all) {
      note(c.taken, c.who == Contender::Who::calculix ? RUSAGE_CHILDREN : RUSAGE_SELF, c.repeats, c.run);
    }
  }
  report(all, of, reference);
}

double rest_energy(const MotionCase& of, const Shape& shape) {
  const MotionLine line = motion_line(of.line);
  const EnergyLedger ledger = Motion(line, node_places(line, shape)).ledger();
  return ledger.stretch + ledger.height;
}

void report_drift(double duration) {
  const MotionCase of = peers::walker_steps_off(duration, int(10.0 * duration));
  const double put_in = rest_energy(of, of.start) - rest_energy(of, at_rest(of.line));
  fmt::print("\nenergy drift of R100 let go, no loss, greatest over {} s, share of the {:.1f} J that the walker's release"
             " puts in\n", duration, put_in);
  const auto drift = [&](Scheme scheme, double step) {
    Motion motion = our_motion(of, {scheme, step});
    double greatest = 0.0;
    for (double time : of.times) {
      if (!motion.advance(time - motion.time())) return std::numeric_limits<double>::infinity();
      greatest = std::max(greatest, std::abs(motion.ledger().drift));
    }
    return greatest / put_in;
  };
  for (double step : {1.25e-4, 1e-4, 5e-5, 2.5e-5, 1.25e-5}) {
    fmt::print("  leapfrog     {:>5.3g} us  {:.2e}\n", 1e6 * step, drift(Scheme::leapfrog, step));
  }
  for (double step : {4e-4, 2e-4, 1e-4, 5e-5}) {
    fmt::print("  fourth order {:>5.3g} us  {:.2e}\n", 1e6 * step, drift(Scheme::fourth_order, step));
  }
}

int run(int rounds) {
  const std::vector<double> short_steps{1.25e-4, 1e-4, 5e-5, 2.5e-5, 1.25e-5}, long_steps{4e-4, 2e-4, 1e-4, 5e-5, 2.5e-5};
  const std::vector<peers::SundialsOptions> tolerances{
      tolerance(4, 1e-2), tolerance(4, 1e-3), tolerance(4, 1e-4), tolerance(4, 1e-5), tolerance(4, 1e-6),
      tolerance(5, 1e-3), tolerance(5, 1e-4), tolerance(5, 1e-5), tolerance(8, 1e-4), tolerance(8, 1e-5),
      tolerance(4, 1e-2, SundialsVectors::as_packaged), tolerance(4, 1e-3, SundialsVectors::as_packaged),
      tolerance(4, 1e-4, SundialsVectors::as_packaged), tolerance(4, 1e-5, SundialsVectors::as_packaged),
      tolerance(4, 1e-6, SundialsVectors::as_packaged)};
  race({peers::walker_steps_off(), tolerance(4, 1e-8), short_steps, long_steps, tolerances, {{5e-4, -0.3}, {1e-4, 0.0}}}, rounds);
  race({peers::walker_steps_off_bare_main(), tolerance(8, 1e-10), short_steps, {2e-4, 1e-4, 5e-5}, tolerances, {}}, rounds);
  race({peers::gentle_shake(), tolerance(4, 1e-7), short_steps, long_steps, tolerances, {}}, rounds);
  report_drift(10.0);
  // Chaotic: the "errors" are how far any two solutions part.
  race({peers::walker_steps_off(0.5, 50), tolerance(4, 1e-5), short_steps, long_steps,
        {tolerance(4, 1e-2), tolerance(4, 1e-3), tolerance(5, 1e-4)}, {{5e-4, -0.3}}}, 1);
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc > 1 ? std::max(1, std::atoi(argv[1])) : 5);
  } catch (const std::exception& error) {
    fmt::print(stderr, "against_sundials: {}\n", error.what());
    return 1;
  }
}
