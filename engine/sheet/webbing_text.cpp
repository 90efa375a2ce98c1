#include "sheet/webbing_text.h"

#include <algorithm>

#include <fmt/format.h>

#include "checks/verdicts.h"
#include "sheet/text_table.h"

namespace spanloom {
namespace {

// A hundredth of a per cent of 100 m is a centimetre, which a crew can measure.
std::string fine_share(double share) { return fmt::format("{:.2f} %", 100.0 * share); }
std::string fine_number(double share) { return fmt::format("{:.2f}", 100.0 * share); }

std::string force_text(double tension, UnitSystem units) { return quantity_text(tension, Measure::force, units); }
std::string small_text(double tension, UnitSystem units) { return quantity_text(tension, Measure::small_force, units); }

std::string which_cycle(const PullTest& test) {
  const CycleFound& cycle = test.cycles[test.chosen];
  const bool none_after = std::none_of(test.cycles.begin() + static_cast<std::ptrdiff_t>(test.chosen) + 1, test.cycles.end(),
                                       [](const CycleFound& c) { return c.full; });
  const char* what = !cycle.full ? ", not a full one" : none_after ? ", the last full one" : "";
  return fmt::format("cycle {} of {}{}", test.chosen + 1, test.cycles.size(), what);
}

// Which length without load the curve counts from: the one thing that a crew can get wrong without noticing.
std::string which_length(const PullTest& test, UnitSystem units) {
  if (test.chosen == 0) {
    return "The curve counts from the length of the webbing without load before its first pull: measure new webbing that has "
           "never been loaded. It is longer after each pull.";
  }
  double greatest = 0.0;
  for (std::size_t k = 0; k < test.chosen; ++k) greatest = std::max(greatest, test.cycles[k].greatest_tension);
  return fmt::format("The curve counts from the length of the webbing without load after {} of up to {}: measure webbing that has "
                     "been pulled so, as it is now. 100 m measured before the first pull are {:.2f} m of it.",
                     test.chosen == 1 ? "one pull" : fmt::format("{} pulls", test.chosen),
                     quantity_text(greatest, Measure::force, units), 100.0 * (1.0 + test.lengthened));
}

std::string spread_words(const PullTest& test, UnitSystem units) {
  if (test.settled.size() < 2) return "not known: fewer than two settled cycles";
  double greatest = 0.0;
  for (const PointFound& p : test.points) {
    if (p.least && p.greatest) greatest = std::max(greatest, *p.greatest - *p.least);
  }
  return fmt::format("{} settled cycles differ by at most {} at the points of the curve", test.settled.size(),
                     small_text(greatest, units));
}

void add_curve(PlainText& text, const PullTest& test, UnitSystem units) {
  constexpr int kIndent = 18;
  text.add_heading("The curve");
  text.add_labelled("of", "the loading of " + which_cycle(test), kIndent);
  text.add_labelled("reaches", fmt::format("{} at {}, with {} points", force_text(test.greatest_tension(), units),
                                           fine_share(test.points.back().at.stretch), test.points.size()), kIndent);
  text.add_labelled("misses readings", fmt::format("by {} rms, {} at most, at {} stretch", small_text(test.residual_rms, units),
                                                   small_text(test.greatest_miss, units), fine_share(test.greatest_miss_at)), kIndent);
  text.add_labelled("from isotonic", fmt::format("{} rms: from the nearest rising values, which follow the noise too",
                                                 small_text(test.from_isotonic_rms, units)), kIndent);
  text.add_labelled("spread", spread_words(test, units), kIndent);
  text.add_labelled("loss", test.loss ? fmt::format("{} of the energy of one load cycle, {}", fine_share(*test.loss),
                                                    test.settled.empty() ? "the first" : "mean of the settled cycles")
                                      : "not known", kIndent);
  text.add_words("Beyond its last point the rig file goes on with the last slope, and the plan says where.");
  text.add_heading("Which length to measure");
  text.add_words(which_length(test, units));
}

void add_points(PlainText& text, const PullTest& test, UnitSystem units) {
  const std::string unit = unit_text(Measure::force, units);
  text.add_heading("Points of the curve");
  TextTable table({"point", "tension " + unit, "stretch %", "settled cycles: least", "greatest"});
  const auto number = [&](const std::optional<double>& tension) { return tension ? number_text(*tension, Measure::force, units) : "-"; };
  for (std::size_t i = 0; i < test.points.size(); ++i) {
    const PointFound& p = test.points[i];
    table.add({fmt::format("{}", i + 1), number(p.at.tension), fine_number(p.at.stretch), number(p.least), number(p.greatest)});
  }
  text.add_table(table);
}

void add_cycles(PlainText& text, const PullTest& test, UnitSystem units) {
  text.add_heading("Cycles");
  TextTable table({"cycle", "to " + unit_text(Measure::force, units), "stretch %", "stays %", "more by", "loss %"});
  const auto number = [](const std::optional<double>& share) { return share ? fine_number(*share) : "-"; };
  for (std::size_t i = 0; i < test.cycles.size(); ++i) {
    const CycleFound& c = test.cycles[i];
    std::vector<std::string> row = {fmt::format("{}", i + 1), number_text(c.greatest_tension, Measure::force, units),
                                    fine_number(c.greatest_stretch), number(c.stretch_after), number(c.growth), number(c.loss)};
    if (!c.full) row.emplace_back("not full");
    table.add(std::move(row));
  }
  text.add_table(table);
  text.add_words("Stretch and what stays of it without load: of the length before the first pull. Full: from under 20 % to over 90 % of "
                 "the greatest tension and back. Settled: full, after the first, adding less than 0.1 %. The tension has turned where it "
                 "came back by 10 % of the greatest.");
}

void add_missing(PlainText& text, const KnownWebbing& webbing) {
  std::vector<std::string> missing;
  if (!webbing.mass_per_length) missing.emplace_back("mass: weigh a known length, or give --mass \"61 g/m\".");
  if (!webbing.strength) missing.emplace_back("strength: what the maker states, or give --strength \"32 kN\".");
  if (!webbing.width) missing.emplace_back("width: --width \"25 mm\"; left out, it is our default of 25 mm.");
  if (!webbing.thickness) missing.emplace_back("thickness: --thickness \"2.4 mm\"; left out, it is our default of 2.5 mm.");
  if (!webbing.wet_keeps) missing.emplace_back("wet_keeps: --wet-keeps \"95 %\"; left out, it is our default of 85 %.");
  text.add_list("Not in a pull test, to be filled in", missing);
}

void add_head(PlainText& text, const std::string& title, const std::string& what, const SheetInfo& info) {
  text.add_words(title);
  text.add_line(std::string(kTextColumns, '='));
  text.add_words(fmt::format("{}, {}, spanloom {}", what, info.date, info.version));
  text.add_words(cautions().front());
}

void add_table(PlainText& text, const std::string& table) {
  text.add_heading("For the rig file");
  for (std::size_t from = 0; from < table.size();) {
    const std::size_t end = std::min(table.find('\n', from), table.size());
    text.add_line(table.substr(from, end - from));
    from = end + 1;
  }
}

}  // namespace

std::vector<std::string> origin_of(const PullTest& test, const SheetInfo& info) {
  std::vector<std::string> lines = {
      fmt::format("Pull test {}, {}:", fit_columns(info.file_name, 50), info.date), fmt::format("loading of {}.", which_cycle(test)),
      fmt::format("Misses the readings by {} rms, {} at most.", small_text(test.residual_rms, UnitSystem::metric),
                  small_text(test.greatest_miss, UnitSystem::metric))};
  if (test.chosen == 0) {
    lines.emplace_back("Stretch counts from the length without load before the first pull.");
  } else {
    lines.push_back(fmt::format("Stretch counts from the length without load after {} pull{}:", test.chosen,
                                test.chosen == 1 ? "" : "s"));
    lines.emplace_back("measure used webbing.");
  }
  return lines;
}

std::vector<std::string> origin_of(const KnownWebbing& webbing, const Fibre& fibre) {
  std::vector<std::string> lines = {
      fmt::format("GENERIC: handbook values of {} yarn, not of any webbing.", fibre.title), "For a first look only.",
      fmt::format("Modulus {:g} N/tex, strength {:g} N/tex: Tension Technology International,", fibre.modulus * 1e-6, fibre.strength * 1e-6),
      fmt::format("\"Synthetic fibre yarn properties\", table 1. Stretch at break {:g} %:", 100.0 * fibre.break_stretch),
      fmt::format("{}.", fibre.break_source),
      "An upper bound: woven webbing is softer than its yarn, and weaker,", "at its ends most of all."};
  if (webbing.strength && *webbing.strength < fibre.strength * webbing.mass_per_length.value_or(0.0)) {
    lines.emplace_back("The strength is stated, the curve is that of the yarn up to its own break.");
  }
  return lines;
}

std::string pull_test_text(const KnownWebbing& webbing, const PullTest& test, const std::string& table, const SheetInfo& info) {
  PlainText text;
  add_head(text, "Webbing " + webbing.name, fmt::format("Pull test: {}", info.file_name), info);
  add_curve(text, test, info.units);
  add_points(text, test, info.units);
  add_cycles(text, test, info.units);
  add_table(text, table);
  add_missing(text, webbing);
  text.add_list("Notes", test.notes);
  text.add_list("Cautions", cautions());
  return text.text();
}

std::string fibre_text(const KnownWebbing& webbing, const Fibre& fibre, const std::string& table, const SheetInfo& info) {
  constexpr int kIndent = 18;
  PlainText text;
  add_head(text, "Webbing " + webbing.name, fmt::format("Generic handbook data: {}", fibre.title), info);
  text.add_words("GENERIC: values of yarn out of a handbook, not of any webbing. No check that rests on them is better than a caution.");
  const double mass = webbing.mass_per_length.value_or(0.0);
  text.add_heading("Straight yarn of this mass");
  text.add_labelled("mass", quantity_text(mass, Measure::line_mass, info.units), kIndent);
  text.add_labelled("first slope", force_text(fibre.modulus * mass, info.units) + " per unit of stretch", kIndent);
  text.add_labelled("breaks at", fmt::format("{} and {:g} % stretch", force_text(fibre.strength * mass, info.units), 100.0 * fibre.break_stretch),
                    kIndent);
  text.add_words("An upper bound of stiffness and strength. Woven webbing is softer, because its yarns run in waves, and weaker, at stitches "
                 "and ends most of all; by how much is not in the sources, so nothing is taken off. A softer webbing sags more and pulls "
                 "less. Between first slope and break the curve is a parabola, ours.");
  add_table(text, table);
  text.add_list("What is better", {"A pull test of your own webbing: docs/webbing.md says how; then `spanloom webbing PULL.csv`."});
  text.add_list("Cautions", cautions());
  return text.text();
}

}  // namespace spanloom
