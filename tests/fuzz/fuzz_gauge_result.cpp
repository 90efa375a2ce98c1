// A gauge result is read or refused with FileError; what is read are tensions above nothing.
#include <cstddef>
#include <cstdint>
#include <string>

#include "fuzz_check.h"
#include "record/gauge_result.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace spanloom;
  try {
    const Measured read = read_gauge_result(std::string(reinterpret_cast<const char*>(data), size), "gauge.json");
    fuzz::demand(read.tension > 0.0 && read.tension_sd >= 0.0, "a tension and its sd");
    fuzz::demand_finite(read.tension + read.tension_sd, "a tension is finite");
    for (const GaugedBy& by : read.by)
      fuzz::demand(by.tension > 0.0 && by.sd >= 0.0, "a tension of a method and its sd");
  } catch (const FileError& error) {
    fuzz::demand_located(error.problems());
  }
  return 0;
}
