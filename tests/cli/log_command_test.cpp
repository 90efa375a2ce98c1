// `spanloom log` as it is run: what it says, and that no entry it confirmed is ever lost.
#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <map>
#include <nlohmann/json.hpp>
#include <random>
#include <regex>
#include <set>
#include <sstream>

#include <fmt/format.h>

#include "command_run.h"
#include "record/schema.h"
#include "record/store.h"

namespace spanloom {
namespace {

namespace fs = std::filesystem;
using fixture::bytes_of;
using fixture::put_file;
using fixture::Ran;
using nlohmann::json;

constexpr const char* kGauged =
    R"({"format": {"name": "spanloom-gauge", "number": 1}, "tension_N": 2481.5, "tension_sd_N": 12.5,
  "by": [{"method": "pulse", "tension_N": 2480, "sd_N": 15}]})";

class LogCommand : public testing::Test {
 protected:
  Ran log(const std::string& arguments, const std::string& before = "") {
    return fixture::run_spanloom(folder_.path(), "log " + arguments, "SPANLOOM_LOG=crew.sqlite " + before);
  }
  void good(const std::string& arguments) {
    const Ran ran = log(arguments);
    ASSERT_EQ(ran.exit_code, 0) << arguments << '\n' << ran.err;
    EXPECT_NE(ran.out.find("The record is in " + file().string()), std::string::npos) << ran.out;
  }
  void bad(const std::string& arguments, const std::string& words) {
    const Ran ran = log(arguments);
    EXPECT_EQ(ran.exit_code, 2) << arguments << ran.out;
    EXPECT_NE(ran.err.find(words), std::string::npos) << arguments << '\n' << ran.err;
    EXPECT_EQ(ran.out, "") << arguments;
  }
  fs::path file() const { return fs::canonical(folder_.path()) / "crew.sqlite"; }
  Record record() const {
    Database database = open_record(file(), Access::read);
    return read_record(database);
  }
  void three_webbings() {
    for (const char* name : {"reed", "rush", "sedge"})
      good(fmt::format("webbing {0} --kind {0} --strength '28 kN'", name));
  }
  fixture::TemporaryFolder folder_;
};

TEST_F(LogCommand, TakesWhatTheGaugePrints) {
  for (const char* name : {"rig.toml", "readings.toml"}) {
    put_file(folder_.path() / name, bytes_of(std::string(SPANLOOM_SOURCE_DIR "/examples/practice-line/") + name));
  }
  const Ran gauged = fixture::run_spanloom(folder_.path(), "gauge rig.toml readings.toml --json");
  put_file(folder_.path() / "gauge.json", gauged.out);
  good("rig rig.toml --date 2026-05-01");
  good("measured gauge.json --rig 1 --date 2026-05-01");
  const double tension = json::parse(gauged.out).at("tension_N");
  good("export -o out");
  const std::string kept = bytes_of(folder_.path() / "out/record.json");
  EXPECT_NE(kept.find(json(tension).dump()), std::string::npos) << kept;
}

TEST_F(LogCommand, KeepsARigItsUseAndItsMeasurementsAndReportsThem) {
  put_file(folder_.path() / "rig.toml", bytes_of(SPANLOOM_SOURCE_DIR "/examples/practice-line/rig.toml"));
  put_file(folder_.path() / "gauge.json", kGauged);
  three_webbings();
  good("rig rig.toml --main reed --backup rush --place 'Willow bank' --date 2026-05-01");
  good("hung --rig 4 --from 2026-05-01 --to 2026-05-03 --sun '20 h' --wet-days 1 --tension '4 kN'");
  good("measured gauge.json --rig 4 --date 2026-05-01");
  good("measured - --rig 'Practice line, willow bank' --date 2026-05-02 < gauge.json");
  good("event leash-fall --rig 4 --force '5 kN' --date 2026-05-02");
  good("rule --kind reed --falls 1 --days 10 --force-share '50 %'");
  const json shown = json::parse(log("show --json --date 2026-06-01").out);
  EXPECT_EQ(shown["format"]["name"], "spanloom-log");
  EXPECT_EQ(shown["file"], file().string());
  const json& reed = shown["webbings"][0];
  EXPECT_EQ(reed["use"]["days_hung"], 3);
  EXPECT_EQ(reed["use"]["sun_s"], 72000.0);
  EXPECT_EQ(reed["use"]["falls"], 1);
  EXPECT_EQ(reed["use"]["force_max_N"], 5000.0);
  EXPECT_EQ(reed["verdict"], "caution");  // one fall of one
  EXPECT_EQ(shown["webbings"][1]["use"]["falls"], 0) << "a leash fall is not the backup's";
  const json listed = json::parse(log("list --json").out);
  EXPECT_NEAR(listed["rigs"][0]["tension_near_N"].get<double>(), 2500.0, 0.01);  // asked for in the rig file
  EXPECT_EQ(listed["rules"].size(), 3u);
  EXPECT_EQ(std::get<LoggedRig>(record().find(4)->detail).text, bytes_of(folder_.path() / "rig.toml"));
}

