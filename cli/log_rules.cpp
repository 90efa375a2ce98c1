// `spanloom log rule`, `retire`, `note` and `strike`.
#include <CLI/CLI.hpp>

#include <memory>

#include <fmt/format.h>

#include "log_options.h"
#include "record/check_entry.h"
#include "record/record_text.h"
#include "record/schema.h"
#include "record/store.h"
#include "report_options.h"
#include "sheet/text_table.h"

namespace spanloom {
namespace {

constexpr int kMost = 100000;

struct RuleOptions : LogOptions {
  std::vector<std::string> pieces;
  std::optional<std::string> kind, sun, age, force_share, force;
  std::optional<int> days, wet_days, falls;
  bool all = false;
};

std::vector<Rule> rules_of(const RuleOptions& options, Arguments& arguments) {
  std::vector<Rule> rules;
  const auto add = [&](RuleMeasure measure, const auto& limit) {
    if (limit) rules.push_back({measure, static_cast<double>(*limit), options.kind});
  };
  add(RuleMeasure::days_hung, options.days);
  add(RuleMeasure::sun, arguments.positive("--sun", options.sun, {Quantity::duration, "400 h"}));
  add(RuleMeasure::wet_days, options.wet_days);
  add(RuleMeasure::falls, options.falls);
  add(RuleMeasure::age, arguments.months("--age", options.age));
  const auto share = arguments.positive("--force-share", options.force_share, {Quantity::share, "40 %"});
  if (share && *share > 1.0)
    arguments.add("--force-share", '"' + *options.force_share + '"', "at most 100 % of the strength");
  add(RuleMeasure::force_share, share);
  add(RuleMeasure::force, arguments.positive("--force", options.force, kForce));
  return rules;
}

Exit run(const RuleOptions& options) {
  Arguments arguments;
  const Entry blank = blank_entry(options, arguments);
  const std::vector<Rule> rules = rules_of(options, arguments);
  arguments.done();
  if (rules.empty()) {
    arguments.add("rule", "no limit",
                  "one or more of --days, --sun, --wet-days, --falls, --age, --force-share, --force",
                  "no limit is preset: take those of the maker of the webbing and of local rules");
  }
  const int scopes = int(!options.pieces.empty()) + int(options.kind.has_value()) + int(options.all);
  if (scopes != 1)
    arguments.add("rule", scopes == 0 ? "no webbing" : "more than one", "one of PIECE, --kind and --all",
                  "say which webbing the rule is for");
  arguments.done();
  return add_entries(options, [&](const Record& record) {
    std::vector<Entry> entries;
    for (const Rule& rule : rules) {
      Entry& entry = entries.emplace_back(blank);
      entry.detail = rule;
      if (!options.pieces.empty()) entry.webbings = webbings_named(options.pieces, nullptr, record);
    }
    return entries;
  });
}

struct PiecesOptions : LogOptions {
  std::vector<std::string> pieces;
  std::optional<std::string> rig;
};

Exit retire(const PiecesOptions& options) {
  Arguments arguments;
  Entry entry = blank_entry(options, arguments);
  entry.detail = Retired{};
  arguments.done();
  return add_entries(options, [&](const Record& record) {
    Entry whole = entry;
    whole.webbings = webbings_named(options.pieces, nullptr, record);
    return std::vector{whole};
  });
}

Exit note(const PiecesOptions& options) {
  Arguments arguments;
  const Entry entry = blank_entry(options, arguments);
  if (options.words.empty()) arguments.add("--words", "nothing", "what there is to note");
  arguments.done();
  return add_entries(options, [&](const Record& record) {
    Entry whole = entry;
    if (!options.pieces.empty()) whole.webbings = webbings_named(options.pieces, nullptr, record);
    if (options.rig) whole.rig = rig_called(*options.rig, record, "--rig").number;
    return std::vector{whole};
  });
}

struct StrikeOptions : LogOptions {
  EntryNumber entry = 0;
  std::string reason;
};

Exit strike(const StrikeOptions& options) {
  if (options.reason.find_first_not_of(" \t\n") == std::string::npos)
    throw InputError("--because", "nothing", "why the entry is wrong");
  const RecordPath path = record_path(options.file);
  open_record(path.file, Access::read);  // says so where there is none, and begins none
  Database database = open_record(path.file, Access::write);
  Transaction change(database);
  Record record = read_record(database);
  std::vector<Problem> problems = problems_of_strike(options.entry, record);
  if (!problems.empty()) throw InputError(std::move(problems));
  append_strike(database, options.entry, {local_today(), options.reason});
  record = read_record(database);
  change.commit();
  PlainText text;
  text.add_words(fmt::format("Entry {} counts no more: {}", options.entry,
                             entry_words(*record.find(options.entry), record, options.unit_system())));
  print_result(text.text() + place_words(path));
  return Exit::ok;
}

}  // namespace

Command add_log_rule(CLI::App& log) {
  const auto options = std::make_shared<RuleOptions>();
  CLI::App* command = log.add_subcommand("rule",
                                         "Set when webbing is to be retired: limits on what it goes through. None is "
                                         "preset; take those of its maker and of local rules.");
  command->add_option("PIECE", options->pieces, "Webbings of the record that the rule is for");
  command->add_option("--kind", options->kind, "The rule is for all webbing of this kind")->type_name("KIND");
  command->add_flag("--all", options->all, "The rule is for all webbing of the record");
  command->add_option("--days", options->days, "Most days hung")->check(CLI::Range(1, kMost));
  command->add_option("--sun", options->sun, "Most hours of sun: \"400 h\"")->type_name("HOURS");
  command->add_option("--wet-days", options->wet_days, "Most wet days")->check(CLI::Range(1, kMost));
  command->add_option("--falls", options->falls, "Most falls caught")->check(CLI::Range(1, kMost));
  command->add_option("--age", options->age, "Greatest age since new: \"3 years\", \"18 months\"")->type_name("AGE");
  command->add_option("--force-share", options->force_share,
                      "Greatest single force, as a share of the strength when new: \"40 %\"")->type_name("SHARE");
  command->add_option("--force", options->force, "Greatest single force: \"12 kN\"")->type_name("FORCE");
  add_log_options(*command, *options);
  return {command, [options] { return run(*options); }};
}

Command add_log_retire(CLI::App& log) {
  const auto options = std::make_shared<PiecesOptions>();
  CLI::App* command = log.add_subcommand("retire", "Take webbing out of use for good.");
  command->add_option("PIECE", options->pieces, "Webbings of the record")->required();
  add_log_options(*command, *options);
  return {command, [options] { return retire(*options); }};
}

Command add_log_note(CLI::App& log) {
  const auto options = std::make_shared<PiecesOptions>();
  CLI::App* command =
      log.add_subcommand("note", "Note something in words, of webbings, of a rig, or of nothing in particular.");
  command->add_option("PIECE", options->pieces, "Webbings of the record");
  command->add_option("--rig", options->rig, "A rig of the record: number of its entry, or its title")
      ->type_name("RIG");
  add_log_options(*command, *options);
  return {command, [options] { return note(*options); }};
}

Command add_log_strike(CLI::App& log) {
  const auto options = std::make_shared<StrikeOptions>();
  CLI::App* command = log.add_subcommand(
      "strike", "Strike out an entry that is wrong: it stays in the record with the reason, and counts no more.");
  command->add_option("ENTRY", options->entry, "Number of the entry")->required();
  command->add_option("--because", options->reason, "Why it is wrong")->type_name("WORDS")->required();
  add_log_file(*command, *options);
  return {command, [options] { return strike(*options); }};
}

}  // namespace spanloom
