// The tables of the record, and how a file comes to have them. docs/log.md explains them to people.
#pragma once

#include <cstdint>
#include <filesystem>
#include <span>

#include "record/database.h"

namespace spanloom {

/// Says in the header of the file that it is a record of ours ("SpnL"; SQLite file format, section 1.3.17).
inline constexpr std::int64_t kRecordId = 0x53706e4c;

/// Makes the tables of version i + 1 from those of version i.
using Migration = void (*)(Database&);

/// Ours, from no tables on; never changed once it was released, only added to.
std::span<const Migration> record_migrations();

/// Brings the tables to the newest version, in one transaction. @throws RecordError
void migrate(Database& database, std::span<const Migration> migrations);

/// Opens a record. For writing it is made if it is missing or empty, and its tables brought to the newest version.
/// Where a program died while writing, SQLite undoes what it had not finished, and the file is checked.
/// A file that is not ours, or whose version is newer than this program, is left as it is, byte by byte.
/// @throws RecordError also for reading where there is no file
Database open_record(const std::filesystem::path& file, Access access);

}  // namespace spanloom
