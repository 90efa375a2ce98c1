// R100, standing and with the walker, ours and CalculiX in turns on one core. CalculiX is shown gross, and net
// of what it takes on a trivial deck.
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <stdexcept>
#include <vector>

#include "peers/r100_model.h"
#include "statics/equilibrium.h"
#include "support/r100.h"
#include "turns.h"

namespace {
using namespace spanloom;

using bench::median;
using bench::note;
using bench::Taken;

void solve_both(EquilibriumSolver& solver, const Line& standing, const Line& walked) {
  solver.set_loads(standing);
  const Equilibrium empty = solver.solve();
  solver.set_loads(walked);
  const Equilibrium loaded = solver.solve_from(empty);
  if (!empty.certified() || !loaded.certified()) throw std::runtime_error("ours is not certified");
}

void report(const char* by, const std::vector<double>& solve, const std::vector<double>& whole,
            const std::vector<double>& peer, const std::vector<double>& trivial) {
  const double ours = median(solve), all = median(whole), gross = median(peer), net = gross - median(trivial);
  fmt::print("by {}\n", by);
  fmt::print("  ours, loads to both certified states     {:9.4f} ms\n", 1e3 * ours);
  fmt::print("  ours, building line and solver besides   {:9.4f} ms\n", 1e3 * all);
  fmt::print("  CalculiX, gross                          {:9.3f} ms   {:4.0f} times, {:4.0f} with building\n",
             1e3 * gross, gross / ours, gross / all);
  fmt::print("  CalculiX, net of the trivial deck        {:9.3f} ms   {:4.0f} times, {:4.0f} with building\n",
             1e3 * net, net / ours, net / all);
}

int race(int rounds) {
  const peers::R100Model r100 = peers::r100_model();
  const peers::PeerFolder folder;
  write_deck(r100.model, folder.path(), "r100");
  write_deck(peers::trivial_model(), folder.path(), "trivial");
  const Line standing = r100::standing(), walked = r100::walked();
  EquilibriumSolver solver(standing);
  Taken solve, whole, gross, trivial;
  for (int i = 0; i < rounds; ++i) {
    note(solve, RUSAGE_SELF, 50, [&] { solve_both(solver, standing, walked); });
    note(gross, RUSAGE_CHILDREN, 1, [&] { peers::run_deck(folder.path(), "r100"); });
    note(whole, RUSAGE_SELF, 50, [] {
      const Line empty = r100::standing();
      EquilibriumSolver fresh(empty);
      solve_both(fresh, empty, r100::walked());
    });
    note(trivial, RUSAGE_CHILDREN, 1, [&] { peers::run_deck(folder.path(), "trivial"); });
  }
  fmt::print("R100, both states, medians of {} rounds in turns; CalculiX took {} iterations\n", rounds,
             read_run(r100.model, folder.path(), "r100").iterations);
  report("processor time", solve.processor, whole.processor, gross.processor, trivial.processor);
  report("clock", solve.clock, whole.clock, gross.clock, trivial.clock);
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return race(argc > 1 ? std::max(1, std::atoi(argv[1])) : 31);
  } catch (const std::exception& error) {
    fmt::print(stderr, "against_calculix: {}\n", error.what());
    return 1;
  }
}
