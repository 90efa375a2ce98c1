// Keys of a rig file with the tables that they stand in.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace spanloom {

/// Names of tables one inside the other, {"main", "near_hardware"}; empty: the file itself.
using TablePath = std::vector<std::string>;

/// A key with the tables that it stands in, as written in TOML: `main.tension`, `webbing."my reed".mass`.
class DottedKey {
 public:
  /// @throws FileError where it is no key
  DottedKey(const std::string& written, const std::string& file);

  TablePath table() const { return {parts_.begin(), parts_.end() - 1}; }
  const std::vector<std::string>& parts() const { return parts_; }
  const std::string& name() const { return parts_.back(); }
  const std::string& written() const { return written_; }
  /// As written, without its first parts. @param parts  fewer than all
  std::string from_part(std::size_t parts) const { return written_.substr(starts_[parts]); }
  /// As written, without the last part; "" if it has only one.
  std::string table_written() const;

 private:
  std::string written_;
  std::vector<std::string> parts_;
  std::vector<std::size_t> starts_;  // bytes
};

/// A key of a rig file, and behind it those of its table that cannot stand beside it: "slack", "drop", "length".
std::vector<std::string> keys_like(const TablePath& table, const std::string& key);

}  // namespace spanloom
