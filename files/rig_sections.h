// The tables of a rig file, each read by one function. Used by rig_toml.cpp alone.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "files/key_places.h"
#include "files/rig_toml.h"
#include "files/table_reader.h"
#include "rig/rig.h"

namespace spanloom {

/// What the readers of tables with side files need besides the table.
struct SideFiles {
  const SideFileLoader& load;
  KeyPlaces& places;

  /// Loads the file named under a key and gives its text, or complains there.
  std::optional<std::string> text_of(TableReader& table, std::string_view key) const;
};

Site read_site(TableReader table, const SideFiles& side);

/// A coefficient of friction, as its key expects it.
inline constexpr std::string_view kFriction = "a plain number, such as 0.15";

/// Three lengths under a key: along the gap, left, up [m]; nothing if they are absent or wrong.
std::optional<Vec3> read_three_lengths(TableReader& table, std::string_view key);

/// Index of the webbing named under a key; past the end of the list if there is no such webbing.
std::size_t read_webbing_name(TableReader& table, std::string_view key, const std::vector<Webbing>& webbings);

/// [webbing.NAME] tables, in the order of the file.
std::vector<Webbing> read_webbings(TableReader table, const SideFiles& side);

MainSpec read_main(TableReader table, const std::vector<Webbing>& webbings, MainSpec defaults);
BackupSpec read_backup(TableReader table, const std::vector<Webbing>& webbings, BackupSpec defaults);

Spacing read_spacing(TableReader table, Spacing defaults);
Walker read_walker(TableReader table, const std::vector<Webbing>& webbings, Walker defaults);
Wind read_wind(TableReader table);
ShakeSpec read_shake(TableReader table, ShakeSpec defaults);

/// @param end  which anchor the table is of: legs given by their angle go back from it, away from the gap
AnchorSpec read_anchor(TableReader table, AnchorEnd end, AnchorSpec defaults);

Limits read_limits(TableReader table, Limits defaults);
ExtraPlaces read_places(TableReader table);

}  // namespace spanloom
