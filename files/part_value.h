// Values of a part file, read with suspicion: nothing that was not written by a part gets in.
#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/input_error.h"
#include "base/utf8.h"
#include "files/file_error.h"
#include "files/limits.h"
#include "spacing/phrase.h"

namespace spanloom {

/// A part file that was read.
struct PartFile { std::string name, text; };

inline constexpr const char* kRunAgain = "run this part again";

// Keeps keys sorted: many keys cost no more than their text.
using ReadJson = nlohmann::json;

/// As part files name them.
const char* name_of(BayStep step);
const char* name_of(CountedFrom from);

/// @throws FileError
[[noreturn]] void refuse(const std::string& file, Place place, Problem problem);

/// A value of a part file and its key, for complaints. Places of values are not known, their keys tell where they are.
class PartValue {
 public:
  PartValue(const ReadJson& value, std::string key, const std::string& file)
      : value_(value), key_(std::move(key)), file_(file) {}

  PartValue at(const char* name) const {
    if (!value_.is_object()) refuse_as("a table of keys and values");
    const std::string key = key_.empty() ? name : key_ + '.' + name;
    const auto found = value_.find(name);
    if (found == value_.end()) refuse(file_, {}, {key, "nothing", "a value", kRunAgain});
    return {*found, key, file_};
  }

  std::vector<PartValue> entries() const {
    if (!value_.is_array() || value_.size() > kMostEntries) refuse_as(fmt::format("a list of at most {} entries", kMostEntries));
    std::vector<PartValue> out;
    for (std::size_t i = 0; i < value_.size(); ++i) out.push_back({value_[i], fmt::format("{}[{}]", key_, i), file_});
    return out;
  }

  bool is_null() const { return value_.is_null(); }

  bool flag() const {
    if (!value_.is_boolean()) refuse_as("true or false");
    return value_.get<bool>();
  }

  std::string text() const {
    if (!value_.is_string()) refuse_as("a text");
    return value_.get<std::string>();
  }

  std::uint64_t whole(std::uint64_t least, std::uint64_t most) const {
    const std::string wanted = fmt::format("a whole number from {} to {}", least, most);
    if (!value_.is_number_unsigned()) refuse_as(wanted);
    const auto value = value_.get<std::uint64_t>();
    if (value < least || value > most) refuse_as(wanted);
    return value;
  }

  double number(double least, double most) const {
    const double value = value_.is_number() ? value_.get<double>() : -1.0;
    if (!(value >= least && value <= most)) refuse_as(fmt::format("a number from {:g} to {:g}", least, most));
    return value;
  }

  template <class Choice>
  Choice one_of(Choice first, Choice second) const {
    const std::string read = text();
    if (read == name_of(first)) return first;
    if (read != name_of(second)) refuse_as(fmt::format("{} or {}", name_of(first), name_of(second)));
    return second;
  }

  [[noreturn]] void refuse_as(const std::string& expected, const std::string& cure = kRunAgain) const {
    refuse(file_, {}, {key_, shown(), expected, cure});
  }

 private:
  std::string shown() const {
    if (value_.is_string()) return in_quotes(value_.get<std::string>());
    if (value_.is_structured()) return value_.is_array() ? fmt::format("a list of {}", value_.size()) : "a table";
    return value_.dump();
  }

  const ReadJson& value_;
  std::string key_;
  const std::string& file_;
};

/// The JSON of a part file. @throws FileError where it is none, or larger than any part
ReadJson parsed(const PartFile& file);

}  // namespace spanloom
