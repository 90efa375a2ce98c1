// Entries into the tables and back.
#pragma once

#include "record/database.h"
#include "record/entries.h"

namespace spanloom {

/// Everything in the record. @throws RecordError also where a row is not what the tables promise
Record read_record(Database& database);

/// Adds an entry; within a Transaction, since it is several rows. @return its number @throws RecordError
EntryNumber append(Database& database, const Entry& entry);

/// Strikes an entry out. @throws RecordError
void append_strike(Database& database, EntryNumber entry, const Strike& strike);

}  // namespace spanloom
