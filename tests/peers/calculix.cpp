#include "peers/calculix.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <fstream>
#include <sstream>

namespace spanloom::peers {
namespace fs = std::filesystem;
namespace {

// Slope of a table in compression against its slope in tension: enough to keep the matrix regular,
// a quarter of a millinewton in a bar shortened to nothing, far below the forces compared.
constexpr double kFlat = 1e-9;
constexpr double kForceTolerance = 1e-7;
constexpr double kDisplacementTolerance = 1e-5;

// ccx reads fields of at most 20 characters; 13 digits always fit.
std::string field(double value) { return fmt::format("{:.13g}", value); }

void write_mesh(std::ostream& out, const PeerModel& model) {
  out << "*NODE, NSET=ALL\n";
  for (std::size_t i = 0; i < model.node.size(); ++i) {
    const Vec3& p = model.node[i];
    out << i + 1 << ',' << field(p.x) << ',' << field(p.y) << ',' << field(p.z) << '\n';
  }
  for (std::size_t k = 0; k < model.kind.size(); ++k) {
    out << "*ELEMENT, TYPE=SPRINGA, ELSET=KIND" << k << '\n';
    for (std::size_t b = 0; b < model.bar.size(); ++b) {
      const PeerBar& bar = model.bar[b];
      if (bar.kind == k) out << b + 1 << ',' << bar.near + 1 << ',' << bar.far + 1 << '\n';
    }
    const BarKind& kind = model.kind[k];
    // Force against elongation from the drawn length: three points, one natural length either way.
    const double ea = kind.axial_stiffness, zero = kind.natural_length - kind.drawn_length;
    out << "*SPRING, NONLINEAR, ELSET=KIND" << k << '\n'
        << field(-kFlat * ea) << ',' << field(zero - kind.natural_length) << '\n'
        << "0," << field(zero) << '\n'
        << field(ea) << ',' << field(zero + kind.natural_length) << '\n';
  }
  out << "*NSET, NSET=HELD\n";
  for (std::size_t node : model.held) out << node + 1 << '\n';
  out << "*BOUNDARY\nALL,2,2\nHELD,1,3\n";
}

void write_step(std::ostream& out, const std::vector<Vec3>& load) {
  out << "*STEP, NLGEOM, INC=100\n*STATIC, DIRECT\n1.,1.\n*CONTROLS, PARAMETERS=FIELD\n"
      << field(kForceTolerance) << ',' << field(kDisplacementTolerance) << ",,," << field(kForceTolerance)
      << ",,,1e-12\n*CLOAD\n";
  for (std::size_t i = 0; i < load.size(); ++i) {
    if (load[i].x != 0.0) out << i + 1 << ",1," << field(load[i].x) << '\n';
    if (load[i].z != 0.0) out << i + 1 << ",3," << field(load[i].z) << '\n';
  }
  out << "*NODE PRINT, NSET=ALL\nU\n*NODE PRINT, NSET=HELD\nRF\n*END STEP\n";
}

// The numbers of the next block of a .dat file whose title line starts with `title`: node, x, y, z.
std::vector<std::pair<std::size_t, Vec3>> next_block(std::istream& in, const std::string& title) {
  std::string line;
  while (std::getline(in, line) && line.find(title) == std::string::npos) {}
  std::getline(in, line);  // blank
  std::vector<std::pair<std::size_t, Vec3>> rows;
  while (std::getline(in, line)) {
    std::istringstream row(line);
    std::size_t node;
    Vec3 v;
    if (!(row >> node >> v.x >> v.y >> v.z)) break;
    rows.push_back({node - 1, v});
  }
  return rows;
}

std::string text_of(const fs::path& file) {
  std::ostringstream all;
  all << std::ifstream(file).rdbuf();
  return all.str();
}

}  // namespace

PeerFolder::PeerFolder() {
  std::string pattern = (fs::temp_directory_path() / "spanloom-peer-XXXXXX").string();
  if (!mkdtemp(pattern.data())) throw PeerError("no folder could be made under the temporary one");
  path_ = pattern;
}

PeerFolder::~PeerFolder() {
  std::error_code ignored;  // a leftover folder is no reason to fail a test that passed
  fs::remove_all(path_, ignored);
}

void write_deck(const PeerModel& model, const fs::path& folder, const std::string& name) {
  std::ofstream out(folder / (name + ".inp"));
  write_mesh(out, model);
  for (const std::vector<Vec3>& load : model.loads) write_step(out, load);
  if (!out) throw PeerError("the deck could not be written to " + folder.string());
}

double run_deck(const fs::path& folder, const std::string& name) {
  const std::string dat = (folder / (name + ".dat")).string(), log = (folder / (name + ".log")).string();
  const std::string deck = (folder / name).string();
  fs::remove(dat);
  setenv("OMP_NUM_THREADS", "1", 1);
  posix_spawn_file_actions_t to_log;
  posix_spawn_file_actions_init(&to_log);
  posix_spawn_file_actions_addopen(&to_log, STDOUT_FILENO, log.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
  posix_spawn_file_actions_adddup2(&to_log, STDOUT_FILENO, STDERR_FILENO);
  std::string program = "ccx";
  std::string argument = deck;
  char* arguments[] = {program.data(), argument.data(), nullptr};
  const auto begin = std::chrono::steady_clock::now();
  pid_t child = 0;
  const int refused = posix_spawnp(&child, "ccx", &to_log, nullptr, arguments, environ);
  int status = 0;
  if (refused == 0) waitpid(child, &status, 0);
  const auto end = std::chrono::steady_clock::now();
  posix_spawn_file_actions_destroy(&to_log);
  if (refused != 0 || (WIFEXITED(status) && WEXITSTATUS(status) == 127)) {
    throw PeerError("ccx cannot be run: install the Debian package calculix-ccx");
  }
  const std::string said = text_of(log);
  if (said.find("*ERROR") != std::string::npos || said.find("Job finished") == std::string::npos) {
    throw PeerError("ccx gave up: " + said.substr(said.size() > 2000 ? said.size() - 2000 : 0));
  }
  return std::chrono::duration<double>(end - begin).count();
}

PeerRun read_run(const PeerModel& model, const fs::path& folder, const std::string& name) {
  std::ifstream dat(folder / (name + ".dat"));
  PeerRun run;
  for (std::size_t step = 0; step < model.loads.size(); ++step) {
    PeerState state{model.node, std::vector<Vec3>(model.held.size())};
    const auto moved = next_block(dat, "displacements"), held = next_block(dat, "forces");
    if (moved.size() != model.node.size() || held.size() != model.held.size()) {
      throw PeerError(fmt::format("step {} of {}: {} moves and {} forces read", step + 1, name, moved.size(), held.size()));
    }
    for (const auto& [node, by] : moved) state.node.at(node) += by;
    for (const auto& [node, force] : held) {
      for (std::size_t h = 0; h < model.held.size(); ++h) {
        if (model.held[h] == node) state.held_force[h] = force;
      }
    }
    run.states.push_back(std::move(state));
  }
  std::istringstream log(text_of(folder / (name + ".log")));
  for (std::string line; std::getline(log, line);) run.iterations += line.rfind(" iteration", 0) == 0;
  return run;
}

PeerRun run_calculix(const PeerModel& model) {
  const PeerFolder folder;
  write_deck(model, folder.path(), "line");
  const double seconds = run_deck(folder.path(), "line");
  PeerRun run = read_run(model, folder.path(), "line");
  run.seconds = seconds;
  return run;
}

}  // namespace spanloom::peers
