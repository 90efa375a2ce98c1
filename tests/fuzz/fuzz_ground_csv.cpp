// Ground CSV: finite rows or located errors.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "files/csv.h"
#include "fuzz_check.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace spanloom;
  Findings findings;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const CsvRows<GroundPoint> table = read_ground_csv(text, "ground.csv", "site.ground", findings);
  fuzz::demand(table.rows.size() == table.places.size(), "every row has a place");
  if (!findings.empty()) fuzz::demand_located(findings.in_reading_order());
  for (const GroundPoint& p : table.rows) {
    fuzz::demand_finite(p.distance, "a distance is finite");
    fuzz::demand_finite(p.height, "a height is finite");
  }
  return 0;
}
