// One state of a line as JSON: its certificate, its anchors, the walker on it.
#pragma once

#include <string>

#include "files/json_values.h"
#include "statics/plan.h"

namespace spanloom {

Json certificate_json(const Certificate& certificate);

/// The whole load on an anchor, and what main and backup do of it as forces in x, y, z.
/// @param side  "near" or "far"
void put_anchor(Json& out, const std::string& side, const AnchorLoad& load);

/// A place of the walker; what does not exist is null.
Json place_json(const WalkerPlace& place);

}  // namespace spanloom
