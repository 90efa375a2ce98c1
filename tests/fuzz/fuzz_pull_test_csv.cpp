// Readings of a pull test: a finite result, typed problems, or located errors.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "files/pull_test_csv.h"
#include "files/webbing_toml.h"
#include "fuzz_check.h"
#include "webbing/pull_test.h"

namespace {

using namespace spanloom;

void demand_sound(const PullTest& test) {
  fuzz::demand(!test.points.empty() && test.points.size() <= 12, "one to twelve points");
  fuzz::demand(test.chosen < test.cycles.size(), "the curve is of a cycle");
  for (const double value : {test.residual_rms, test.greatest_miss, test.from_isotonic_rms, test.lengthened, test.loss.value_or(0.0)}) {
    fuzz::demand_finite(value, "a result is finite");
  }
  for (const PointFound& p : test.points) {
    fuzz::demand_finite(p.least.value_or(0.0), "a spread is finite");
    fuzz::demand_finite(test.curve.tension(p.at.stretch), "a curve is finite");
  }
  KnownWebbing webbing;
  webbing.name = "fuzzed";
  webbing.curve = test.curve;
  webbing_table(webbing, {});  // throws if it does not read back
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  try {
    const PullTestFile file = read_pull_test_csv(text, "pull.csv", size % 2 == 0 ? std::optional<double>(1.5) : std::nullopt);
    fuzz::demand(file.samples.size() == file.places.size(), "every row has a place");
    try {
      demand_sound(analyse_pull_test(file.samples));
    } catch (const InputError& error) {
      fuzz::demand_located(file.locate(error).problems());
    }
  } catch (const FileError& error) {
    fuzz::demand_located(error.problems());
  }
  return 0;
}
