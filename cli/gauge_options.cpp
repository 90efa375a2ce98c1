#include "gauge_options.h"

#include <CLI/CLI.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>
#include <variant>

#include "files/limits.h"
#include "files/readings_problems.h"
#include "files/units.h"

namespace spanloom {
namespace {

constexpr Wanted kTime{Quantity::duration, "1.12 s"};
constexpr Wanted kPlace{Quantity::length, "1.5 m"};
constexpr Wanted kDrop{Quantity::length, "105 mm"};

/// An option that gives readings: what stands between its commas.
struct Shape {
  const char* option;
  const char* table;     ///< of the readings file, as gauge() names it
  const char* fields;
  const char* example;
  std::size_t least, most;
};
constexpr std::size_t kManyTimes = 100;
constexpr Shape kPulse{"--pulse", "pulse", "AT, ROUND TRIPS, TIME, more TIMES", "1.5 m, 3, 0.52 s", 3, kManyTimes};
constexpr Shape kSag{"--sag", "sag", "AT, WEIGHT, SAG, \"anchors\" or \"standing\"", "31 m, 78 kg, 2.31 m", 3, 4};
constexpr Shape kSwings{"--swings", "frequency", "WAY, SWINGS, TIME, more TIMES", "sideways, 10, 7.3 s", 3, kManyTimes};
constexpr Shape kMarks{"--marks", "marks", "AT, UNLOADED, STANDING", "3 m, 2.000 m, 2.064 m", 3, 3};
constexpr Shape kDrops{"--drop", "drop", "BAY, DROP", "3, 105 mm", 2, 2};

std::string trimmed(const std::string& text) {
  const std::size_t first = text.find_first_not_of(" \t");
  return first == text.npos ? "" : text.substr(first, text.find_last_not_of(" \t") + 1 - first);
}

std::vector<std::string> split(const std::string& text) {
  std::vector<std::string> fields;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t comma = std::min(text.find(',', from), text.size());
    fields.push_back(trimmed(text.substr(from, comma - from)));
    from = comma + 1;
  }
  return fields;
}

std::string head_of(const Shape& shape, const std::string& text) { return fmt::format("{} {}", shape.option, in_quotes(text)); }

/// The fields of one text, read one by one; what is wrong goes to the problems.
class Fields {
 public:
  Fields(const Shape& shape, const std::string& text, std::vector<Problem>& problems)
      : shape_(shape), text_(text), fields_(split(text)), problems_(problems) {
    if (fields_.size() >= shape.least && fields_.size() <= shape.most) return;
    problems_.push_back({shape.option, in_quotes(text), fmt::format("{}, such as \"{}\"", shape.fields, shape.example),
                         "a comma between them, a point in decimals"});
    fields_.resize(shape.least);
    broken_ = true;
  }

  std::size_t size() const { return fields_.size(); }
  const std::string& text(std::size_t i) const { return fields_[i]; }

  double quantity(std::size_t i, const Wanted& wanted) {
    const auto value = parse_quantity(fields_[i], wanted);
    if (const auto* fault = std::get_if<QuantityFault>(&value)) return refuse(i, fault->expected, fault->cure + (fault->cure.empty() ? "" : "; ") + "decimals have a point");
    return std::get<double>(value);
  }
  double whole(std::size_t i, const char* what) {
    const std::optional<double> value = parse_number(fields_[i]);
    if (value && *value >= 1.0 && *value <= double(kMostEntries) && *value == std::floor(*value)) return *value;
    return refuse(i, what, "counted from 1");
  }
  std::vector<double> times(std::size_t from) {
    std::vector<double> times;
    for (std::size_t i = from; i < fields_.size(); ++i) times.push_back(quantity(i, kTime));
    return times;
  }
  double refuse(std::size_t i, const std::string& expected, const std::string& cure) {
    if (!broken_) problems_.push_back({head_of(shape_, text_), in_quotes(fields_[i]), expected, cure});
    return 1.0;
  }

