#include "files/rig_toml.h"

#include <optional>
#include <utility>
#include <vector>

#include "files/document.h"
#include "files/rig_sections.h"
#include "files/table_reader.h"
#include "rig/find_problems.h"

namespace spanloom {
namespace {

void read_anchors(TableReader& root, Rig& rig) {
  std::optional<TableReader> anchors = root.table("anchor");
  if (!anchors) return;
  if (auto table = anchors->table("near")) rig.near_anchor = read_anchor(*table, AnchorEnd::near, rig.near_anchor);
  if (auto table = anchors->table("far")) rig.far_anchor = read_anchor(*table, AnchorEnd::far, rig.far_anchor);
  anchors->refuse_unknown_keys();
}

Rig read_tables(TableReader root, const SideFiles& side) {
  Rig rig = rig_with_defaults();
  root.require("title", "a title in quotes");
  for (const char* table : {"site", "webbing", "main", "backup", "spacing", "walker"}) {
    root.require(table, "the table [" + std::string(table) + ']');
  }
  set_if_stated(rig.title, root.text("title"));
  if (auto table = root.table("site")) rig.site = read_site(*table, side);
  if (auto table = root.table("webbing")) rig.webbings = read_webbings(*table, side);
  if (auto table = root.table("main")) rig.main = read_main(*table, rig.webbings, std::move(rig.main));
  if (auto table = root.table("backup")) rig.backup = read_backup(*table, rig.webbings, std::move(rig.backup));
  if (auto table = root.table("spacing")) rig.spacing = read_spacing(*table, std::move(rig.spacing));
  if (auto table = root.table("walker")) rig.walker = read_walker(*table, rig.webbings, rig.walker);
  if (auto table = root.table("wind")) rig.wind = read_wind(*table);
  if (auto table = root.table("shake")) rig.shake = read_shake(*table, rig.shake);
  read_anchors(root, rig);
  if (auto table = root.table("limits")) rig.limits = read_limits(*table, rig.limits);
  if (auto table = root.table("places")) rig.extra_places = read_places(*table);
  root.refuse_unknown_keys();
  return rig;
}

/// A run of one webbing is written without a list of segments.
void name_single_segments(KeyPlaces& places) {
  for (const std::string run : {"main", "backup"}) {
    if (places.holds(run + ".segments")) continue;
    places.set_written_key(run + ".segments[0].webbing", run + ".webbing");
    places.set_written_key(run + ".segments[0].length", run + ".natural_length");
  }
}

/// True if a problem that the engine finds is news after what the reader found. Where something could
/// not be read the rig holds a default or 0 there, and what is wrong with that is nobody's fault.
bool is_news(const FileProblem& found, const KeyPlaces& places, const Findings& findings) {
  const std::string& key = found.problem.key;
  if (findings.empty()) return true;
  if (findings.touches(key)) return false;
  // A key that the file does not hold: what is said of it may follow from what is wrong in its table.
  const std::string table = key.substr(0, key.find_first_of(".["));
  if (found.file == places.file() && !places.holds(key) && findings.touches(table)) return false;
  const bool measured_by_gap = key.starts_with("site.") || key.starts_with("anchor.") || key.starts_with("shake.");
  return !(measured_by_gap && findings.touches("site.gap"));
}

}  // namespace

FileError RigFile::locate(const InputError& error) const {
  std::vector<FileProblem> located;
  for (const Problem& problem : error.problems()) located.push_back(places.locate(problem));
  return FileError(std::move(located));
}

RigFile read_rig(std::string_view text, const std::string& file, const SideFileLoader& load_side_file) {
  RigFile result{{}, KeyPlaces(parse_document(text, file), file)};
  name_single_segments(result.places);

  Findings findings;
  result.rig = read_tables(TableReader(result.places.document(), "", file, findings),
                           {load_side_file, result.places});
  std::vector<FileProblem> news;
  for (Problem& problem : find_problems(result.rig)) {
    FileProblem found = result.places.locate(std::move(problem));
    if (is_news(found, result.places, findings)) news.push_back(std::move(found));
  }
  for (FileProblem& found : news) findings.add(found.file, found.place, std::move(found.problem));
  if (!findings.empty()) throw FileError(findings.in_reading_order());
  return result;
}

}  // namespace spanloom
