// R100, standing and with the walker, ours and CalculiX in turns on one core, so that a machine that
// drifts drifts for both. CalculiX is shown gross, and net of what it takes on a trivial deck.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <stdexcept>
#include <vector>

#include "peers/r100_model.h"
#include "statics/equilibrium.h"
#include "support/r100.h"

namespace {
using namespace spanloom;

double median(std::vector<double> all) {
  std::nth_element(all.begin(), all.begin() + std::ptrdiff_t(all.size() / 2), all.end());
  return all[all.size() / 2];
}

// Building line and solver included: everything between the numbers of R100 and both certified states.
double time_ours(int repeats) {
  const auto begin = std::chrono::steady_clock::now();
  for (int i = 0; i < repeats; ++i) {
    const Line walked = r100::walked();
    EquilibriumSolver solver(r100::standing());
    const Equilibrium empty = solver.solve();
    solver.set_loads(walked);
    const Equilibrium loaded = solver.solve_from(empty);
    if (!empty.certified() || !loaded.certified()) throw std::runtime_error("ours is not certified");
  }
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count() / repeats;
}

double time_ours_solving(int repeats) {
  const Line standing = r100::standing(), walked = r100::walked();
  EquilibriumSolver solver(standing);
  const auto begin = std::chrono::steady_clock::now();
  for (int i = 0; i < repeats; ++i) {
    solver.set_loads(standing);
    const Equilibrium empty = solver.solve();
    solver.set_loads(walked);
    const Equilibrium loaded = solver.solve_from(empty);
    if (!empty.certified() || !loaded.certified()) throw std::runtime_error("ours is not certified");
  }
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count() / repeats;
}

int race(int rounds) {
  const peers::R100Model r100 = peers::r100_model();
  const peers::PeerFolder folder;
  write_deck(r100.model, folder.path(), "r100");
  write_deck(peers::trivial_model(), folder.path(), "trivial");
  std::vector<double> solve, whole, gross, trivial;
  for (int i = 0; i < rounds; ++i) {
    solve.push_back(time_ours_solving(50));
    gross.push_back(peers::run_deck(folder.path(), "r100"));
    whole.push_back(time_ours(50));
    trivial.push_back(peers::run_deck(folder.path(), "trivial"));
  }
  const peers::PeerRun run = read_run(r100.model, folder.path(), "r100");
  const double ours = median(solve), all = median(whole), ccx = median(gross);
  const double net = ccx - median(trivial);
  fmt::print("R100, both states, medians of {} rounds in turns\n", rounds);
  fmt::print("ours, loads to both certified states     {:9.4f} ms\n", 1e3 * ours);
  fmt::print("ours, building line and solver besides   {:9.4f} ms\n", 1e3 * all);
  fmt::print("CalculiX, gross ({} iterations)          {:9.3f} ms\n", run.iterations, 1e3 * ccx);
  fmt::print("CalculiX on a trivial deck               {:9.3f} ms\n", 1e3 * median(trivial));
  fmt::print("                                  ratio to solving   to all of ours\n");
  fmt::print("gross                             {:12.0f} {:16.0f}\n", ccx / ours, ccx / all);
  fmt::print("net of the trivial deck           {:12.0f} {:16.0f}\n", net / ours, net / all);
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
