// The page with a rig in it: what changes in it, and what no text of a rig can do to it.
#include "files/page_template.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>
#include <utility>
#include <vector>

#include "base/input_error.h"
#include "rig_texts.h"

namespace spanloom {
namespace {

using nlohmann::json;

const std::string kBefore = "<!doctype html>\n<script type=\"application/json\" id=\"rig\">";
const std::string kAfter = "</script>\n<script>read(document)</script>\n";

PageTemplate page(const std::string& rig = "null") { return {"build/spanloom.html", kBefore + rig + kAfter}; }

RigSources sources(const std::string& text, std::vector<RigSources::Side> sides = {}) {
  // What the file says does not matter here: only its text goes into the page.
  RigFile file = read_rig(test::small_rig(), "rig.toml", [](const std::string&) { return SideFile{std::nullopt, "none"}; });
  return {std::move(file), text, std::move(sides)};
}

/// What stands in the place of the rig, as the browser cuts it out: up to the first tag that ends the element.
std::string cut_out(const std::string& text) {
  return text.substr(kBefore.size(), text.find("</script>", kBefore.size()) - kBefore.size());
}

std::string complaint(const PageTemplate& page, const RigSources& rig) {
  try {
    page_with_rig(page, rig, "rig.toml");
  } catch (const FileError& error) {
    return error.what();
  }
  return "";
}

TEST(PageTemplate, TakesNameTextAndSideFiles) {
  const RigSources rig = sources("title = \"Line\"\r\n", {{"ground.csv", "x,y\n"}, {"a/b.csv", "\"1\"\t2\n"}});
  const json read = json::parse(cut_out(page_with_rig(page(), rig, "my line.toml")));
  EXPECT_EQ(read, json({{"name", "my line.toml"},
                        {"text", "title = \"Line\"\r\n"},
                        {"sides", {{{"name", "ground.csv"}, {"text", "x,y\n"}}, {{"name", "a/b.csv"}, {"text", "\"1\"\t2\n"}}}}}));
}

TEST(PageTemplate, ChangesNothingElse) {
  const std::string out = page_with_rig(page(), sources("t"), "rig.toml");
  EXPECT_TRUE(out.starts_with(kBefore));
  EXPECT_TRUE(out.ends_with(kAfter));
  EXPECT_EQ(out.size(), kBefore.size() + cut_out(out).size() + kAfter.size());
}

// HTML Living Standard, 4.12.1.3 "Restrictions for contents of script elements": "</script", "<!--" and "<script" are what
// may end an element or keep it from ending.
TEST(PageTemplate, LetsNoTextEndOrOpenAnElement) {
  const std::string bad = "# </script><script>alert(1)</script> <!-- <SCRIPT </ScRiPt ]]> & \\u003c/script>";
  const std::string out = page_with_rig(page(), sources(bad, {{"<b>.csv", bad}}), "</script>.toml");
  const std::string inside = out.substr(kBefore.size(), out.size() - kBefore.size() - kAfter.size());
  EXPECT_EQ(inside.find('<'), std::string::npos);
  const json read = json::parse(inside);
  EXPECT_EQ(read.at("text"), bad);
  EXPECT_EQ(read.at("name"), "</script>.toml");
  EXPECT_EQ(read.at("sides").at(0).at("name"), "<b>.csv");
}

TEST(PageTemplate, KeepsLettersOfAllLanguages) {
  const std::string text = "title = \"Höhe über der Klamm, 渓谷, \U0001F3D4\"\n";
  EXPECT_EQ(json::parse(cut_out(page_with_rig(page(), sources(text), "r.toml"))).at("text"), text);
}

TEST(PageTemplate, LetsARigThatWasInItGiveWay) {
  const RigSources rig = sources("new");
  EXPECT_EQ(page_with_rig(page("{\"name\":\"old\"}"), rig, "r.toml"), page_with_rig(page(), rig, "r.toml"));
}

TEST(PageTemplate, RefusesAPageWithoutAPlaceOrWithMoreThanOne) {
  EXPECT_NE(complaint({"x.html", "<p>hello"}, sources("t")).find("x.html:1:1: read no place for a rig"), std::string::npos);
  EXPECT_NE(complaint({"x.html", page().text + page().text}, sources("t")).find("more than one"), std::string::npos);
  EXPECT_NE(complaint({"x.html", kBefore + "null"}, sources("t")).find("does not end"), std::string::npos);
  EXPECT_NE(complaint({"x.html", ""}, sources("t")).find("./try"), std::string::npos);
}

TEST(PageTemplate, NamesTheSideFileThatIsNotUtf8AndWhere) {
  EXPECT_EQ(complaint(page(), sources("t", {{"fine.csv", "# h\n"}, {"ground.csv", "x,y\n# H\xf6he\n"}})),
            "ground.csv:2:4: read a byte that is not UTF-8, expected a text file in UTF-8 (save it as UTF-8)");
}

TEST(PageTemplate, SaysWhichPageIsNotThereAndTheCure) {
  try {
    read_page_template("/nowhere/spanloom.html");
    FAIL() << "read a page that is not there";
  } catch (const InputError& error) {
    EXPECT_NE(std::string(error.what()).find("/nowhere/spanloom.html"), std::string::npos);
    EXPECT_NE(std::string(error.what()).find("./try"), std::string::npos);
  }
  EXPECT_THROW(read_page_template("/tmp"), InputError);
}

}  // namespace
}  // namespace spanloom
