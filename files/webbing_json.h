// The result of `spanloom webbing` as JSON.
#pragma once

#include <string>

#include "webbing/fibres.h"
#include "webbing/known_webbing.h"
#include "webbing/pull_test.h"

namespace spanloom {

/// What a pull test gave. @param file  name of the file of readings
std::string pull_test_json(const KnownWebbing& webbing, const PullTest& test, const std::string& file);

/// Webbing of a fibre by handbook values.
std::string fibre_json(const KnownWebbing& webbing, const Fibre& fibre);

}  // namespace spanloom
