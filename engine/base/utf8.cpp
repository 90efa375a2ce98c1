#include "base/utf8.h"

#include <algorithm>

namespace spanloom {
namespace {

struct LeadByte {
  std::size_t size;         // of the character [bytes], 0: not a lead byte
  unsigned char bits;       // of the code that it carries
  unsigned char second_low, second_high;  // range of the second byte
};

LeadByte lead_byte(unsigned char b) {
  const auto bits = [&](unsigned mask) { return static_cast<unsigned char>(b & mask); };
  if (b < 0x80) return {1, b, 0, 0};
  if (b >= 0xC2 && b <= 0xDF) return {2, bits(0x1F), 0x80, 0xBF};
  if (b == 0xE0) return {3, bits(0x0F), 0xA0, 0xBF};
  if (b == 0xED) return {3, bits(0x0F), 0x80, 0x9F};
  if (b >= 0xE1 && b <= 0xEF) return {3, bits(0x0F), 0x80, 0xBF};
  if (b == 0xF0) return {4, bits(0x07), 0x90, 0xBF};
  if (b >= 0xF1 && b <= 0xF3) return {4, bits(0x07), 0x80, 0xBF};
  if (b == 0xF4) return {4, bits(0x07), 0x80, 0x8F};
  return {0, 0, 0, 0};
}

}  // namespace

Utf8Character read_utf8(std::string_view text, std::size_t at) {
  const LeadByte lead = lead_byte(static_cast<unsigned char>(text[at]));
  Utf8Character out{lead.bits, 1, lead.size > 0};
  for (; out.bytes < lead.size; ++out.bytes) {
    const std::size_t next = at + out.bytes;
    const auto b = next < text.size() ? static_cast<unsigned char>(text[next]) : 0u;
    if (b < 0x80 || b > 0xBF) return {0, out.bytes, false};
    if (out.bytes == 1 && (b < lead.second_low || b > lead.second_high)) out.whole = false;
    out.code = (out.code << 6) | (b & 0x3Fu);
  }
  return out;
}

std::size_t utf8_character_size(std::string_view text, std::size_t at) {
  const Utf8Character character = read_utf8(text, at);
  return character.whole ? character.bytes : 0;
}

std::size_t utf8_length(std::string_view text) {
  std::size_t characters = 0;
  for (std::size_t at = 0; at < text.size(); ++characters) {
    at += std::max<std::size_t>(utf8_character_size(text, at), 1);
  }
  return characters;
}

std::string_view without_byte_order_mark(std::string_view text) {
  constexpr std::string_view kMark = "\xEF\xBB\xBF";
  return text.starts_with(kMark) ? text.substr(kMark.size()) : text;
}

std::string utf8(const std::u32string& letters) {
  std::string out;
  out.reserve(letters.size());
  for (const char32_t c : letters) {
    const auto tail = [&](int shift) { out += static_cast<char>(0x80 | ((c >> shift) & 0x3f)); };
    if (c < 0x80) {
      out += static_cast<char>(c);
    } else if (c < 0x800) {
      out += static_cast<char>(0xc0 | (c >> 6));
      tail(0);
    } else if (c < 0x10000) {
      out += static_cast<char>(0xe0 | (c >> 12));
      tail(6);
      tail(0);
    } else {
      out += static_cast<char>(0xf0 | (c >> 18));
      tail(12);
      tail(6);
      tail(0);
    }
  }
  return out;
}

}  // namespace spanloom