 private:
  const Shape& shape_;
  const std::string& text_;
  std::vector<std::string> fields_;
  std::vector<Problem>& problems_;
  bool broken_ = false;
};

PulseReading pulse_of(Fields fields) {
  PulseReading pulse;
  pulse.at = fields.quantity(0, kPlace);
  pulse.round_trips = fields.whole(1, "a whole number of round trips such as 2");
  pulse.times = fields.times(2);
  pulse.length = Stated<double>::by_default(kUsualBlow);
  pulse.timing_sd = Stated<double>::by_default(kUsualTiming);
  return pulse;
}

SagReading sag_of(Fields fields) {
  SagReading sag;
  sag.at = fields.quantity(0, kPlace);
  sag.mass = fields.quantity(1, kMass);
  sag.sag = fields.quantity(2, kLength);
  sag.sd = Stated<double>::by_default(kUsualSagSd);
  const std::string from = fields.size() > 3 ? fields.text(3) : "anchors";
  if (from == "standing") sag.from = SagFrom::standing;
  else if (from != "anchors") fields.refuse(3, "\"anchors\" or \"standing\"", "what the sag is measured from");
  return sag;
}

FrequencyReading frequency_of(Fields fields) {
  FrequencyReading frequency;
  if (fields.text(0) == "up") frequency.way = SwingWay::up;
  else if (fields.text(0) != "sideways") fields.refuse(0, "\"sideways\" or \"up\"", "which way the line swings");
  frequency.swings = fields.whole(1, "a whole number of swings such as 10");
  frequency.times = fields.times(2);
  frequency.timing_sd = Stated<double>::by_default(kUsualTiming);
  return frequency;
}

MarksReading marks_of(Fields fields) {
  MarksReading marks;
  marks.at = fields.quantity(0, kPlace);
  marks.unloaded = fields.quantity(1, kLength);
  marks.standing = fields.quantity(2, kLength);
  marks.sd = Stated<double>::by_default(kUsualMarksSd);
  return marks;
}

DropReading drop_of(Fields fields) {
  DropReading drop;
  drop.bay = std::size_t(fields.whole(0, "the number of a bay such as 3")) - 1;
  drop.drop = fields.quantity(1, kDrop);
  drop.sd = Stated<double>::by_default(kUsualDropSd);
  return drop;
}

template <class Reading>
void add_all(const Shape& shape, const std::vector<std::string>& texts, Reading (*read)(Fields),
             std::vector<Reading>& readings, std::vector<Problem>& problems) {
  for (const std::string& text : texts) readings.push_back(read(Fields(shape, text, problems)));
}

void add_option(CLI::App& command, const Shape& shape, std::vector<std::string>& texts, const char* words) {
  command.add_option(shape.option, texts, fmt::format("{}: \"{}\"", words, shape.example))->allow_extra_args(false);
}

/// The number in "pulse[3].at". @return empty unless the key is of this table
std::optional<std::size_t> index_in(const std::string& key, const char* table) {
  const std::string start = std::string(table) + '[';
  if (!key.starts_with(start)) return std::nullopt;
  const std::optional<double> index = parse_number(key.substr(start.size(), key.find(']') - start.size()));
  return index ? std::optional(std::size_t(*index)) : std::nullopt;
}

}  // namespace

void add_quick_readings(CLI::App& command, QuickReadings& quick) {
  add_option(command, kPulse, quick.pulses, "A blow on the main: struck where, round trips counted, time of all of them");
  add_option(command, kSag, quick.sags, "A weight hung on the main: where, how heavy, sag there below the anchor line");
  add_option(command, kSwings, quick.swings, "The line swings as a whole: sideways or up, swings counted, their time");
  add_option(command, kMarks, quick.marks, "Two marks on the main: where, apart unloaded, apart now");
  add_option(command, kDrops, quick.drops, "How deep a loop hangs: bay, greatest drop");
}

GivenReadings::GivenReadings(std::optional<ReadingsFile> file, QuickReadings quick)
    : file_(std::move(file)), quick_(std::move(quick)) {
  if (file_) readings_ = file_->readings;
  std::vector<Problem> problems;
  add_all(kPulse, quick_.pulses, pulse_of, readings_.pulses, problems);
  add_all(kSag, quick_.sags, sag_of, readings_.sags, problems);
  add_all(kSwings, quick_.swings, frequency_of, readings_.frequencies, problems);
  add_all(kMarks, quick_.marks, marks_of, readings_.marks, problems);
  add_all(kDrops, quick_.drops, drop_of, readings_.drops, problems);
  if (problems.empty()) {
    for (const Problem& problem : problems_of(readings_)) problems.push_back(of_option(problem).value_or(problem));
  }
  if (!problems.empty()) throw InputError(std::move(problems));
}

std::optional<Problem> GivenReadings::of_option(const Problem& problem) const {
  const Readings none;
  const Readings& of_file = file_ ? file_->readings : none;
  const struct { const Shape& shape; std::size_t in_file; const std::vector<std::string>& texts; } kinds[] = {
      {kPulse, of_file.pulses.size(), quick_.pulses}, {kSag, of_file.sags.size(), quick_.sags},
      {kSwings, of_file.frequencies.size(), quick_.swings}, {kMarks, of_file.marks.size(), quick_.marks},
      {kDrops, of_file.drops.size(), quick_.drops}};
  for (const auto& kind : kinds) {
    const std::optional<std::size_t> index = index_in(problem.key, kind.shape.table);
    if (!index || *index < kind.in_file || *index - kind.in_file >= kind.texts.size()) continue;
    return Problem{head_of(kind.shape, kind.texts[*index - kind.in_file]), problem.read, problem.expected, problem.cure};
  }
  return std::nullopt;
}

std::optional<FileProblem> GivenReadings::of_file(const Problem& problem) const {
  if (!file_) return std::nullopt;
  FileProblem found = file_->locate(problem);
  const std::string table = found.problem.key.substr(0, found.problem.key.find_first_of(".["));
  if (!file_->places.holds(table) && table != "readings") return std::nullopt;
  return found;
}

}  // namespace spanloom
