#include "files/utf8.h"

#include <algorithm>

namespace spanloom {
namespace {

struct LeadByte {
  std::size_t size;         // of the character [bytes], 0: not a lead byte
  unsigned char second_low, second_high;  // range of the second byte
};

LeadByte lead_byte(unsigned char b) {
  if (b < 0x80) return {1, 0, 0};
  if (b >= 0xC2 && b <= 0xDF) return {2, 0x80, 0xBF};
  if (b == 0xE0) return {3, 0xA0, 0xBF};
  if (b == 0xED) return {3, 0x80, 0x9F};
  if (b >= 0xE1 && b <= 0xEF) return {3, 0x80, 0xBF};
  if (b == 0xF0) return {4, 0x90, 0xBF};
  if (b >= 0xF1 && b <= 0xF3) return {4, 0x80, 0xBF};
  if (b == 0xF4) return {4, 0x80, 0x8F};
  return {0, 0, 0};
}

}  // namespace

std::size_t utf8_character_size(std::string_view text, std::size_t at) {
  const LeadByte lead = lead_byte(static_cast<unsigned char>(text[at]));
  if (lead.size <= 1) return lead.size;
  if (at + lead.size > text.size()) return 0;
  const auto second = static_cast<unsigned char>(text[at + 1]);
  if (second < lead.second_low || second > lead.second_high) return 0;
  for (std::size_t i = at + 2; i < at + lead.size; ++i) {
    const auto b = static_cast<unsigned char>(text[i]);
    if (b < 0x80 || b > 0xBF) return 0;
  }
  return lead.size;
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

}  // namespace spanloom
