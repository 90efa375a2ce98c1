// The rig that a call of the page is about.
#pragma once

#include <string>

#include "files/json_values.h"
#include "files/rig_toml.h"

namespace spanloom {

/// Reads the rig from the texts of its files. @param files  RigFiles of api.ts
/// @throws FileError as read_rig()
RigFile asked_rig(const Json& files);

/// Metric or US. @param units  "metric" or "us"
UnitSystem asked_units(const Json& units);

}  // namespace spanloom
