// Curve CSV: finite rows, and a curve that is finite everywhere or an error.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "base/input_error.h"
#include "files/csv.h"
#include "fuzz_check.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace spanloom;
  Findings findings;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const CsvRows<CurvePoint> table = read_curve_csv(text, "curve.csv", "curve", findings);
  fuzz::demand(table.rows.size() == table.places.size(), "every row has a place");
  if (!findings.empty()) {
    fuzz::demand_located(findings.in_reading_order());
    return 0;
  }
  for (const CurvePoint& p : table.rows) {
    fuzz::demand_finite(p.tension, "a tension is finite");
    fuzz::demand_finite(p.stretch, "a stretch is finite");
  }
  try {
    const StretchCurve curve = StretchCurve::from_points(table.rows);
    const CurvePoint last = curve.points().back();
    for (const double part : {0.0, 0.3, 1.0, 1.5}) {
      fuzz::demand_finite(curve.tension(part * last.stretch), "the curve is finite");
      fuzz::demand_finite(curve.stiffness(part * last.stretch), "its slope is finite");
      fuzz::demand_finite(curve.energy(part * last.stretch), "its energy is finite");
      fuzz::demand_finite(curve.stretch_at(part * last.tension).stretch, "its inverse is finite");
    }
  } catch (const InputError&) {
    // A curve that does not rise: told, not computed with.
  }
  return 0;
}
