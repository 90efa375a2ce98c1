#include "files/atomic_write.h"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <fstream>
#include <iterator>
#include <set>

namespace spanloom {
namespace {

namespace fs = std::filesystem;

class WriteFiles : public testing::Test {
 protected:
  void SetUp() override {
    std::string name = (fs::temp_directory_path() / "spanloom_test_XXXXXX").string();
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder_ = name;
  }
  void TearDown() override { fs::remove_all(folder_); }

  std::string content(const std::string& name) const {
    std::ifstream stream(folder_ / name, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), {}};
  }
  std::set<std::string> names() const {
    std::set<std::string> all;
    for (const auto& entry : fs::directory_iterator(folder_)) all.insert(entry.path().filename());
    return all;
  }

  fs::path folder_;
};

TEST_F(WriteFiles, WritesAllAndLeavesNothingElse) {
  const std::string bytes("a\0b\n", 4);
  write_files(folder_, {{"one.txt", bytes}, {"two.txt", ""}});
  EXPECT_EQ(names(), (std::set<std::string>{"one.txt", "two.txt"}));
  EXPECT_EQ(content("one.txt"), bytes);
}

TEST_F(WriteFiles, ReplacesOldFiles) {
  write_files(folder_, {{"one.txt", "old"}});
  write_files(folder_, {{"one.txt", "new"}});
  EXPECT_EQ(content("one.txt"), "new");
  EXPECT_EQ(names(), std::set<std::string>{"one.txt"});
}

TEST_F(WriteFiles, MakesTheFolder) {
  write_files(folder_ / "out", {{"one.txt", "x"}});
  EXPECT_EQ(content("out/one.txt"), "x");
  EXPECT_THROW(write_files("", {{"one.txt", "x"}}), WriteError);
}

TEST_F(WriteFiles, MakesTheFoldersItLiesIn) {
  write_files(folder_ / "season" / "gorge", {{"one.txt", "1"}});
  EXPECT_EQ(content("season/gorge/one.txt"), "1");
}

TEST_F(WriteFiles, TakesAllFoldersItMadeAwayAgainWhenItFails) {
  EXPECT_THROW(write_files(folder_ / "season" / "gorge", {{std::string(300, 'x'), ""}}), WriteError);
  EXPECT_TRUE(names().empty());
}

TEST_F(WriteFiles, GivesFilesTheUsualRights) {
  const mode_t before = ::umask(022);
  write_files(folder_, {{"one.txt", "x"}});
  ::umask(before);
  struct stat status {};
  ASSERT_EQ(::stat((folder_ / "one.txt").c_str(), &status), 0);
  EXPECT_EQ(status.st_mode & 0777, 0644u);
}

TEST_F(WriteFiles, ChangesNothingWhenOneCannotBeWritten) {
  write_files(folder_, {{"one.txt", "old"}});
  fs::create_directory(folder_ / "two.txt");
  EXPECT_THROW(write_files(folder_, {{"one.txt", "new"}, {"two.txt", "new"}}), WriteError);
  EXPECT_EQ(content("one.txt"), "old");
  EXPECT_EQ(names(), (std::set<std::string>{"one.txt", "two.txt"}));
}

TEST_F(WriteFiles, ChangesNothingWhenANameIsTooLong) {
  write_files(folder_, {{"one.txt", "old"}});
  EXPECT_THROW(write_files(folder_, {{"one.txt", "new"}, {std::string(300, 'x'), "new"}}), WriteError);
  EXPECT_EQ(content("one.txt"), "old");
  EXPECT_EQ(names(), std::set<std::string>{"one.txt"});
}

TEST_F(WriteFiles, TakesTheFolderAwayAgainWhenItFails) {
  EXPECT_THROW(write_files(folder_ / "out", {{std::string(300, 'x'), ""}}), WriteError);
  EXPECT_FALSE(fs::exists(folder_ / "out"));
}

TEST_F(WriteFiles, RefusesNamesThatLeaveTheFolder) {
  for (const char* name : {"../one.txt", "a/b.txt", "/tmp/one.txt", "..", ".", ""}) {
    EXPECT_THROW(write_files(folder_, {{name, "x"}}), WriteError) << name;
  }
  EXPECT_THROW(write_files(folder_, {{"one.txt", "x"}, {"one.txt", "y"}}), WriteError);
  EXPECT_TRUE(names().empty());
}

TEST_F(WriteFiles, SaysWhichFolderItCouldNotMake) {
  std::ofstream(folder_ / "file") << "x";
  try {
    write_files(folder_ / "file", {{"one.txt", "x"}});
    FAIL() << "a file is no folder";
  } catch (const WriteError& error) {
    EXPECT_NE(std::string(error.what()).find("file"), std::string::npos);
  }
}

}  // namespace
}  // namespace spanloom
