// Two lists taken by turns.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace spanloom {

/// An item of `first`, one of `second`, and so on until `second` ends; no item twice. @param first  no longer than `second`
template <class Item>
std::vector<Item> by_turns(const std::vector<Item>& first, const std::vector<Item>& second) {
  std::vector<Item> turn;
  const auto take = [&](const Item& item) {
    if (std::find(turn.begin(), turn.end(), item) == turn.end()) turn.push_back(item);
  };
  for (std::size_t i = 0; i < second.size(); ++i) {
    if (i < first.size()) take(first[i]);
    take(second[i]);
  }
  return turn;
}

}  // namespace spanloom
