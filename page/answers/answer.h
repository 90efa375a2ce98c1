// What the page asks and what it is told: a method and its arguments as JSON, an answer as JSON (page/src/engine/methods.ts).
//
// Answers: {"ok": true, "value": ...}; {"ok": false, "why": "file", "faults": [...], "words": ...} where a file or an argument
// is wrong; {"ok": false, "why": "no answer", "faults": [], "words": ...} where there is no proven one. SI throughout.
#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "spacing/retape.h"

namespace spanloom {

/// Columns of numbers that are too long for JSON, by name.
using Films = std::map<std::string, std::vector<float>>;

/// Told of work done and in all.
using Tell = std::function<void(std::size_t done, std::size_t all)>;

/// What is kept from one call to the next, for hands that ask about the same file many times a second.
struct Kept {
  std::string taping_of;                  ///< the files, as JSON, that `taping` is of
  std::optional<Taping> taping;
  Films films;                            ///< of the last call that gave some
};

/// @param method  a name of methods.ts
/// @param args    its arguments as JSON
/// @throws std::exception for a fault of the caller: an unknown method, arguments that are not those of the method
std::string answer_to(const std::string& method, const std::string& args, const Tell& tell, Kept& kept);

}  // namespace spanloom
