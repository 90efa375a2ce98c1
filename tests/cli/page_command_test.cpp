// `spanloom page` as it is run: what it writes, where it finds the page, how it refuses.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "command_run.h"

namespace spanloom {
namespace {

using fixture::bytes_of;
using fixture::put_file;
using fixture::Ran;
using fixture::run_spanloom;
namespace fs = std::filesystem;

const std::string kBefore = "<title>Spanloom</title><script type=\"application/json\" id=\"rig\">";
const std::string kAfter = "</script><p>the rest</p>\n";

class PageCommand : public fixture::OnThePracticeLine {
 protected:
  PageCommand() : OnThePracticeLine("page") { put_file(folder_.path() / "form.html", kBefore + "null" + kAfter); }

  nlohmann::json rig_in(const std::string& name) {
    const std::string text = file(name);
    EXPECT_TRUE(text.starts_with(kBefore) && text.ends_with(kAfter)) << text.substr(0, 200);
    return nlohmann::json::parse(text.substr(kBefore.size(), text.size() - kBefore.size() - kAfter.size()));
  }
};

TEST_F(PageCommand, PutsTheRigIntoThePageAndPrintsWhereItIs) {
  const Ran ran = run("--template form.html -o out/my-line.html");
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_EQ(ran.out, "out/my-line.html\n");
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(rig_in("out/my-line.html"), nlohmann::json({{"name", "rig.toml"}, {"text", practice_}, {"sides", nlohmann::json::array()}}));
}

TEST_F(PageCommand, TakesTheFilesThatTheRigNames) {
  const Ran ran = run_spanloom(SPANLOOM_SOURCE_DIR "/examples/heron-gorge", "page rig.toml --template '" +
                               (folder_.path() / "form.html").string() + "' -o '" + (folder_.path() / "heron.html").string() + "'");
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  const nlohmann::json rig = rig_in("heron.html");
  ASSERT_EQ(rig.at("sides").size(), 2u);
  for (const auto& side : rig.at("sides")) {
    EXPECT_EQ(side.at("text"), bytes_of(std::string(SPANLOOM_SOURCE_DIR "/examples/heron-gorge/") + side.at("name").get<std::string>()));
  }
}

// A copy of the command, since what lies beside the one that was built is up to the build.
TEST_F(PageCommand, FindsThePageBesideItselfWhereverItIsRunFrom) {
  const fs::path place = folder_.path() / "bin";
  fs::create_directories(place);
  fs::copy_file(SPANLOOM_COMMAND, place / "spanloom");
  fs::create_symlink(place / "spanloom", folder_.path() / "link");
  const std::string ask = "cd '" + folder_.path().string() + "' && ./link page rig.toml -o out.html >told 2>&1";
  EXPECT_NE(std::system(ask.c_str()), 0);
  EXPECT_NE(file("told").find((place / "spanloom.html").string()), std::string::npos) << file("told");
  EXPECT_NE(file("told").find("./try"), std::string::npos) << file("told");
  EXPECT_FALSE(fs::exists(folder_.path() / "out.html"));
  put_file(place / "spanloom.html", kBefore + "null" + kAfter);
  EXPECT_EQ(std::system(ask.c_str()), 0) << file("told");
  EXPECT_EQ(rig_in("out.html").at("text"), practice_);
}

TEST_F(PageCommand, RefusesARigWithFaultsAsEveryCommandAndWritesNothing) {
  change("tension = \"2.5 kN\"", "tension = \"2.5\"");
  const Ran ran = run("--template form.html -o out.html");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_NE(ran.err.find("rig.toml:"), std::string::npos) << ran.err;
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(folder_.listing(), "form.html rig.toml");
}

TEST_F(PageCommand, RefusesAPageThatHasNoPlaceForARig) {
  put_file(folder_.path() / "other.html", "<p>hello</p>");
  const Ran ran = run("--template other.html -o out.html");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_EQ(ran.err.rfind("other.html:1:1: read no place for a rig", 0), 0u) << ran.err;
  EXPECT_EQ(folder_.listing(), "form.html other.html rig.toml");
}

TEST_F(PageCommand, RefusesASideFileThatIsNotUtf8ByItsName) {
  change("ground = [", "ground = \"ground.csv\"\nrest = [");
  std::string text = file("rig.toml");
  const std::size_t rest = text.find("rest = ["), end = text.find("\n]\n", rest);
  put_file(folder_.path() / "rig.toml", text.erase(rest, end + 3 - rest));
  put_file(folder_.path() / "ground.csv", "# H\xf6he\ndistance [m],height [m]\n0,-2\n16,-2\n");
  const Ran ran = run("--template form.html -o out.html");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_EQ(ran.err.rfind("ground.csv:1:4: read a byte that is not UTF-8", 0), 0u) << ran.err;
  EXPECT_EQ(folder_.listing(), "form.html ground.csv rig.toml");
}

TEST_F(PageCommand, RefusesToWriteOverWhatItReads) {
  for (const char* over : {"rig.toml", "./rig.toml", "form.html"}) {
    const std::string before = file(over);
    const Ran ran = run(std::string("--template form.html -o ") + over);
    EXPECT_EQ(ran.exit_code, 2) << over;
    EXPECT_NE(ran.err.find("written over"), std::string::npos) << ran.err;
    EXPECT_EQ(file(over), before);
  }
}

TEST_F(PageCommand, ExitsWithTwoForBadArguments) {
  for (const char* arguments : {"--template form.html", "--template form.html -o ''", "--template form.html -o .",
                                "--template form.html -o rig.toml/out.html", "--template none.html -o out.html", "--units us"}) {
    const Ran ran = run(arguments);
    EXPECT_EQ(ran.exit_code, 2) << arguments;
    EXPECT_NE(ran.err, "") << arguments;
    EXPECT_EQ(ran.out, "") << arguments;
  }
  EXPECT_EQ(folder_.listing(), "form.html rig.toml");
}

}  // namespace
}  // namespace spanloom
