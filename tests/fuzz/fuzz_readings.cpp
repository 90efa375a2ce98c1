// Readings files: readings in which all is finite and possible, or errors with their places.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "files/readings_problems.h"
#include "files/readings_toml.h"
#include "fuzz_check.h"

namespace spanloom::fuzz {
namespace {

SideFile no_record(const std::string&) { return {std::nullopt, "no such file"}; }

void demand_finite_times(const std::vector<double>& times, const Stated<double>& sd) {
  demand(!times.empty(), "a reading has a time");
  for (const double time : times) demand_finite(time, "a time is finite");
  demand(sd.value > 0.0, "a timing is uncertain");
}

void demand_finite_readings(const Readings& readings) {
  for (const PulseReading& r : readings.pulses) {
    demand_finite(r.at + r.round_trips + r.length.value, "a pulse is finite");
    demand_finite_times(r.times, r.timing_sd);
  }
  for (const FrequencyReading& r : readings.frequencies) {
    demand(r.bellies >= 1 && r.swings >= 1.0, "swings are counted");
    demand_finite_times(r.times, r.timing_sd);
  }
  for (const SagReading& r : readings.sags) demand_finite(r.at + r.mass + r.sag + r.sd.value, "a sag is finite");
  for (const MarksReading& r : readings.marks) demand_finite(r.at + r.unloaded + r.standing + r.sd.value, "marks are finite");
  for (const DropReading& r : readings.drops) demand(r.drop > 0.0 && r.sd.value > 0.0, "a drop is more than nothing");
  demand(readings.spectra.empty(), "there is no record");
}

}  // namespace
}  // namespace spanloom::fuzz

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace spanloom;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  try {
    const ReadingsFile file = read_readings(text, "readings.toml", fuzz::no_record);
    fuzz::demand(problems_of(file.readings).empty(), "readings that were read are possible");
    fuzz::demand_finite_readings(file.readings);
  } catch (const FileError& error) {
    fuzz::demand_located(error.problems());
  }
  return 0;
}
