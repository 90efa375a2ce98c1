#include "spacing/retape.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "base/input_error.h"
#include "spacing/layout.h"

namespace spanloom {
namespace {

// Two bays beside a tape and how they hang.
struct Beside {
  std::array<double, 2> bay, loop, standing;
};

std::array<std::vector<double>*, 5> columns(Taping& taping) {
  return {&taping.bays, &taping.loops, &taping.standing, &taping.main_hardware, &taping.loop_hardware};
}

void demand_whole(Taping& taping) {
  const std::size_t bays = taping.bays.size();
  if (bays < 2) throw InputError("taping", fmt::format("{} bays", bays), "two bays or more, with a tape between them");
  for (const std::vector<double>* column : columns(taping)) {
    if (column->size() == bays) continue;
    throw InputError("taping", fmt::format("{} bays and {} of what goes with them", bays, column->size()), "as many of each");
  }
}

void demand_tape(const Taping& taping, std::size_t tape) {
  if (tape >= 1 && tape < taping.bays.size()) return;
  throw InputError("spacing.at", fmt::format("tape {}", tape), fmt::format("a tape from 1 to {}", taping.bays.size() - 1),
                   "tapes are counted from the near anchor; the anchors are none");
}

/// Where a bay starts, natural length from the near connector [m].
double start_of(const Taping& taping, std::size_t bay) {
  return std::accumulate(taping.bays.begin(), taping.bays.begin() + std::ptrdiff_t(bay), 0.0);
}

/// @throws InputError unless a tape may be at s, between two that stay
void demand_place(double s, double from, double to) {
  constexpr double kHair = 1e-9;  // of rounding [m]
  if (s >= from + kLeastBay - kHair && s <= to - kLeastBay + kHair) return;
  const std::string read = std::isfinite(s) ? fmt::format("a tape at {:.2f} m", s) : "a tape nowhere";
  if (to - from < 2.0 * kLeastBay) {
    throw InputError("spacing.at", read, fmt::format("bays of at least {:.2f} m", kLeastBay),
                     fmt::format("from {:.2f} m to {:.2f} m there is no room for a tape: take one beside it out", from, to));
  }
  throw InputError("spacing.at", read, fmt::format("a place from {:.2f} m to {:.2f} m", from + kLeastBay, to - kLeastBay),
                   fmt::format("bays are {:.2f} m at the least; further on, move or take out the next tape", kLeastBay));
}

/// The loops together over other lengths of standing main.
std::array<double, 2> shared(const Beside& was, const std::array<double, 2>& standing) {
  std::array<double, 2> slack{};
  for (std::size_t i : {0, 1}) slack[i] = was.loop[i] / was.standing[i] - 1.0;
  if (!(slack[0] > 0.0 && slack[1] > 0.0)) slack = {1.0, 1.0};
  const double more = was.loop[0] + was.loop[1] - standing[0] - standing[1];
  const double first = slack[0] * standing[0], second = slack[1] * standing[1];
  return {standing[0] + more * first / (first + second), standing[1] + more * second / (first + second)};
}

/// The tape before a bay goes to s.
void put_tape(Taping& taping, std::size_t tape, double s) {
  const std::size_t a = tape - 1, b = tape;
  const double from = start_of(taping, a), whole = taping.bays[a] + taping.bays[b];
  demand_place(s, from, from + whole);
  const Beside was{{taping.bays[a], taping.bays[b]}, {taping.loops[a], taping.loops[b]}, {taping.standing[a], taping.standing[b]}};
  const double webbing = was.standing[0] + was.standing[1] - taping.main_hardware[a] - taping.main_hardware[b];
  const double by = s - from - was.bay[0], stretched = by * webbing / whole;
  const std::array<double, 2> standing{was.standing[0] + stretched, was.standing[1] - stretched};
  const std::array<double, 2> loop = shared(was, standing);
  for (std::size_t i : {0, 1}) {
    const double hardware = taping.loop_hardware[a + i];
    if (!(loop[i] > hardware)) {
      throw InputError("backup.length", fmt::format("a loop of {:.2f} m in bay {}", loop[i], a + i + 1),
                       fmt::format("more than its {:.2f} m of hardware", hardware), "leave the tape further from the anchor");
    }
    taping.loops[a + i] = loop[i];
    taping.standing[a + i] = standing[i];
  }
  taping.bays[a] = was.bay[0] + by;
  taping.bays[b] = was.bay[1] - by;
}

}  // namespace

Taping taping_of(const Rig& rig, const Plan& plan) {
  Taping taping;
  taping.bays = layout_of(plan).bays;
  taping.loops = plan.rigged.loop_length;
  for (const PlanBay& bay : plan.bays) taping.standing.push_back(bay.main_standing);
  for (const auto& [hardware, run] : {std::pair{&taping.main_hardware, &rig.main.run}, {&taping.loop_hardware, &rig.backup.run}}) {
    hardware->assign(plan.bays.size(), 0.0);
    hardware->front() += run->near_hardware.length;
    hardware->back() += run->far_hardware.length;
  }
  return taping;
}

Taping take_out_tape(Taping taping, std::size_t tape) {
  demand_whole(taping);
  demand_tape(taping, tape);
  if (taping.bays.size() == 2) {
    throw InputError("spacing.at", "the only tape taken out", "one tape at the least", "add another before");
  }
  for (std::vector<double>* column : columns(taping)) {
    (*column)[tape - 1] += (*column)[tape];
    column->erase(column->begin() + std::ptrdiff_t(tape));
  }
  return taping;
}

Taping move_tape(Taping taping, std::size_t tape, double s) {
  demand_whole(taping);
  demand_tape(taping, tape);
  put_tape(taping, tape, s);
  return taping;
}

Taping add_tape(Taping taping, double s) {
  demand_whole(taping);
  std::size_t bay = 0;
  double from = 0.0;
  while (bay + 1 < taping.bays.size() && s > from + taping.bays[bay]) from += taping.bays[bay++];
  demand_place(s, from, from + taping.bays[bay]);
  // First in the middle of the webbing, the slack the same to both sides; then moved.
  const bool at_far = bay + 1 == taping.bays.size();
  const double slack = taping.loops[bay] / taping.standing[bay];
  const double webbing = taping.standing[bay] - taping.main_hardware[bay];
  for (std::vector<double>* column : columns(taping)) {
    const bool is_hardware = column == &taping.main_hardware || column == &taping.loop_hardware;
    const double whole = (*column)[bay], first = is_hardware ? (at_far ? 0.0 : whole) : 0.5 * whole;
    (*column)[bay] = first;
    column->insert(column->begin() + std::ptrdiff_t(bay) + 1, whole - first);
  }
  for (std::size_t k : {bay, bay + 1}) {
    taping.standing[k] = taping.main_hardware[k] + 0.5 * webbing;
    taping.loops[k] = slack * taping.standing[k];
  }
  put_tape(taping, bay + 1, s);
  return taping;
}

Rig rig_with(const Rig& rig, const Taping& taping) {
  if (taping.bays.size() != taping.loops.size()) {
    throw InputError("taping", fmt::format("{} bays and {} loops", taping.bays.size(), taping.loops.size()), "as many of both");
  }
  Rig taped = with_layout(rig, {taping.bays, std::vector<double>(taping.bays.size(), 0.0)});
  taped.backup.amount = LoopLength{taping.loops};
  return taped;
}

}  // namespace spanloom