TEST_F(LogCommand, ExitsWithOneWhenARuleSaysStopOrAPieceAskedForIsRetired) {
  three_webbings();
  good("rule --all --falls 1");
  EXPECT_EQ(log("show").exit_code, 0);
  good("event leash-fall reed");
  good("event leash-fall reed");
  EXPECT_EQ(log("show").exit_code, 1);
  EXPECT_EQ(log("show rush").exit_code, 0);
  good("retire reed --words 'two falls'");
  EXPECT_EQ(log("show").exit_code, 0) << "what is out of use stops nobody";
  EXPECT_EQ(log("show reed").exit_code, 1);
}

TEST_F(LogCommand, KeepsWhatWasStruckOutInSight) {
  three_webbings();
  good("event leash-fall reed --force '9 kN'");
  good("strike 4 --because 'it was sedge'");
  const Ran shown = log("show reed");
  EXPECT_NE(shown.out.find("STRUCK OUT"), std::string::npos) << shown.out;
  EXPECT_NE(shown.out.find("it was sedge"), std::string::npos);
  EXPECT_EQ(json::parse(log("show reed --json").out)["webbings"][0]["use"]["falls"], 0);
  bad("strike 4 --because again", "it was struck out on");
  bad("strike 1 --because ' '", "--because");
}

TEST_F(LogCommand, SaysWhatIsWrongAndWritesNothing) {
  three_webbings();
  const std::string before = bytes_of(file());
  bad("hung red --days 2 --sun '0 h' --wet-days 0", "did you mean \"reed\"?");
  bad("hung reed --from 2026-02-30 --to 2026-03-01 --sun '4' --wet-days 0", "--from: read \"2026-02-30\"");
  bad("hung reed --from 2026-02-20 --to 2026-03-01 --sun '4' --wet-days 0", "--sun: read \"4\"");
  bad("hung reed --from 2026-02-20 --sun '4 h' --wet-days 0", "two of --from, --to and --days");
  bad("hung --days 2 --sun '4 h' --wet-days 0", "name it, or give --rig");
  bad("hung reed --days 2 --wet-days 0", "--sun is required");
  bad("event other reed", "--words");
  bad("event leash-fall reed --force '-5 kN'", "--force");
  bad("rule --all", "no limit is preset");
  bad("rule --falls 5", "one of PIECE, --kind and --all");
  bad("rule --all --age '3 weeks'", "--age");
  bad("rule --all --force-share '140 %'", "--force-share");
  bad("webbing REED --kind reed", "entry 1 has it");
  bad("measured nosuch.json --rig 1", "RESULT.json");
  EXPECT_EQ(bytes_of(file()), before);
}

TEST_F(LogCommand, BeginsNoRecordByASlip) {
  bad("hung reed --days 2 --sun '0 h' --wet-days 0", "a webbing of the record");
  bad("list", "no record there yet");
  bad("strike 1 --because x", "no record there yet");
  bad("webbing reed --kind reed --file nosuch/crew.sqlite", "make the folder first");
  EXPECT_EQ(folder_.listing(), "");
}

TEST_F(LogCommand, RefusesAFileThatIsNotARecord) {
  put_file(folder_.path() / "crew.sqlite", "a diary");
  bad("webbing reed --kind reed", "not a record of this program");
  EXPECT_EQ(bytes_of(file()), "a diary");
}

TEST_F(LogCommand, RecordsNoRigThatHasNoPlan) {
  put_file(folder_.path() / "rig.toml", "title = \"x\"\n");
  EXPECT_EQ(log("rig rig.toml").exit_code, 2);
  EXPECT_EQ(folder_.listing(), "rig.toml");
}

TEST_F(LogCommand, ExportsEveryEntryWholeOrNothing) {
  three_webbings();
  good("export -o out");
  EXPECT_EQ(folder_.listing(), "crew.sqlite out out/entries.csv out/record.json");
  EXPECT_EQ(json::parse(bytes_of(folder_.path() / "out/record.json"))["entries"].size(), 3u);
  put_file(folder_.path() / "a-file", "");
  bad("export -o a-file", "a-file");
}

// A limit on file size stands for a full disk: the file may not grow by a page.
TEST_F(LogCommand, WritesNoHalfEntryWhereThereIsNoRoom) {
  three_webbings();
  const std::string before = bytes_of(file());
  const std::string words(4000, 'w');
  const Ran ran = log("note reed --words " + words,
                      fmt::format("sh -c 'trap \"\" XFSZ; ulimit -f {}; exec \"$@\"' -", before.size() / 512));
  EXPECT_EQ(ran.exit_code, 2) << ran.out;
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find("nothing was recorded"), std::string::npos) << ran.err;
  EXPECT_EQ(record().entries.size(), 3u);
  EXPECT_EQ(bytes_of(file()), before);
}

