// One value of a rig file changed: what is written, where, and what stays.
#include "files/rig_value_edit.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "example_rigs.h"
#include "files/document.h"
#include "files/rig_text_edit.h"
#include "rig_texts.h"

namespace spanloom {
namespace {

using test::Example;
using test::rig_of;
using test::small_rig;
using test::windows;
using test::with;

std::string edited(const std::string& text, const std::string& key, const std::string& value) {
  return with_value_written(text, "rig.toml", key, value);
}

std::string complaint(const std::string& text, const std::string& key, const std::string& value) {
  try {
    edited(text, key, value);
  } catch (const FileError& error) {
    return error.what();
  }
  return "none";
}

bool complains(const std::string& text, const std::string& key, const std::string& value, const std::string& words) {
  const std::string why = complaint(text, key, value);
  if (why.find(words) != why.npos) return true;
  ADD_FAILURE() << why;
  return false;
}

TEST(RigValueEdit, WritesAValueOverTheOldOneAndKeepsItsComment) {
  const std::string text = with(small_rig(), "tension = \"3 kN\"", "  tension  =   \"3 kN\"   # standing");
  EXPECT_EQ(edited(text, "main.tension", "\"4.5 kN\""), with(text, "\"3 kN\"", "\"4.5 kN\""));
  EXPECT_EQ(rig_of(edited(text, "main.tension", " '4.5 kN'\t")).main.tension, 4500.0);
  EXPECT_EQ(edited(text, "title", "\"Other gap\""), with(text, "Test gap", "Other gap"));
}

TEST(RigValueEdit, LetsAKeyTakeTheLineOfOneThatItExcludes) {
  EXPECT_EQ(edited(small_rig(), "main.natural_length", "\"19 m\""),
            with(small_rig(), "tension = \"3 kN\"", "natural_length = \"19 m\""));
  EXPECT_EQ(edited(small_rig(), "backup.drop", "\"12 cm\""), with(small_rig(), "slack = \"2 %\"", "drop = \"12 cm\""));
  const std::string many = with(small_rig(), "slack = \"2 %\"", "length = [\"1 m\", # one\n \"2 m\"] # loops");
  EXPECT_EQ(edited(many, "backup.slack", "\"1 %\""), with(small_rig(), "slack = \"2 %\"", "# one\nslack = \"1 %\" # loops"));
  EXPECT_EQ(edited(small_rig(), "spacing.repeat", "[1, 1.5]"), with(small_rig(), "even = \"2 m\"", "repeat = [1, 1.5]"));
  const std::string curve = edited(small_rig(), "webbing.reed.stretch_csv", "\"reed.csv\"");
  EXPECT_NE(curve.find("stretch_csv = \"reed.csv\""), curve.npos);
  EXPECT_EQ(curve.find("stretch ="), curve.npos);
}

TEST(RigValueEdit, AddsALineAtTheEndOfItsTable) {
  EXPECT_EQ(edited(small_rig(), "spacing.arm_span", "\"1.8 m\""),
            with(small_rig(), "even = \"2 m\"\n", "even = \"2 m\"\narm_span = \"1.8 m\"\n"));
  EXPECT_EQ(edited(small_rig(), "walker.leash", "\"1 m\""), small_rig() + "leash = \"1 m\"\n");
}

TEST(RigValueEdit, AddsItBehindCommentsOfItsTableAndBeforeThoseOfTheNext) {
  const auto around = [](const std::string& more) {
    return with(small_rig(), "even = \"2 m\"\n",
                "  even = \"2 m\" # nine\n  # or ten\n" + more + "\n# who walks\n\n# and how\n");
  };
  EXPECT_EQ(edited(around(""), "spacing.arm_span", "\"1.8 m\""), around("  arm_span = \"1.8 m\"\n"));
  const std::string close = with(small_rig(), "[walker]", "# who walks\n[walker]");
  EXPECT_EQ(edited(close, "spacing.arm_span", "\"1.8 m\""), with(close, "# who", "arm_span = \"1.8 m\"\n# who"));
}

TEST(RigValueEdit, AddsItBehindAValueOfSeveralLines) {
  const std::string text = with(small_rig(), "rise = \"1 m\"\n", "ground = [ # [\n  [\"0 m\", \"-1 m\"], # ]\n  [\"20 m\", \"-1 m\"],\n]\n");
  EXPECT_EQ(edited(text, "site.rise", "\"2 m\""), with(text, "[webbing", "rise = \"2 m\"\n[webbing"));
}

TEST(RigValueEdit, AddsATableAtTheEndOfTheFile) {
  EXPECT_EQ(edited(small_rig(), "wind.speed", "\"5 m/s\""), small_rig() + "\n[wind]\nspeed = \"5 m/s\"\n");
  EXPECT_EQ(edited(small_rig() + "# end", "anchor.near.edge", "\"1 m\""), small_rig() + "# end\n\n[anchor.near]\nedge = \"1 m\"\n");
  const std::string far = "[anchor.far]\nedge = \"1 m\"\n" + with(small_rig(), "title = \"Test gap\"\n", "");
  EXPECT_EQ(edited("title = \"A\"\n" + far, "anchor.near.edge", "\"2 m\""),
            "title = \"A\"\n" + far + "\n[anchor.near]\nedge = \"2 m\"\n");
}

TEST(RigValueEdit, AddsATableThatOnlyItsOwnTablesHaveNamed) {
  const std::string text = "title = \"A\"\n[spacing.close]\ncentre = \"10 m\"\nlength = \"4 m\"\nspacing = 0.5\n" +
                           with(with(small_rig(), "title = \"Test gap\"\n", ""), "[spacing]\neven = \"2 m\"\n", "");
  EXPECT_EQ(edited(text, "spacing.even", "\"2 m\""), text + "\n[spacing]\neven = \"2 m\"\n");
}

TEST(RigValueEdit, AddsToAHeadWithoutEntries) {
  EXPECT_EQ(edited(small_rig() + "[wind] # none yet", "wind.speed", "\"5 m/s\""), small_rig() + "[wind] # none yet\nspeed = \"5 m/s\"");
  const std::string text = with(small_rig(), "[walker]", "  [limits]\n[walker]");
  EXPECT_EQ(edited(text, "limits.ratio", "4"), with(text, "[limits]\n", "[limits]\nratio = 4\n"));
}

TEST(RigValueEdit, AddsATitle) {
  const std::string untitled = with(small_rig(), "title = \"Test gap\"\n", "");
  EXPECT_EQ(edited(untitled, "title", "\"Gap\""), "title = \"Gap\"\n" + untitled);
  EXPECT_EQ(edited("# Ours.\n# Invented.\n\n# Where\n" + untitled, "title", "\"Gap\""),
            "# Ours.\n# Invented.\ntitle = \"Gap\"\n\n# Where\n" + untitled);
}

TEST(RigValueEdit, WritesIntoBraces) {
  const std::string rest = with(small_rig(), "[walker]\nmass = \"70 kg\"\n", "");
  EXPECT_EQ(edited("walker = { mass = \"70 kg\" } # who\n" + rest, "walker.mass", "\"71 kg\""),
            "walker = { mass = \"71 kg\" } # who\n" + rest);
  EXPECT_EQ(edited("walker = { mass = \"70 kg\"} # who\n" + rest, "walker.leash", "\"1 m\""),
            "walker = { mass = \"70 kg\", leash = \"1 m\"} # who\n" + rest);
  EXPECT_EQ(edited("walker = {  }\n" + rest, "walker.mass", "\"71 kg\""), "walker = { mass = \"71 kg\" }\n" + rest);
  EXPECT_EQ(edited("anchor = { far.edge = \"1 m\" }\n" + small_rig(), "anchor.near.edge", "\"2 m\""),
            "anchor = { far.edge = \"1 m\", near.edge = \"2 m\" }\n" + small_rig());
  EXPECT_EQ(edited("anchor = { far.edge = \"1 m\" }\n" + small_rig(), "anchor.far.wall", "\"2 m\""),
            "anchor = { far.edge = \"1 m\", far.wall = \"2 m\" }\n" + small_rig());
  const std::string link = with(small_rig(), "tension =", "near_hardware = { mass = \"1 kg\", length = \"1 m\" }\ntension =");
  EXPECT_EQ(edited(link, "main.near_hardware.strength", "\"30 kN\""), with(link, "\"1 m\" }", "\"1 m\", strength = \"30 kN\" }"));
  EXPECT_EQ(edited(link, "main.near_hardware.length", "\"2 m\""), with(link, "\"1 m\" }", "\"2 m\" }"));
}

TEST(RigValueEdit, WritesBesideDottedKeys) {
  const std::string rest = with(small_rig(), "[walker]\nmass = \"70 kg\"\n", "");
  const std::string text = "walker.mass = \"70 kg\" # who\nshake.swing = \"9 cm\"\n" + rest;
  EXPECT_EQ(edited(text, "walker.leash", "\"1 m\""), with(text, "# who\n", "# who\nwalker.leash = \"1 m\"\n"));
  EXPECT_EQ(edited(text, "walker.mass", "\"71 kg\""), with(text, "70", "71"));
  const std::string close = with(small_rig(), "even", "close.centre = \"9 m\"\nclose.length = \"3 m\"\nclose.spacing = 1\neven");
  EXPECT_EQ(edited(close, "spacing.close.length", "\"4 m\""), with(close, "\"3 m\"", "\"4 m\""));
  const std::string half = with(close, "close.length = \"3 m\"\n", "");
  EXPECT_EQ(edited(half, "spacing.close.length", "\"4 m\""), with(half, "spacing = 1\n", "spacing = 1\nclose.length = \"4 m\"\n"));
}

TEST(RigValueEdit, FindsNamesInQuotes) {
  const std::string text = with(small_rig(), "[webbing.reed]", "[webbing.\"old reed.2\"]\nmass = \"1 g/m\"\nstrength = \"1 kN\"\n"
                                             "stretch = [[\"1 kN\", \"1 %\"]]\n[webbing.reed]");
  EXPECT_EQ(edited(text, "webbing.\"old reed.2\".mass", "\"2 g/m\""), with(text, "\"1 g/m\"", "\"2 g/m\""));
  EXPECT_EQ(edited(text, "webbing . 'old reed.2' . width", "\"2 cm\""), with(text, "[webbing.reed]", "width = \"2 cm\"\n[webbing.reed]"));
}

TEST(RigValueEdit, KeepsLineEndsAndByteOrderMark) {
  for (const Example& file : test::examples()) {
    for (const auto& [key, value] : {std::pair{"main.tension", "\"2.2 kN\""}, {"backup.slack", "\"1.6 %\""}, {"spacing.even", "\"2 m\""},
                                     {"limits.body_force", "\"5 kN\""}, {"wind.speed", "\"1 m/s\""}, {"shake.swing", "\"8 cm\""},
                                     {"anchor.near.leg_stiffness", "\"300 kN\""}, {"title", "\"ü\""}}) {
      EXPECT_EQ(edited(windows(file.text), key, value), windows(edited(file.text, key, value))) << key;
    }
  }
}

TEST(RigValueEdit, RefusesWhatIsNotOneValue) {
  for (const std::string value : {"4.5 kN", "", "  ", "\"4.5 kN", "\"4.5 kN\" # five", "\"4 kN\"\nhand_tight = \"1 N\"", "\"4 kN\" \"5 kN\"",
                                  "1, 2", "{ a = 1 }, 2", "[1, 2", "]", "\xFF"}) {
    EXPECT_TRUE(complains(small_rig(), "main.tension", value, "rig.toml:11:11: main.tension: read \"")) << value;
    EXPECT_TRUE(complains(small_rig(), "main.tension", value, "a value with a unit stands in quotes")) << value;
    EXPECT_TRUE(complains(small_rig(), "wind.speed", value, "rig.toml:1:1: wind.speed: ")) << value;
  }
}

TEST(RigValueEdit, RefusesWhatIsNoKey) {
  for (const std::string key : {"", ".", "main.", "main tension", "main.tension = 1\n", "a = 5 #", "\nmain", "[main]\ntension", "{", "a = [1,"}) {
    EXPECT_TRUE(complains(small_rig(), key, "1", "expected a key, such as main.tension")) << key;
  }
}

TEST(RigValueEdit, SaysWhatIsWrongWithWhatWouldComeOfIt) {
  EXPECT_TRUE(complains(small_rig(), "main.tension", "4.5", "rig.toml:11:11: main.tension: read 4.5, expected a force with its unit"));
  EXPECT_TRUE(complains(small_rig(), "main.tension", "\"4.5 m\"", "rig.toml:11:11: main.tension: read \"4.5 m\""));
  EXPECT_TRUE(complains(small_rig(), "site.gap", "\"-3 m\"", "rig.toml:3:7: site.gap: "));
  EXPECT_TRUE(complains(small_rig(), "walker.leesh", "\"1 m\"", "rig.toml:19:1: walker.leesh: "));
  EXPECT_TRUE(complains(small_rig(), "walker.leesh", "\"1 m\"", "did you mean \"leash\"?"));
  EXPECT_TRUE(complains(small_rig(), "weather.rain", "1", "rig.toml:20:2: weather: "));
  EXPECT_TRUE(complains(small_rig(), "wind.gust", "\"9 m/s\"", "wind.speed: "));
  EXPECT_TRUE(complains(small_rig(), "title.short", "\"A\"", "rig.toml:1:9: title: read \"Test gap\", expected a table"));
  EXPECT_TRUE(complains(with(small_rig(), "tension = ", "segments = [{ webbing = \"reed\" }]\ntension = "), "main.tension", "\"2 kN\"", "main."));
}

TEST(RigValueEdit, RefusesToWriteOverATable) {
  EXPECT_TRUE(complains(small_rig(), "spacing", "3", "spacing: "));
  EXPECT_TRUE(complains(small_rig(), "webbing.reed", "\"x\"", "webbing.reed: "));
  EXPECT_TRUE(complains("title = \n", "main.tension", "\"3 kN\"", "rig.toml:1"));
}

TEST(RigValueEdit, PutsAWrongValueRight) {
  EXPECT_EQ(edited(with(small_rig(), "\"3 kN\"", "\"3 m\""), "main.tension", "\"3 kN\""), small_rig());
  EXPECT_EQ(edited(with(small_rig(), "mass = \"70 kg\"\n", ""), "walker.mass", "\"70 kg\""), small_rig());
}

TEST(RigValueEdit, DoesNotOpenSideFiles) {
  const std::string text = with(small_rig(), "rise = \"1 m\"", "ground = \"nowhere.csv\"");
  EXPECT_EQ(edited(text, "site.gap", "\"21 m\""), with(text, "20 m", "21 m"));
}

// --- Every value of every example ---

struct Leaf {
  std::string key;
  const Value* value;
};

void collect(const Value& table, const std::string& path, std::vector<Leaf>& leaves) {
  for (const Value& child : table.children) {
    const std::string key = path.empty() ? child.key : path + '.' + child.key;
    child.kind == Value::Kind::table ? collect(child, key, leaves) : leaves.push_back({key, &child});
  }
}

std::vector<Leaf> leaves_of(const Value& document) {
  std::vector<Leaf> leaves;
  collect(document, "", leaves);
  return leaves;
}

std::string source_of(const Value& value) {
  if (value.kind == Value::Kind::text) return '"' + value.text + '"';
  std::string source = "[";
  for (const Value& child : value.children) source += (source.size() > 1 ? ", " : "") + source_of(child);
  if (value.kind == Value::Kind::list) return source + ']';
  if (value.kind != Value::Kind::table) return value.text;
  source = "{";
  for (const Value& child : value.children) source += (source.size() > 1 ? ", " : " ") + child.key + " = " + source_of(child);
  return source + " }";
}

TEST(RigValueEdit, LeavesTheTextAsItIsWhereTheValueIsTheSame) {
  for (const Example& file : test::examples()) {
    const Value document = parse_document(file.text, "rig.toml");
    int plain = 0;
    for (const Leaf& leaf : leaves_of(document)) {
      const std::string after = edited(file.text, leaf.key, source_of(*leaf.value));
      EXPECT_TRUE(reads_the_same(parse_document(after, "rig.toml"), document)) << leaf.key;
      if (leaf.value->kind == Value::Kind::list) continue;
      EXPECT_EQ(after, file.text) << leaf.key;
      ++plain;
    }
    EXPECT_GE(plain, 10);
  }
}

// Taken out and written again, or written into the file that has lost it: the rig is the same, the rest of the text too.
TEST(RigValueEdit, WritesEveryValueIntoAFileThatHasLostIt) {
  int done = 0;
  for (const Example& file : test::examples()) {
    const Value document = parse_document(file.text, "rig.toml");
    std::vector<std::size_t> lines{0};
    for (std::size_t at = 0; (at = file.text.find('\n', at)) != file.text.npos;) lines.push_back(++at);
    for (const Leaf& leaf : leaves_of(document)) {
      const std::size_t at = lines[std::size_t(leaf.value->key_place.line) - 1], end = lines[std::size_t(leaf.value->key_place.line)];
      const std::string line = file.text.substr(at, end - at);
      if (leaf.value->key_place.column != 1 || leaf.value->kind == Value::Kind::list) continue;
      const std::string lost = file.text.substr(0, at) + file.text.substr(end);
      const std::string after = edited(lost, leaf.key, source_of(*leaf.value));
      EXPECT_TRUE(reads_the_same(parse_document(after, "rig.toml"), document)) << leaf.key;
      const std::string added = leaf.value->key + " = " + source_of(*leaf.value) + '\n';
      bool only_added = false;  // other tables may hold the same line
      for (std::size_t where = after.find(added); where != after.npos; where = after.find(added, where + 1)) {
        only_added = only_added || after.substr(0, where) + after.substr(where + added.size()) == lost;
      }
      EXPECT_TRUE(only_added) << leaf.key;
      ++done;
    }
  }
  EXPECT_GT(done, 80);
}

// Lines left out, doubled or cut short: a text comes back that reads, with the value, or an error with its place.
TEST(RigValueEdit, RefusesOrEditsMutilatedFiles) {
  int read = 0, refused = 0;
  for (const Example& file : test::examples()) {
    const std::string& text = file.text;
    for (std::size_t at = 0, next = 0; at < text.size(); at = next) {
      next = std::min(text.find('\n', at), text.size() - 1) + 1;
      const std::string line = text.substr(at, next - at), without = text.substr(0, at) + text.substr(next);
      for (const std::string& broken : {without, without + line, text.substr(0, (at + next) / 2), text + line}) {
        for (const auto& [key, value] : {std::pair{"main.tension", "\"2 kN\""}, {"wind.gust_time", "\"5 s\""}, {"limits.ratio", "3.5"}}) {
          try {
            const std::string once = edited(broken, key, value);
            EXPECT_EQ(edited(once, key, value), once);
            EXPECT_GE(once.size() + 20, broken.size());
            ++read;
          } catch (const FileError& error) {
            EXPECT_TRUE(std::string(error.what()).starts_with("rig.toml:")) << error.what();
            ++refused;
          }
        }
      }
    }
  }
  EXPECT_GT(read, 300);
  EXPECT_GT(refused, 300);
}

}  // namespace
}  // namespace spanloom
