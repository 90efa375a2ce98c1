// Accelerometer CSV: finite rows with rising times or located errors.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "files/accelerometer_csv.h"
#include "fuzz_check.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace spanloom;
  Findings findings;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const CsvRows<Acceleration> table = read_accelerometer_csv(text, "swing.csv", "spectrum[0].record", findings);
  fuzz::demand(table.rows.size() == table.places.size(), "every row has a place");
  for (const Acceleration& row : table.rows) {
    for (const double value : {row.time, row.x, row.y, row.z}) fuzz::demand_finite(value, "a cell is finite");
  }
  if (!findings.empty()) return fuzz::demand_located(findings.in_reading_order()), 0;
  fuzz::demand(table.rows.size() >= kLeastRows, "a record has rows enough");
  for (std::size_t i = 1; i < table.rows.size(); ++i) {
    fuzz::demand(table.rows[i].time > table.rows[i - 1].time, "times rise");
  }
  const SpectrumOutcome outcome = spectrum_of(table.rows, 4.0);
  fuzz::demand(outcome.spectrum.has_value() != !outcome.why.empty(), "a spectrum or why not");
  if (!outcome.spectrum) return 0;
  for (const SpectrumPeak& peak : outcome.spectrum->reading.peaks) {
    fuzz::demand_finite(peak.frequency, "a peak has a frequency");
    fuzz::demand(peak.sd > 0.0 && peak.sd < 1e9, "a peak has a standard deviation");
  }
  return 0;
}
