// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "store/pq.hpp"

namespace fogwright::pq {

/// Step i takes the tables from version i to version i + 1, as in an SQLite book; "{s}" stands for the schema.
/// A step that was released is never edited.
[[nodiscard]] std::span<const char* const> schema_steps();

/// What makes the tables of a book in an empty schema.
struct NewBook {
  std::string_view origin;
  std::int64_t created_ms;
  std::span<const std::string> grant_to;  ///< roles that may use the book besides its owner
};
/// In one transaction. Throws StorageFault (already_exists, file_fault where the role may not make a schema).
void make_tables(Connection& connection, const NewBook& book);

/// The version of the tables. Throws StorageFault: not_found if the schema holds no book, newer_book.
[[nodiscard]] int book_version(Connection& connection, std::span<const char* const> steps);
/// Takes the steps that the book lacks, all or none. Throws StorageFault (file_fault) for a role that does not
/// own it.
void bring_up_to_date(Connection& connection, std::span<const char* const> steps);

/// Each table, column, constraint, index, trigger and function as it is: a line of its name, then how it is
/// made.
[[nodiscard]] std::vector<std::string> described(Connection& connection);
/// The same for what these steps make; leaves nothing behind. Outside of a transaction.
[[nodiscard]] std::vector<std::string> described_anew(Connection& connection,
                                                      std::span<const char* const> steps);

}  // namespace fogwright::pq
