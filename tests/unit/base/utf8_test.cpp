#include "base/utf8.h"

#include <gtest/gtest.h>

namespace spanloom {
namespace {

// First and last code of each length, and those around the surrogates: RFC 3629, table of section 4.
TEST(Utf8, ReadsBackWhatItWrote) {
  for (const char32_t code : {0x00u, 0x7fu, 0x80u, 0x7ffu, 0x800u, 0xd7ffu, 0xe000u, 0xffffu, 0x10000u, 0x10ffffu}) {
    const std::string text = utf8(std::u32string(1, code));
    const Utf8Character read = read_utf8(text, 0);
    EXPECT_TRUE(read.whole) << static_cast<unsigned>(code);
    EXPECT_TRUE(read.code == code) << static_cast<unsigned>(code);
    EXPECT_EQ(read.bytes, text.size());
    EXPECT_EQ(utf8_character_size(text, 0), text.size());
  }
}

// RFC 3629, sections 3 and 4: overlong forms, surrogates, codes beyond the last, lone and missing bytes.
TEST(Utf8, TakesNothingElseForACharacter) {
  for (const char* text : {"\x80", "\xc0\xaf", "\xc3", "\xe0\x80\xaf", "\xe2\x82", "\xed\xa0\x80", "\xf0\x80\x80\xaf",
                           "\xf4\x90\x80\x80", "\xf5\x80\x80\x80", "\xff"}) {
    const Utf8Character read = read_utf8(text, 0);
    EXPECT_FALSE(read.whole) << text;
    EXPECT_GE(read.bytes, 1u);
    EXPECT_LE(read.bytes, std::string_view(text).size());
    EXPECT_EQ(utf8_character_size(text, 0), 0u);
  }
}

}  // namespace
}  // namespace spanloom
