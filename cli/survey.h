#pragma once

#include "command.h"

namespace spanloom {

Command add_survey_command(CLI::App& app);

}  // namespace spanloom
