// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string_view>

#include "store/sqlite.hpp"

namespace fogwright {

/// Marks an SQLite file as a book: "FWGR".
inline constexpr int book_application_id = 0x46574752;

/// Step i takes the tables from version i to version i + 1; an empty file has version 0. A step that was
/// released is never edited: a change of the tables is a step of its own, and tests/data keeps a file of each
/// version.
[[nodiscard]] std::span<const char* const> schema_steps();

/// The version of the tables in the file. Throws StorageFault: bad_book if the file is no book, newer_book if a
/// newer program made it.
[[nodiscard]] int book_version(const sqlite::Connection& connection, std::span<const char* const> steps);

/// Takes the steps that the file lacks, all or none. Only under the writers' lock.
void bring_up_to_date(sqlite::Connection& connection, std::span<const char* const> steps);

/// Makes the tables in an empty file and writes what the book is.
void make_tables(sqlite::Connection& connection, std::string_view origin, std::int64_t created_ms);

}  // namespace fogwright
