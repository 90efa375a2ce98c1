// How well what judges layouts fast agrees with the full motion: random layouts of a rig, each shaken in full (true backup,
// fine mesh, ledger closed to 1e-3), with the softened backup, at a glance, and by the spectrum of small motion.
//
//   study_judges RIG.toml [layouts]
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <numeric>
#include <random>
#include <stdexcept>
#include <thread>
#include <vector>

#include "base/parallel.h"
#include "files/rig_file.h"
#include "motion/shake.h"
#include "spacing/layout_bounds.h"
#include "spacing/layout_judge.h"
#include "spacing/moved_return.h"

namespace spanloom {
namespace {

using Row = std::vector<double>;          // one number a shake

struct Judged { Row full, again, soft, glanced, small; };

double mean(const Row& row) { return std::accumulate(row.begin(), row.end(), 0.0) / double(row.size()); }

double correlation(const Row& a, const Row& b) {
  const double ma = mean(a), mb = mean(b);
  double ab = 0.0, aa = 0.0, bb = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) ab += (a[i] - ma) * (b[i] - mb), aa += (a[i] - ma) * (a[i] - ma), bb += (b[i] - mb) * (b[i] - mb);
  return ab / std::sqrt(aa * bb);
}

Row column(const std::vector<Judged>& rows, Row Judged::* of, std::size_t shake) {
  Row out;
  for (const Judged& row : rows) out.push_back((row.*of)[shake]);
  return out;
}

Row means(const std::vector<Judged>& rows, Row Judged::* of) {
  Row out;
  for (const Judged& row : rows) out.push_back(mean(row.*of));
  return out;
}

Row shaken(const MovingRig& line, std::vector<Shake> shakes, double swing) {
  Row out;
  for (Shake& shake : shakes) {
    shake.first_swing *= swing;
    const ShakeOutcome outcome = run_shake(line, shake);
    if (!outcome.result) throw std::runtime_error(outcome.why.words);
    out.push_back(outcome.result->returned);
  }
  return out;
}

Phrase random_phrase(const LayoutBounds& bounds, std::mt19937_64& random) {
  const auto below = [&](int n) { return int(random() % std::uint64_t(n)); };
  Phrase phrase;
  const int steps = int(std::lround((bounds.most_slack - bounds.least_slack) / bounds.slack_step));
  for (int i = 1 + below(6); i-- > 0;) phrase.bays.push_back(bounds.shortest + below(bounds.longest - bounds.shortest + 1));
  for (int i = 1 + below(5); i-- > 0;) phrase.slack.push_back(bounds.least_slack + bounds.slack_step * below(steps + 1));
  return phrase;
}

Judged judge(const Rig& rig, const Plan& plan, const MovedJudge& moved, const Layout& layout) {
  const std::vector<Shake> shakes = judged_shakes(rig);
  const std::optional<MovingRig> full = moving_rig(with_layout(rig, layout)).rig, soft = moved.line(layout);
  if (!full || !soft) throw std::runtime_error("a layout without rest");
  Judged row{shaken(*full, shakes, 1.0), shaken(*full, shakes, 1.03), shaken(*soft, shakes, 1.0), moved.shake(*soft, ShakeSet::all).each, {}};
  for (const Shake& shake : shakes) {
    JudgeOptions options;
    options.shakes.frequencies = {shake.frequency};
    options.shakes.places = {shake.place};
    row.small.push_back(LayoutJudge(rig, plan, options).judge(layout).value().return_mean);
  }
  return row;
}

void tell(const char* what, const std::vector<Judged>& rows, Row Judged::* of, const std::vector<Shake>& shakes) {
  const Row a = means(rows, &Judged::full), b = means(rows, of);
  double square = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) square += (a[i] - b[i]) * (a[i] - b[i]) / double(a.size());
  std::printf("| %s | %.3f | %.3f | %+.3f |", what, correlation(a, b), std::sqrt(square), mean(b) - mean(a));
  for (std::size_t i = 0; i < shakes.size(); ++i) std::printf(" %.2f |", correlation(column(rows, &Judged::full, i), column(rows, of, i)));
  std::printf("\n");
}

void run(const char* file, std::size_t count) {
  const Rig rig = read_rig_file(file).rig;
  const Plan plan = make_plan(rig).plan.value();
  const MovedJudge moved(rig);
  std::mt19937_64 random(5);
  LayoutJudge judge_once(rig, plan);
  std::vector<Layout> layouts;
  while (layouts.size() < count) {
    const auto layout = layout_of(random_phrase(usual_bounds(rig, plan), random), rig.spacing, main_length_of(plan));
    if (layout && judge_once.judge(*layout)) layouts.push_back(*layout);
  }
  std::vector<Judged> rows(count);
  in_parallel(count, std::thread::hardware_concurrency(), [&](std::size_t i) { rows[i] = judge(rig, plan, moved, layouts[i]); }, {});
  const std::vector<Shake> shakes = judged_shakes(rig);
  const Row full = means(rows, &Judged::full);
  std::printf("%s: %zu layouts, mean return %.3f\n| | of means | rms | bias |", rig.title.c_str(), count, mean(full));
  for (const Shake& shake : shakes) std::printf(" %.3g Hz |", shake.frequency);
  std::printf("\n");
  tell("again, swing 3 % larger", rows, &Judged::again, shakes);
  tell("softened backup", rows, &Judged::soft, shakes);
  tell("glance", rows, &Judged::glanced, shakes);
  tell("small motion", rows, &Judged::small, shakes);
}

}  // namespace
}  // namespace spanloom

int main(int argc, char** argv) {
  if (argc < 2) return 2;
  spanloom::run(argv[1], argc > 2 ? std::size_t(std::atoi(argv[2])) : 40);
}
