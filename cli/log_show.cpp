// `spanloom log show`, `list` and `export`: what is in the record.
#include <CLI/CLI.hpp>

#include <memory>

#include <fmt/format.h>

#include "log_options.h"
#include "record/check_entry.h"
#include "record/entries_csv.h"
#include "record/record_json.h"
#include "record/record_text.h"
#include "record/schema.h"
#include "record/store.h"
#include "report_options.h"

namespace spanloom {
namespace {

struct ShowOptions : LogOptions {
  std::vector<std::string> pieces;
  std::optional<std::string> folder;
  bool json = false, entries = false;
};

/// The record and where it is.
struct OpenedRecord {
  RecordPath path;
  Record record;
  std::string file() const { return std::filesystem::absolute(path.file).string(); }
};

OpenedRecord opened(const LogOptions& options) {
  const RecordPath path = record_path(options.file);
  Database database = open_record(path.file, Access::read);
  return {path, read_record(database)};
}

std::vector<WebbingReport> reports_on(const std::vector<const Entry*>& webbings, const Record& record, Day as_of) {
  std::vector<WebbingReport> reports;
  for (const Entry* webbing : webbings) reports.push_back(report_on(*webbing, record, as_of));
  return reports;
}

Day day_asked(const LogOptions& options) {
  Arguments arguments;
  const auto day = arguments.day("--date", options.date);
  arguments.done();
  return day.value_or(local_today());
}

Exit show(const ShowOptions& options) {
  const Day as_of = day_asked(options);
  const OpenedRecord in = opened(options);
  std::vector<const Entry*> webbings;
  for (const std::string& name : options.pieces) webbings.push_back(&webbing_called(name, in.record, "PIECE"));
  if (options.pieces.empty()) webbings = in.record.webbings();
  const std::vector<WebbingReport> reports = reports_on(webbings, in.record, as_of);
  if (options.json) {
    print_result(reports_json(reports, in.record, in.file()));
  } else {
    std::string text;
    for (const WebbingReport& report : reports) text += webbing_text(report, in.record, options.unit_system()) + '\n';
    if (reports.empty()) text = "No webbing is in the record yet: `spanloom log webbing` adds one.\n\n";
    print_result(text + place_words(in.path) + cautions_text());
  }
  for (const WebbingReport& report : reports) {
    const bool asked = !options.pieces.empty() || report.retired == nullptr;  // old webbing must not stop new
    if (asked && report.verdict == Verdict::stop) return Exit::stop;
  }
  return Exit::ok;
}

Exit list(const ShowOptions& options) {
  const Day as_of = day_asked(options);
  const OpenedRecord in = opened(options);
  const std::vector<WebbingReport> reports = reports_on(in.record.webbings(), in.record, as_of);
  if (options.json) {
    print_result(list_json(reports, in.record, in.file()));
    return Exit::ok;
  }
  std::string text = place_words(in.path) + list_text(reports, in.record, options.unit_system());
  if (options.entries) text += entries_text(in.record, options.unit_system());
  print_result(text + cautions_text());
  return Exit::ok;
}

Exit export_all(const ShowOptions& options) {
  const OpenedRecord in = opened(options);
  write_files(*options.folder, {{"record.json", export_json(in.record)}, {"entries.csv", entries_csv(in.record)}});
  print_result(fmt::format("{} entries are in record.json and entries.csv in {}\n{}", in.record.entries.size(),
                           *options.folder, place_words(in.path)));
  return Exit::ok;
}

void add_json_and_date(CLI::App& command, ShowOptions& options) {
  command.add_flag("--json", options.json, "Print the result as JSON (SI units) instead of the report");
  command.add_option("--date", options.date, "Day that ages are counted to, YYYY-MM-DD; today if not given")
      ->type_name("DAY");
  add_log_file(command, options);
}

}  // namespace

Command add_log_show(CLI::App& log) {
  const auto options = std::make_shared<ShowOptions>();
  CLI::App* command = log.add_subcommand(
      "show",
      "Report on webbing: its history, sums, what is used up of each rule, a verdict.\n"
      "Exit code 0; 1 a rule says stop, or a piece that was asked for is retired; 2 bad file or argument.");
  command->add_option("PIECE", options->pieces, "Webbings of the record; all if none is named");
  add_json_and_date(*command, *options);
  return {command, [options] { return show(*options); }};
}

Command add_log_list(CLI::App& log) {
  const auto options = std::make_shared<ShowOptions>();
  CLI::App* command = log.add_subcommand("list", "List the webbings, rigs and rules of the record.");
  command->add_flag("--entries", options->entries, "List every entry too, struck ones with the reason");
  add_json_and_date(*command, *options);
  return {command, [options] { return list(*options); }};
}

Command add_log_export(CLI::App& log) {
  const auto options = std::make_shared<ShowOptions>();
  CLI::App* command =
      log.add_subcommand("export", "Write the whole record as record.json, and its entries as entries.csv.");
  command->add_option("-o,--out", options->folder, "Folder for record.json and entries.csv")
      ->type_name("FOLDER")->required();
  add_log_file(*command, *options);
  return {command, [options] { return export_all(*options); }};
}

}  // namespace spanloom
