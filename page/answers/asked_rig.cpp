#include "answers/asked_rig.h"

namespace spanloom {

RigFile asked_rig(const Json& files) {
  const auto load = [&](const std::string& name) -> SideFile {
    for (const Json& side : files.at("sides")) {
      if (side.at("name") == name) return {side.at("text").get<std::string>(), ""};
    }
    return {std::nullopt, "the file " + name + " is not here: add it"};
  };
  return read_rig(files.at("text").get<std::string>(), files.at("name").get<std::string>(), load);
}

UnitSystem asked_units(const Json& units) { return units == "us" ? UnitSystem::us : UnitSystem::metric; }

}  // namespace spanloom
