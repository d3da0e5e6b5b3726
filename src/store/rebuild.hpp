// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "fogwright/store.hpp"
#include "store/sqlite.hpp"

namespace fogwright {

/// Documents that are derived anew into a table of their own, which goes with the connection.
inline constexpr const char* fresh_documents = "temp.fresh";

/// Makes the table, empty. It lives in a temporary file, so that memory does not grow with it.
void make_fresh_documents(sqlite::Connection& connection);

/// Compares the documents with the fresh ones. Counts those that differ, are missing or should not be there,
/// and adds the first 100 to `differing`.
[[nodiscard]] std::int64_t compare_documents(const sqlite::Connection& connection,
                                             std::vector<std::string>& differing);

/// Derives the documents anew from all entries, compares, and puts the fresh ones in place if they differ.
/// Inside the transaction of the connection. Throws StorageFault (bad_book) if an entry cannot be read.
[[nodiscard]] std::int64_t rebuild_documents(sqlite::Connection& connection, const std::string& origin,
                                             Fold fold, std::vector<std::string>& differing,
                                             const Progress& progress);

}  // namespace fogwright
