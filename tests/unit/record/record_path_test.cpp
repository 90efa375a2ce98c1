// Where the record is. Source: XDG Base Directory Specification 0.8, sections 2 and 3.
#include <gtest/gtest.h>

#include <cstdlib>

#include "base/input_error.h"
#include "record/record_path.h"
#include "support/webbing_record.h"

namespace spanloom {
namespace {

class RecordPlace : public testing::Test {
 protected:
  RecordPlace() {
    unsetenv("SPANLOOM_LOG");
    setenv("XDG_DATA_HOME", "/data", 1);
    setenv("HOME", "/home/crew", 1);
  }
  std::string place(const std::optional<std::string>& asked = std::nullopt) { return record_path(asked).file.string(); }
};

TEST_F(RecordPlace, IsTheFileAskedForThenTheVariableThenTheDataFolder) {
  EXPECT_EQ(place(), "/data/spanloom/spanloom-log.sqlite");
  setenv("SPANLOOM_LOG", "/stick/crew.sqlite", 1);
  EXPECT_EQ(place(), "/stick/crew.sqlite");
  EXPECT_EQ(place("here.sqlite"), "here.sqlite");
  unsetenv("SPANLOOM_LOG");
}

TEST_F(RecordPlace, IsUnderHomeWhereTheDataFolderIsUnsetEmptyOrRelative) {
  for (const char* folder : {"", "data", "./data"}) {
    setenv("XDG_DATA_HOME", folder, 1);
    EXPECT_EQ(place(), "/home/crew/.local/share/spanloom/spanloom-log.sqlite") << folder;
  }
  unsetenv("XDG_DATA_HOME");
  EXPECT_EQ(place(), "/home/crew/.local/share/spanloom/spanloom-log.sqlite");
}

TEST_F(RecordPlace, IsAskedForWhereNothingNamesIt) {
  unsetenv("XDG_DATA_HOME");
  unsetenv("HOME");
  EXPECT_THROW(place(), InputError);
  EXPECT_THROW(place(""), InputError);
}

TEST_F(RecordPlace, IsMadeForItsOwnerAloneButNotWhereAUserNamedIt) {
  const fixture::RecordFolder folder;
  setenv("XDG_DATA_HOME", folder.path.c_str(), 1);
  const RecordPath usual = record_path(std::nullopt);
  make_folder_for(usual);
  EXPECT_EQ(std::filesystem::status(usual.file.parent_path()).permissions(), std::filesystem::perms::owner_all);
  EXPECT_THROW(make_folder_for(record_path((folder.path / "slip" / "a.sqlite").string())), InputError);
  EXPECT_FALSE(std::filesystem::exists(folder.path / "slip"));
}

}  // namespace
}  // namespace spanloom
