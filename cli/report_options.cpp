#include "report_options.h"

#include <CLI/CLI.hpp>

#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <ctime>
#include <system_error>

#include "base/input_error.h"
#include "base/version.h"
#include "files/pdf.h"

namespace spanloom {
namespace {

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

// Pages that an earlier, longer sheet left in the folder would be taken for part of this one.
void remove_pages_after(const std::filesystem::path& folder, std::size_t pages) {
  std::error_code ignored;
  while (std::filesystem::remove(folder / ("sheet-" + std::to_string(++pages) + ".svg"), ignored)) {
  }
}

}  // namespace

SheetInfo ReportOptions::sheet_info() const {
  return {std::filesystem::path(file).filename().string(), version(), date.empty() ? today() : date, unit_system()};
}

void add_file_and_units(CLI::App& command, ReportOptions& options) {
  command.add_option("RIG.toml", options.file, "The rig file")->required();
  command.add_option("--units", options.units, "Units of report and sheet; JSON and CSV files keep SI")
      ->check(CLI::IsMember({"metric", "us"}))
      ->capture_default_str();
}

void add_report_options(CLI::App& command, ReportOptions& options, const std::string& files) {
  add_file_and_units(command, options);
  command.add_option("-o,--out", options.folder, "Folder for " + files)->type_name("FOLDER");
  command.add_flag("--json", options.json, "Print the result as JSON (SI units) instead of the report");
  command.add_option("--date", options.date, "Day printed on report and sheet, YYYY-MM-DD; today if not given")
      ->type_name("DAY")
      ->check(CLI::Validator(problem_of_date, "", "day"));
}

void add_long_run_options(CLI::App& command, LongRunOptions& options, const std::string& files, const std::string& quick) {
  add_report_options(command, options.report, files);
  command.add_flag("--quick", options.quick, quick);
  add_threads(command, options.threads);
}

void add_threads(CLI::App& command, unsigned& threads) {
  command.add_option("--threads", threads, "How many threads work, all of the machine if not given; the numbers are the same for any")
      ->check(CLI::Range(1u, 256u));
}

PlanOutcome plan_of(const RigFile& file, UnitSystem units) {
  try {
    return make_plan(file.rig, {.units = units});
  } catch (const InputError& error) {
    throw file.locate(error);
  }
}

void print_no_plan(const ReportOptions& options, const PlanOutcome& outcome) {
  print(stderr, options.file + ": no plan: " + outcome.failure->words + "\n");
}

void print_stopped(const ReportOptions& options) {
  print(stderr, options.file + ": stopped before the end; what was printed is not complete" +
                    (options.folder ? ", and no files were written\n" : "\n"));
}

void make_sure_of(const std::filesystem::path& folder) {
  namespace fs = std::filesystem;
  if (folder.empty()) throw WriteError("no folder to write in: its name is empty");
  std::error_code fault;
  std::vector<fs::path> missing;  // innermost first
  for (fs::path at = fs::absolute(folder); !fs::exists(at, fault) && at.has_relative_path(); at = at.parent_path()) {
    missing.push_back(at);
  }
  std::error_code ignored;
  const bool made = fs::create_directories(folder, fault) || fs::is_directory(folder, ignored);
  const bool writable = made && ::access(folder.c_str(), W_OK | X_OK) == 0;
  if (made && !writable) fault = std::error_code(errno, std::generic_category());
  for (const fs::path& path : missing) fs::remove(path, ignored);
  if (!writable) throw WriteError(fmt::format("{}: no folder to write in: {}", folder.string(), fault.message()));
}

std::vector<OutputFile> named_files(const RigSources& sources, const std::string& file_name, const std::string& new_name) {
  std::vector<OutputFile> files;
  for (const RigSources::Side& side : sources.side_files) {
    if (side.name.find('/') == std::string::npos) files.push_back({side.name, side.text});
    else print(stderr, fmt::format("{}: names \"{}\", which lies elsewhere: put it where it is found from {}\n", file_name, side.name, new_name));
  }
  return files;
}

void write_with_sheet(const std::filesystem::path& folder, std::vector<OutputFile> files,
                      const std::vector<std::string>& pages, const std::string& title, const SheetInfo& info) {
  files.push_back({"sheet.pdf", pdf_from_svg(pages, {title, info.date})});
  for (std::size_t i = 0; i < pages.size(); ++i) {
    files.push_back({"sheet-" + std::to_string(i + 1) + ".svg", pages[i]});
  }
  write_files(folder, files);
  remove_pages_after(folder, pages.size());
}

void print(FILE* stream, const std::string& text) { std::fwrite(text.data(), 1, text.size(), stream); }

void print_result(const std::string& text) {
  print(stdout, text);
  if (std::fflush(stdout) != 0) throw WriteError("standard output: the result could not be written");
}

}  // namespace spanloom
