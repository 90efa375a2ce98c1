// The error for impossible input: what is wrong, where, and how to cure it.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

namespace spanloom {

/// One thing wrong with the input. The engine knows keys, not files: `key` is the path of the value
/// in the rig ("spacing.at[3]"), and whoever read the file turns it into file, line and column.
struct Problem {
  std::string key;       ///< dotted path of the value, "" for the rig as a whole
  std::string read;      ///< what was found there
  std::string expected;  ///< what would have been right
  std::string cure;      ///< what to do about it, may be ""
};

/// Thrown while a rig is built; a Rig that exists is valid. Carries every problem found.
class InputError : public std::runtime_error {
 public:
  explicit InputError(std::vector<Problem> problems);
  InputError(std::string key, std::string read, std::string expected, std::string cure = "");
  const std::vector<Problem>& problems() const { return problems_; }

 private:
  std::vector<Problem> problems_;
};

}  // namespace spanloom
