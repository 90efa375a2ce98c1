#include "peers/calculix.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>

namespace spanloom::peers {
namespace fs = std::filesystem;
namespace {

// Slope of a table in compression against its slope in tension: enough to keep the matrix regular,
// a quarter of a millinewton in a bar shortened to nothing, far below the forces compared.
constexpr double kFlat = 1e-9;
constexpr double kForceTolerance = 1e-7;
constexpr double kDisplacementTolerance = 1e-5;
constexpr double kPrintedTime = 1e-6;  // ccx prints times with seven digits, static steps included [s]

// ccx reads fields of at most 20 characters; 13 digits always fit.
std::string field(double value) { return fmt::format("{:.13g}", value); }

// Point masses, nodes of equal mass together; a node that carries none is a held one.
void write_masses(std::ostream& out, const PeerModel& model) {
  std::map<double, std::vector<std::size_t>> nodes_of;
  for (std::size_t i = 0; i < model.node.size(); ++i) {
    if (model.motion->mass[i] > 0.0) nodes_of[model.motion->mass[i]].push_back(i);
  }
  std::size_t element = model.bar.size(), set = 0;
  for (const auto& [mass, nodes] : nodes_of) {
    out << "*ELEMENT, TYPE=MASS, ELSET=MASS" << set << '\n';
    for (std::size_t node : nodes) out << ++element << ',' << node + 1 << '\n';
    out << "*MASS, ELSET=MASS" << set++ << '\n' << field(mass) << '\n';
  }
}

void write_nodes(std::ostream& out, const std::string& set, const std::vector<std::size_t>& nodes) {
  out << "*NSET, NSET=" << set << '\n';
  for (std::size_t node : nodes) out << node + 1 << '\n';
}

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
  write_nodes(out, "HELD", model.held);
  if (model.motion) {
    write_nodes(out, "WATCHED", model.motion->watched);
    write_masses(out, model);
  }
  out << "*BOUNDARY\nALL,2,2\nHELD,1,3\n";
}

void write_controls_and_loads(std::ostream& out, const std::vector<Vec3>& load) {
  out << "*CONTROLS, PARAMETERS=FIELD\n"
      << field(kForceTolerance) << ',' << field(kDisplacementTolerance) << ",,," << field(kForceTolerance)
      << ",,,1e-12\n*CLOAD\n";
  for (std::size_t i = 0; i < load.size(); ++i) {
    if (load[i].x != 0.0) out << i + 1 << ",1," << field(load[i].x) << '\n';
    if (load[i].z != 0.0) out << i + 1 << ",3," << field(load[i].z) << '\n';
  }
}

void write_static_step(std::ostream& out, const PeerModel& model, const std::vector<Vec3>& load) {
  out << "*STEP, NLGEOM, INC=100\n*STATIC, DIRECT\n1.,1.\n";
  write_controls_and_loads(out, load);
  out << "*NODE PRINT, NSET=ALL\nU\n*NODE PRINT, NSET=HELD\nRF\n";
  if (model.motion) out << "*EL PRINT, ELSET=KIND0, FREQUENCY=100000\nENER\n";
  out << "*END STEP\n";
}

void write_motion(std::ostream& out, const PeerMotion& motion) {
  out << "*STEP, NLGEOM, INC=1000000\n*DYNAMIC, DIRECT, ALPHA=" << field(motion.alpha) << '\n'
      << field(motion.step) << ',' << field(motion.duration) << '\n';
  write_controls_and_loads(out, motion.load);
  out << "*NODE PRINT, NSET=WATCHED, FREQUENCY=1\nU\n*END STEP\n";
}

struct Block {
  double time = 0.0;  // of all steps so far [s]
  std::vector<std::pair<std::size_t, Vec3>> rows;
};

// The next block of a .dat file whose title line starts with `title` and ends with the time: node, x, y, z.
Block next_block(std::istream& in, const std::string& title) {
  std::string line;
  while (std::getline(in, line) && line.find(title) == std::string::npos) {}
  Block block;
  if (const std::size_t last = line.find_last_of(' '); last != std::string::npos) {
    std::istringstream(line.substr(last)) >> block.time;
  }
  std::getline(in, line);  // blank
  while (std::getline(in, line)) {
    std::istringstream row(line);
    std::size_t node;
    Vec3 v;
    if (!(row >> node >> v.x >> v.y >> v.z)) break;
    block.rows.push_back({node - 1, v});
  }
  return block;
}

// A history stops where the file does: the caller knows how long it must be.
std::vector<PeerInstant> read_motion(std::istream& dat, const PeerModel& model) {
  std::vector<PeerInstant> history;
  for (;;) {
    const Block moved = next_block(dat, "displacements");
    if (moved.rows.size() != model.motion->watched.size()) return history;
    PeerInstant instant{moved.time - double(model.loads.size()), {}};  // a static step takes 1 s
    for (std::size_t node : model.motion->watched) {
      for (const auto& [of, by] : moved.rows) {
        if (of == node) instant.place.push_back(model.node[node] + by);
      }
    }
    history.push_back(std::move(instant));
  }
}

std::string text_of(const fs::path& file) {
  std::ostringstream all;
  all << std::ifstream(file).rdbuf();
  return all.str();
}

}  // namespace

Vec3 PeerRun::place_at(double time, std::size_t watched) const {
  for (const PeerInstant& instant : motion) {
    if (std::abs(instant.time - time) < kPrintedTime) return instant.place.at(watched);
  }
  throw PeerError(fmt::format("no step of the motion ends at {} s", time));
}

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
  for (const std::vector<Vec3>& load : model.loads) write_static_step(out, model, load);
  if (model.motion) write_motion(out, *model.motion);
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
  // ccx drops files where it runs.
  posix_spawn_file_actions_addchdir_np(&to_log, folder.c_str());
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
    if (moved.rows.size() != model.node.size() || held.rows.size() != model.held.size()) {
      throw PeerError(fmt::format("step {} of {}: {} moves and {} forces read", step + 1, name, moved.rows.size(),
                                   held.rows.size()));
    }
    for (const auto& [node, by] : moved.rows) state.node.at(node) += by;
    for (const auto& [node, force] : held.rows) {
      for (std::size_t h = 0; h < model.held.size(); ++h) {
        if (model.held[h] == node) state.held_force[h] = force;
      }
    }
    run.states.push_back(std::move(state));
  }
  if (model.motion) run.motion = read_motion(dat, model);
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
