// Is it uneven bays or differing drops that lower the return? Many layouts on three invented lines, shaken
// sideways at 15 % of the gap from 0.5 to 4 Hz. Writes study-layouts.csv and study-layouts.svg into the folder
// given and prints a table. The numbers of docs/study-layouts.md come from here.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <random>
#include <stdexcept>
#include <thread>
#include <vector>

#include <fmt/format.h>

#include "base/parallel.h"
#include "motion/shake_report.h"
#include "sheet/drawing.h"

namespace {
using namespace spanloom;

struct StudiedLine {
  const char* name;
  double gap;       // [m]
  double tension;   // [N]
  int bays;
  double drop;      // [m]
};

constexpr StudiedLine kLines[] = {{"16 m", 16.0, 2500.0, 9, 0.12}, {"60 m", 60.0, 4500.0, 18, 0.18}, {"120 m", 120.0, 6000.0, 30, 0.25}};

enum Family { even_equal, tape_out, bays_same_slack, even_random_drops, bays_equal_drops, kFamilies };
constexpr const char* kFamilyName[] = {"even bays, equal drops", "one tape taken out", "random bays, same slack (drops differ)",
                                       "even bays, random drops", "random bays, equal drops"};
// Of the even line hair-fine different first swings, since loops snap and one run is one draw.
constexpr int kLayouts[] = {8, 8, 20, 20, 20};

Webbing webbing(const char* name, double mass) {
  Webbing w = webbing_with_defaults();
  w.name = name;
  w.mass_per_length = mass;
  w.width = Stated<double>::given(0.025);
  w.thickness = Stated<double>::given(0.0025);
  w.strength = 30e3;
  w.curve = StretchCurve::linear(120e3);
  w.loss = 0.05;
  return w;
}

// Bays as shares of the main, and drops as shares of the line's own.
struct Layout {
  Family family;
  std::vector<double> bays, drops;
  double slack = 0.0;    // share for all bays instead of drops, if above 0
  double swing = 0.1;    // [m]
};

std::vector<double> random_shares(std::size_t count, std::mt19937& random) {
  std::uniform_real_distribution<double> draw(0.5, 1.5);
  std::vector<double> shares(count);
  double sum = 0.0;
  for (double& share : shares) sum += share = draw(random);
  for (double& share : shares) share *= double(count) / sum;
  return shares;
}

Rig rig_of(const StudiedLine& line, const Layout& layout) {
  Rig rig = rig_with_defaults();
  rig.title = line.name;
  rig.site.gap = line.gap;
  rig.webbings = {webbing("main", 0.060), webbing("backup", 0.055)};
  rig.main.run.segments = {{0, std::nullopt}};
  rig.backup.run.segments = {{1, std::nullopt}};
  rig.main.tension = line.tension;
  rig.walker.mass = 75.0;
  const double webbing_length = line.gap / (1.0 + line.tension / 120e3);
  TapesAt tapes;
  double at = 0.0, whole = 0.0;
  for (const double share : layout.bays) whole += share;
  for (std::size_t k = 0; k + 1 < layout.bays.size(); ++k) tapes.positions.push_back(at += layout.bays[k] / whole * webbing_length);
  rig.spacing.pattern = tapes;
  if (layout.slack > 0.0) {
    rig.backup.amount = SlackShare{{layout.slack}};
  } else {
    LoopDrop drop;
    for (const double share : layout.drops) drop.of_bay.push_back(share * line.drop);
    rig.backup.amount = drop;
  }
  return rig;
}

MovingRig standing(const StudiedLine& line, const Layout& layout) {
  MovingOutcome outcome = moving_rig(rig_of(line, layout));
  if (!outcome.rig) throw std::runtime_error(outcome.why);
  return std::move(*outcome.rig);
}

// The share of slack that gives the even line its drops.
double even_slack(const StudiedLine& line) {
  const Layout even{even_equal, std::vector<double>(std::size_t(line.bays), 1.0), std::vector<double>(std::size_t(line.bays), 1.0), 0.0, 0.1};
  return slack_over_all(standing(line, even));
}

std::vector<Layout> layouts(const StudiedLine& line, double slack) {
  std::mt19937 random(20240501u + unsigned(line.bays));
  const auto n = std::size_t(line.bays);
  const std::vector<double> same(n, 1.0);
  std::vector<Layout> all;
  for (int i = 0; i < kLayouts[even_equal]; ++i) all.push_back({even_equal, same, same, 0.0, 0.0965 + 0.001 * i});
  for (int i = 0; i < kLayouts[tape_out]; ++i) {
    // As cut: the two loops beside the tape become one, the others stay.
    std::vector<double> bays = same;
    const std::size_t out = n / 2 - std::min<std::size_t>(n / 2 - 1, 4) + std::size_t(i) % std::min<std::size_t>(n - 2, 8);
    bays.erase(bays.begin() + std::ptrdiff_t(std::min(out, n - 2)));
    bays[std::min(out, n - 2)] = 2.0;
    all.push_back({tape_out, bays, {}, slack, 0.1});
  }
  for (int i = 0; i < kLayouts[bays_same_slack]; ++i) all.push_back({bays_same_slack, random_shares(n, random), {}, slack, 0.1});
  for (int i = 0; i < kLayouts[even_random_drops]; ++i) all.push_back({even_random_drops, same, random_shares(n, random), 0.0, 0.1});
  for (int i = 0; i < kLayouts[bays_equal_drops]; ++i) all.push_back({bays_equal_drops, random_shares(n, random), same, 0.0, 0.1});
  return all;
}

struct Row { std::vector<double> returned; };  // by frequency

// A panel a line: return against frequency, a curve a family.
std::string picture(const std::vector<std::vector<Row>>& means, const std::vector<Row>& bare) {
  constexpr double kWide = 520.0, kHigh = 215.0, kLeftEdge = 46.0, kCurves = 300.0;
  const char* const dashes[] = {"", "1 2", "6 2", "2 2 6 2", "8 3"};
  const double widths[] = {2.2, 1.2, 1.2, 1.2, 2.2};
  const std::vector<double> frequencies = third_octaves();
  Drawing drawing;
  drawing.rectangle(0, 0, kWide, kHigh * double(means.size()), "#fff", {0.0, "", "#fff"});
  for (std::size_t l = 0; l < means.size(); ++l) {
    const double top = kHigh * double(l) + 26.0, bottom = top + kHigh - 62.0;
    const auto x = [&](std::size_t f) { return kLeftEdge + kCurves * double(f) / double(frequencies.size() - 1); };
    const auto y = [&](double r) { return bottom - (bottom - top) * std::min(1.0, r); };
    drawing.text(kLeftEdge, top - 8, fmt::format("{}, return of a sideways shake at 15 %", kLines[l].name), {11.0, FontWeight::bold});
    for (const double r : {0.0, 0.5, 1.0}) {
      drawing.line({kLeftEdge, y(r)}, {kLeftEdge + kCurves, y(r)}, {0.3});
      drawing.text(kLeftEdge - 5, y(r) + 3, fmt::format("{:.0f} %", 100 * r), {9.0, FontWeight::regular, TextStyle::Align::right});
    }
    for (std::size_t f = 0; f < frequencies.size(); ++f) {
      drawing.text(x(f), bottom + 13, fmt::format("{:.3g}", frequencies[f]), {9.0, FontWeight::regular, TextStyle::Align::middle});
    }
    drawing.text(kLeftEdge + kCurves + 14, bottom + 13, "Hz", {9.0});
    const auto curve = [&](const Row& row, std::size_t place, const char* name, const Stroke& stroke) {
      std::vector<PagePoint> points;
      for (std::size_t f = 0; f < frequencies.size(); ++f) points.push_back({x(f), y(row.returned[f])});
      drawing.polyline(points, stroke);
      const double at = top + 6 + 18 * double(place);
      drawing.line({kLeftEdge + kCurves + 14, at}, {kLeftEdge + kCurves + 44, at}, stroke);
      drawing.text(kLeftEdge + kCurves + 48, at + 3, name, {9.0});
    };
    for (std::size_t k = 0; k < kFamilies; ++k) {
      const char* colour = k == bays_equal_drops || k == even_equal ? "#000" : "#06c";
      const char* short_name[] = {"even, equal drops", "one tape taken out", "bays random, same slack", "drops random", "bays random, equal drops"};
      curve(means[l][k], k, short_name[k], {widths[k], dashes[k], colour});
    }
    curve(bare[l], kFamilies, "no loops", {0.8, "1 4", "#777"});
  }
  return fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}\" height=\"{1}\" viewBox=\"0 0 {0} {1}\" "
                     "font-family=\"DejaVu Sans\">{2}</svg>\n", kWide, kHigh * double(means.size()), drawing.svg());
}

