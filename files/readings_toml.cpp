#include "files/readings_toml.h"

#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include "files/accelerometer_csv.h"
#include "files/document.h"
#include "files/limits.h"
#include "files/readings_problems.h"
#include "files/rig_file.h"
#include "files/table_reader.h"
#include "gauge/spectrum.h"

namespace spanloom {
namespace {

constexpr Wanted kTiming{Quantity::duration, "1.12 s"};
constexpr Wanted kBlow{Quantity::duration, "40 ms"};
constexpr Wanted kPlace{Quantity::length, "1.5 m"};
constexpr Wanted kSag{Quantity::length, "2.31 m"};
constexpr Wanted kApart{Quantity::length, "2.064 m"};
constexpr Wanted kDrop{Quantity::length, "105 mm"};
constexpr Wanted kUncertainty{Quantity::length, "10 mm"};
constexpr Wanted kFewPercent{Quantity::share, "3 %"};

/// A quantity that must be there; 0, which a finding covers, where it is not.
double needed(TableReader& table, std::string_view key, const Wanted& wanted) {
  table.require(key, expectation(wanted));
  return table.quantity(key, wanted).value_or(0.0);
}

std::vector<double> needed_times(TableReader& table) {
  table.require("times", "a list of times with their units, such as [\"1.12 s\", \"1.09 s\"]");
  return table.quantities("times", kTiming).value_or(std::vector<double>{});
}

/// A whole number from 1 on; `otherwise` where it is absent or wrong.
int whole(TableReader& table, std::string_view key, std::string_view what, int otherwise) {
  const std::optional<double> read = table.number(key, what);
  if (!read) return otherwise;
  if (*read >= 1.0 && *read <= double(kMostEntries) && *read == std::floor(*read)) return int(*read);
  table.complain(key, std::string(what), "counted from 1");
  return otherwise;
}

PulseReading read_pulse(TableReader& table) {
  PulseReading pulse;
  pulse.length = Stated<double>::by_default(kUsualBlow);
  pulse.timing_sd = Stated<double>::by_default(kUsualTiming);
  pulse.at = needed(table, "at", kPlace);
  table.require("round_trips", "a whole number such as 2");
  pulse.round_trips = whole(table, "round_trips", "a whole number such as 2", 1);
  pulse.times = needed_times(table);
  set_if_stated(pulse.length, table.quantity("length", kBlow));
  set_if_stated(pulse.timing_sd, table.quantity("timing", kTiming));
  return pulse;
}

SagReading read_sag(TableReader& table) {
  SagReading sag;
  sag.sd = Stated<double>::by_default(kUsualSagSd);
  sag.at = needed(table, "at", kPlace);
  sag.mass = needed(table, "weight", kMass);
  sag.sag = needed(table, "sag", kSag);
  set_if_stated(sag.from, table.choice<SagFrom>("from", {{"anchors", SagFrom::anchors}, {"standing", SagFrom::standing}}));
  set_if_stated(sag.sd, table.quantity("uncertainty", kUncertainty));
  return sag;
}

FrequencyReading read_frequency(TableReader& table) {
  FrequencyReading frequency;
  frequency.timing_sd = Stated<double>::by_default(kUsualTiming);
  table.require("way", "\"sideways\" or \"up\"");
  table.require("swings", "a number such as 10");
  set_if_stated(frequency.way, table.choice<SwingWay>("way", {{"sideways", SwingWay::sideways}, {"up", SwingWay::up}}));
  frequency.bellies = whole(table, "bellies", "a whole number such as 1", 1);
  set_if_stated(frequency.swings, table.number("swings", "a number such as 10"));
  frequency.times = needed_times(table);
  set_if_stated(frequency.timing_sd, table.quantity("timing", kTiming));
  return frequency;
}

MarksReading read_marks(TableReader& table) {
  MarksReading marks;
  marks.sd = Stated<double>::by_default(kUsualMarksSd);
  marks.at = needed(table, "at", kPlace);
  marks.unloaded = needed(table, "unloaded", kApart);
  marks.standing = needed(table, "standing", kApart);
  set_if_stated(marks.sd, table.quantity("uncertainty", kUncertainty));
  return marks;
}

DropReading read_drop(TableReader& table) {
  DropReading drop;
  drop.sd = Stated<double>::by_default(kUsualDropSd);
  table.require("bay", "the number of a bay such as 3");
  drop.bay = std::size_t(whole(table, "bay", "the number of a bay such as 3", 1) - 1);
  drop.drop = needed(table, "drop", kDrop);
  set_if_stated(drop.sd, table.quantity("uncertainty", kUncertainty));
  return drop;
}

GaugePrior read_prior(TableReader table) {
  GaugePrior prior = usual_prior();
  set_if_stated(prior.mass_sd, table.quantity("mass", kFewPercent));
  set_if_stated(prior.stretch_sd, table.quantity("stretch", kFewPercent));
  set_if_stated(prior.gap_sd, table.quantity("gap", kUncertainty));
  set_if_stated(prior.loop_sd, table.quantity("loop", kUncertainty));
  set_if_stated(prior.all_loops_sd, table.quantity("all_loops", kFewPercent));
  table.refuse_unknown_keys();
  return prior;
}

/// Which axis of the device points up, for a record without gravity.
std::optional<Vec3> read_up(TableReader& table) {
  return table.choice<Vec3>("up", {{"x", {1.0, 0.0, 0.0}}, {"-x", {-1.0, 0.0, 0.0}}, {"y", {0.0, 1.0, 0.0}},
                                   {"-y", {0.0, -1.0, 0.0}}, {"z", {0.0, 0.0, 1.0}}, {"-z", {0.0, 0.0, -1.0}}});
}

/// The rows of the record that a table names; none, which a finding covers, where there are none.
std::vector<Acceleration> read_record(TableReader& table, const SideFileLoader& load) {
  table.require("file", "the name of a CSV file in quotes");
  const std::optional<std::string> name = table.text("file");
  if (!name) return {};
  const SideFile side = load(*name);
  if (side.text) return read_accelerometer_csv(*side.text, *name, table.path_of("file"), table.findings()).rows;
  table.complain("file", "a CSV file beside the readings file", side.why_not);
  return {};
}

/// One record as what its spectrum shows.
SpectrumReading read_accelerometer(TableReader& table, const SideFileLoader& load, std::vector<std::string>& notes) {
  const double at = needed(table, "at", kPlace);
  const std::vector<Acceleration> record = read_record(table, load);
  const std::optional<Vec3> up = read_up(table);
  table.refuse_unknown_keys();
  if (record.empty() || table.findings().touches(table.path_of("file"))) return {};
  const SpectrumOutcome outcome = spectrum_of(record, at, {.device_up = up});
  if (!outcome.spectrum) {
    table.complain("file", "a record that shows how the line swings", outcome.why);
    return {};
  }
  for (const std::string& note : outcome.spectrum->notes) notes.push_back(table.value().find("file")->text + ": " + note);
  return outcome.spectrum->reading;
}

/// All tables of one kind, each key of each known.
template <class Reading>
std::vector<Reading> read_all(TableReader& root, const char* key, Reading (*read)(TableReader&)) {
  std::vector<Reading> all;
  for (TableReader& table : root.tables(key)) {
    all.push_back(read(table));
    table.refuse_unknown_keys();
  }
  return all;
}

Readings read_tables(TableReader root, const SideFileLoader& load, std::vector<std::string>& notes) {
  Readings readings;
  set_if_stated(readings.title, root.text("title"));
  readings.pulses = read_all<PulseReading>(root, "pulse", read_pulse);
  readings.sags = read_all<SagReading>(root, "sag", read_sag);
  readings.frequencies = read_all<FrequencyReading>(root, "frequency", read_frequency);
  readings.marks = read_all<MarksReading>(root, "marks", read_marks);
  readings.drops = read_all<DropReading>(root, "drop", read_drop);
  for (TableReader& table : root.tables("accelerometer")) {
    readings.spectra.push_back(read_accelerometer(table, load, notes));
  }
  if (auto table = root.table("prior")) readings.prior = read_prior(std::move(*table));
  root.refuse_unknown_keys();
  return readings;
}

}  // namespace

ReadingsFile read_readings(std::string_view text, const std::string& file, const SideFileLoader& load_side_file) {
  ReadingsFile result{{}, KeyPlaces(parse_document(text, file), file), {}};
  Findings findings;
  result.readings = read_tables(TableReader(result.places.document(), "", file, findings), load_side_file, result.notes);
  for (const Problem& problem : problems_of(result.readings)) {
    FileProblem found = result.locate(problem);
    if (!findings.touches(found.problem.key)) findings.add(found.file, found.place, std::move(found.problem));
  }
  if (!findings.empty()) throw FileError(findings.in_reading_order());
  return result;
}

ReadingsFile read_readings_file(const std::filesystem::path& path) {
  const SideFile file = load_file(path);
  if (!file.text) throw FileError({{path.string(), {}, {"", "nothing", "a readings file", file.why_not}}});
  const auto load = [&](const std::string& name) { return load_file(path.parent_path() / name, kAccelerometerLimits.bytes); };
  return read_readings(*file.text, path.string(), load);
}

}  // namespace spanloom
