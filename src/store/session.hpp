// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "store/options.hpp"
#include "store/sqlite_tables.hpp"

namespace fogwright {

/// The book file opened as the program demands, each setting read back. Refuses a file that is no book before
/// it changes anything in it. Throws StorageFault.
[[nodiscard]] sqlite::Connection open_connection(const std::string& path, sqlite::Access access,
                                                 const SqliteOptions& options);

/// The connections of a store and what is prepared on them: all that has to be made anew after a fault.
struct Session {
  Session(const std::string& path, const SqliteOptions& options)
      : writer(open_connection(path, sqlite::Access::read_write, options)),
        reader(open_connection(path, sqlite::Access::read_only, options)) {}

  sqlite::Connection writer;
  SqliteTables written{writer};  // sees the transaction that is being written
  sqlite::Connection reader;
  SqliteTables seen{reader};
};

}  // namespace fogwright