Row shaken(const MovingRig& rig, double swing) {
  Row row;
  for (const double frequency : third_octaves()) {
    const ShakeOutcome outcome = run_shake(rig, {frequency, 0.15, ShakeDirection::sideways, swing});
    if (!outcome.result) throw std::runtime_error(outcome.why.words);
    row.returned.push_back(outcome.result->returned);
  }
  return row;
}

int study(const std::filesystem::path& folder) {
  std::filesystem::create_directories(folder);
  std::ofstream csv(folder / "study-layouts.csv");
  csv << "line,family,layout";
  for (const double f : third_octaves()) csv << fmt::format(",return_{:g}_Hz", f);
  csv << "\n";
  std::vector<std::vector<Row>> means;
  std::vector<Row> bare;
  for (const StudiedLine& line : kLines) {
    const std::vector<Layout> all = layouts(line, even_slack(line));
    std::vector<Row> rows(all.size());
    in_parallel(all.size(), std::thread::hardware_concurrency(), [&](std::size_t i) { rows[i] = shaken(standing(line, all[i]), all[i].swing); },
                [&](std::size_t done) { fmt::print(stderr, "\r{}: {} of {} layouts ", line.name, done, all.size()); return true; });
    const MovingOutcome alone = without_loops(standing(line, all[0]));
    bare.push_back(shaken(*alone.rig, 0.1));
    std::vector<Row>& mean = means.emplace_back(kFamilies, Row{std::vector<double>(third_octaves().size(), 0.0)});
    std::vector<double> square(kFamilies, 0.0), band(kFamilies, 0.0);
    for (std::size_t i = 0; i < all.size(); ++i) {
      csv << fmt::format("{},\"{}\",{}", line.name, kFamilyName[all[i].family], i);
      double its_band = 0.0;
      for (std::size_t f = 0; f < rows[i].returned.size(); ++f) {
        csv << fmt::format(",{:.4f}", rows[i].returned[f]);
        mean[all[i].family].returned[f] += rows[i].returned[f] / kLayouts[all[i].family];
        its_band += rows[i].returned[f] / double(rows[i].returned.size());
      }
      csv << "\n";
      band[all[i].family] += its_band / kLayouts[all[i].family];
      square[all[i].family] += its_band * its_band / kLayouts[all[i].family];
    }
    fmt::print("\n| {} |", line.name);
    for (const double frequency : third_octaves()) fmt::print(" {:g} Hz |", frequency);
    fmt::print(" band | spread of layouts |\n|---|");
    for (std::size_t f = 0; f < third_octaves().size() + 2; ++f) fmt::print("---|");
    fmt::print("\n| no loops |");
    double bare_band = 0.0;
    for (const double r : bare.back().returned) fmt::print(" {:.2f} |", r), bare_band += r / double(bare.back().returned.size());
    fmt::print(" {:.2f} | |\n", bare_band);
    for (std::size_t k = 0; k < kFamilies; ++k) {
      fmt::print("| {} |", kFamilyName[k]);
      for (const double r : mean[k].returned) fmt::print(" {:.2f} |", r);
      fmt::print(" {:.3f} | {:.3f} |\n", band[k], std::sqrt(std::max(0.0, square[k] - band[k] * band[k])));
    }
    std::fflush(stdout);
  }
  std::ofstream(folder / "study-layouts.svg") << picture(means, bare);
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return study(argc > 1 ? argv[1] : ".");
  } catch (const std::exception& error) {
    fmt::print(stderr, "study_layouts: {}\n", error.what());
    return 1;
  }
}
