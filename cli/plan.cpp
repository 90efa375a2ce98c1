#include "plan.h"

#include <CLI/CLI.hpp>

#include <cstdio>
#include <ctime>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <system_error>

#include "base/input_error.h"
#include "base/version.h"
#include "checks/verdicts.h"
#include "files/atomic_write.h"
#include "files/pdf.h"
#include "files/results_json.h"
#include "files/rig_file.h"
#include "files/tapes_csv.h"
#include "sheet/sheet.h"
#include "sheet/text_report.h"
#include "statics/plan.h"

namespace spanloom {
namespace {

struct Options {
  std::string file;
  std::optional<std::string> folder;
  std::string date;
  std::string units = "metric";
  bool json = false;
};

std::string today() {
  const std::time_t now = std::time(nullptr);
  char text[sizeof "YYYY-MM-DD"];
  std::strftime(text, sizeof text, "%Y-%m-%d", std::localtime(&now));
  return text;
}

// A day of the calendar as "YYYY-MM-DD"; CLI11 shows the returned words as the error.
std::string problem_of_date(const std::string& text) {
  const std::string problem = "read \"" + text + "\", expected a day such as 2026-05-01";
  constexpr const char* kShape = "dddd-dd-dd";
  if (text.size() != std::char_traits<char>::length(kShape)) return problem;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool is_digit = text[i] >= '0' && text[i] <= '9';
    if (kShape[i] == 'd' ? !is_digit : text[i] != '-') return problem;
  }
  std::tm day{};
  day.tm_year = std::stoi(text.substr(0, 4)) - 1900;
  day.tm_mon = std::stoi(text.substr(5, 2)) - 1;
  day.tm_mday = std::stoi(text.substr(8, 2));
  const std::tm asked = day;
  day.tm_hour = 12;  // away from the hours that summer time skips
  std::mktime(&day);  // normalises: 31 April comes back as 1 May
  const bool exists = day.tm_mon == asked.tm_mon && day.tm_mday == asked.tm_mday;
  return exists ? std::string() : problem;
}

void print(FILE* stream, const std::string& text) { std::fwrite(text.data(), 1, text.size(), stream); }

PlanOutcome plan_of(const RigFile& file, UnitSystem units) {
  try {
    return make_plan(file.rig, {.units = units});
  } catch (const InputError& error) {
    throw file.locate(error);
  }
}

// Pages that an earlier, longer sheet left in the folder would be taken for part of this one.
void remove_pages_after(const std::filesystem::path& folder, std::size_t pages) {
  std::error_code ignored;
  while (std::filesystem::remove(folder / ("sheet-" + std::to_string(++pages) + ".svg"), ignored)) {
  }
}

void write_results(const std::filesystem::path& folder, const Rig& rig, const Plan& plan,
                   const std::vector<Check>& checks, const SheetInfo& info) {
  const std::vector<std::string> pages = draw_sheet(rig, plan, checks, info);
  std::vector<OutputFile> files = {{"sheet.pdf", pdf_from_svg(pages, {rig.title, info.date})},
                                   {"tapes.csv", tapes_csv(rig, plan)},
                                   {"result.json", plan_json(rig, plan, checks)}};
  for (std::size_t i = 0; i < pages.size(); ++i) {
    files.push_back({"sheet-" + std::to_string(i + 1) + ".svg", pages[i]});
  }
  write_files(folder, files);
  remove_pages_after(folder, pages.size());
}

Exit run(const Options& options) {
  const UnitSystem units = options.units == "us" ? UnitSystem::us : UnitSystem::metric;
  const RigFile file = read_rig_file(options.file);
  const PlanOutcome outcome = plan_of(file, units);
  if (!outcome.plan) {
    print(stderr, options.file + ": no plan: " + outcome.failure->words + "\n");
    return Exit::no_certificate;
  }
  const std::vector<Check> checks = judge(file.rig, *outcome.plan, units);
  const SheetInfo info{std::filesystem::path(options.file).filename().string(), version(),
                       options.date.empty() ? today() : options.date, units};
  if (options.folder) write_results(*options.folder, file.rig, *outcome.plan, checks, info);
  print(stdout, options.json ? plan_json(file.rig, *outcome.plan, checks)
                             : text_report(file.rig, *outcome.plan, checks, info));
  if (std::fflush(stdout) != 0) throw WriteError("standard output: the result could not be written");
  return worst(checks) == Verdict::stop ? Exit::stop : Exit::ok;
}

}  // namespace

Command add_plan_command(CLI::App& app) {
  const auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand(
      "plan", "Plan a rig: lengths to cut, where every tape goes, loads, sag, clearances, checks.\n"
              "Exit code 0; 1 a check says stop; 2 bad file or argument; 3 no plan, with why.");
  command->add_option("RIG.toml", options->file, "The rig file")->required();
  command->add_option("-o,--out", options->folder,
                      "Folder for sheet.pdf, its pages as SVG, tapes.csv and result.json");
  command->add_flag("--json", options->json, "Print the result as JSON (SI units) instead of the report");
  command->add_option("--units", options->units, "Units of report and sheet; files keep SI: metric or us")
      ->check(CLI::IsMember({"metric", "us"}))
      ->capture_default_str();
  command->add_option("--date", options->date, "Day printed on the sheet, YYYY-MM-DD; today if not given")
      ->check(CLI::Validator(problem_of_date, "", "day"));
  return {command, [options] { return run(*options); }};
}

}  // namespace spanloom
