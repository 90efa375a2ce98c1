#include "base/input_error.h"

#include <utility>

namespace spanloom {
namespace {

std::string summary(const std::vector<Problem>& problems) {
  std::string text;
  for (const Problem& p : problems) {
    if (!text.empty()) text += '\n';
    text += p.key + ": read " + p.read + ", expected " + p.expected;
    if (!p.cure.empty()) text += "; " + p.cure;
  }
  return text;
}

}  // namespace

InputError::InputError(std::vector<Problem> problems)
    : std::runtime_error(summary(problems)), problems_(std::move(problems)) {}

InputError::InputError(std::string key, std::string read, std::string expected, std::string cure)
    : InputError(std::vector<Problem>{
          {std::move(key), std::move(read), std::move(expected), std::move(cure)}}) {}

}  // namespace spanloom
