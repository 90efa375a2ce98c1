// The tables of a rig file, each read by one function. Used by rig_toml.cpp alone.
#pragma once

#include <string>
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

/// [webbing.NAME] tables, in the order of the file.
std::vector<Webbing> read_webbings(TableReader table, const SideFiles& side);

MainSpec read_main(TableReader table, const std::vector<Webbing>& webbings, MainSpec defaults);
BackupSpec read_backup(TableReader table, const std::vector<Webbing>& webbings, BackupSpec defaults);

Spacing read_spacing(TableReader table, Spacing defaults);
Walker read_walker(TableReader table, Walker defaults);
Wind read_wind(TableReader table);
ShakeSpec read_shake(TableReader table, ShakeSpec defaults);
AnchorSpec read_anchor(TableReader table);
Limits read_limits(TableReader table, Limits defaults);
ExtraPlaces read_places(TableReader table);

}  // namespace spanloom