TEST_F(LogCommand, KeepsTheEntriesOfTwoThatWriteAtOnce) {
  three_webbings();
  const Ran ran = log(
      "list",
      "true; export SPANLOOM_LOG=crew.sqlite; for k in a b; do (for i in 1 2 3 4 5 6 7 8 9 10; do '" SPANLOOM_COMMAND
      "' log note reed --words $k$i >>said; done) & done; wait;");
  ASSERT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_EQ(ran.err, "");
  std::set<std::string> words;
  for (const Entry& entry : record().entries) words.insert(entry.words);
  for (const char* who : {"a", "b"}) {
    for (int i = 1; i <= 10; ++i) EXPECT_TRUE(words.contains(who + std::to_string(i))) << who << i;
  }
}

/// Starts commands that log a fall of three webbings and kills them at moments drawn from a seed.
class KilledWriter {
 public:
  KilledWriter(const fs::path& folder, std::uint64_t seed) : folder_(folder), draws_(seed) {}

  /// @return how long a command takes when it is let
  std::chrono::microseconds unharmed() {
    const auto start = std::chrono::steady_clock::now();
    int status = 0;
    waitpid(begun(), &status, 0);
    return std::chrono::duration_cast<std::chrono::microseconds>(std::chrono::steady_clock::now() - start);
  }

  /// @return whether the kill was faster than the command
  bool killed_within(std::chrono::microseconds longest) {
    const pid_t child = begun();
    usleep(static_cast<useconds_t>(draws_() % static_cast<std::uint64_t>(longest.count())));
    kill(child, SIGKILL);
    int status = 0;
    waitpid(child, &status, 0);
    return WIFSIGNALED(status);
  }

  fs::path said() const { return folder_ / "said"; }

 private:
  pid_t begun() {
    const std::string words = fmt::format("--words=try-{}", ++tries_), record = (folder_ / "crew.sqlite").string(),
                      out = said().string();
    const pid_t child = fork();
    if (child != 0) return child;
    const int descriptor = open(out.c_str(), O_WRONLY | O_CREAT | O_APPEND, 0644);
    dup2(descriptor, STDOUT_FILENO);
    execl(SPANLOOM_COMMAND, "spanloom", "log", "event", "leash-fall", "reed", "rush", "sedge", "--force=5 kN",
          words.c_str(), "--file", record.c_str(), static_cast<char*>(nullptr));
    _exit(127);
  }

  fs::path folder_;
  std::mt19937_64 draws_;
  int tries_ = 0;
};

TEST_F(LogCommand, LosesNoConfirmedEntryAndKeepsNoHalfOneThroughAHundredKills) {
  three_webbings();
  KilledWriter writer(file().parent_path(), 20260501);
  const auto longest = 3 * writer.unharmed() / 2;
  int killed = 0, tries = 1, hot = 0;
  while (killed < 120 && tries < 5000) {
    killed += writer.killed_within(longest) ? 1 : 0;
    hot += fs::exists(file().string() + "-journal") ? 1 : 0;
    ++tries;
  }
  RecordProperty("kills", killed);
  RecordProperty("journals_left", hot);
  ASSERT_GE(killed, 100);

  Record after = record();  // undoes what the last one left
  Database database = open_record(file(), Access::read);
  Statement check(database, "PRAGMA integrity_check");
  ASSERT_TRUE(check.next());
  EXPECT_EQ(check.text(), "ok");
  Statement links(database, "PRAGMA foreign_key_check");
  EXPECT_FALSE(links.next());

  std::map<EntryNumber, std::string> kept;
  for (const Entry& entry : after.entries) {
    if (!std::holds_alternative<LoggedEvent>(entry.detail)) continue;
    kept[entry.number] = entry.words;
    EXPECT_EQ(entry.webbings.size(), 3u) << entry.words;
    EXPECT_EQ(std::get<LoggedEvent>(entry.detail).force, 5000.0) << entry.words;
  }
  std::string said = bytes_of(writer.said());
  std::replace(said.begin(), said.end(), '\n', ' ');
  const std::regex confirmed(
      "Entry (\\d+) is in the record: leash fall, up to 5\\.00 kN; reed, rush, sedge\\. (try-\\d+)");
  int confirmations = 0;
  for (std::sregex_iterator at(said.begin(), said.end(), confirmed), end; at != end; ++at, ++confirmations) {
    EXPECT_EQ(kept[std::stoll((*at)[1])], (*at)[2]);
  }
  EXPECT_GT(confirmations, 0);
  EXPECT_GE(static_cast<int>(kept.size()), confirmations);
  EXPECT_LE(static_cast<int>(kept.size()), tries);
}

}  // namespace
}  // namespace spanloom
