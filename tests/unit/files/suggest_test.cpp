#include "files/suggest.h"

#include <gtest/gtest.h>

#include <vector>

namespace spanloom {
namespace {

const std::vector<std::string> kKeys = {"tension", "natural_length", "near_end", "far_end", "webbing"};

TEST(NearestWord, ForgivesOneSlipOfEachKind) {
  EXPECT_EQ(nearest_word("tensio", kKeys), "tension");    // left out
  EXPECT_EQ(nearest_word("tennsion", kKeys), "tension");  // too much
  EXPECT_EQ(nearest_word("tenzion", kKeys), "tension");   // wrong letter
  EXPECT_EQ(nearest_word("tenison", kKeys), "tension");   // two letters swapped
}

TEST(NearestWord, IgnoresCaseAndHyphens) {
  EXPECT_EQ(nearest_word("Natural-Length", kKeys), "natural_length");
}

TEST(NearestWord, StaysSilentWhenNothingIsNear) {
  EXPECT_EQ(nearest_word("colour", kKeys), "");
  EXPECT_EQ(nearest_word("", kKeys), "");
  EXPECT_EQ(nearest_word(std::string(100000, 'x'), kKeys), "");
}

TEST(NearestWord, PrefersTheNearer) { EXPECT_EQ(nearest_word("nar_end", kKeys), "near_end"); }

}  // namespace
}  // namespace spanloom
