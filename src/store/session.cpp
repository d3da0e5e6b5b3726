// SPDX-License-Identifier: Apache-2.0
#include "store/session.hpp"

#include "store/schema.hpp"

namespace fogwright {

sqlite::Connection open_connection(const std::string& path, sqlite::Access access,
                                   const SqliteOptions& options) {
  sqlite::Connection connection(path, access, options.vfs, static_cast<int>(options.wait.count()));
  (void)book_version(connection, options.steps);
  connection.set_pragma("foreign_keys", "ON", "1");
  connection.set_pragma("recursive_triggers", "ON", "1");
  connection.set_pragma("cell_size_check", "ON", "1");
  connection.set_pragma("secure_delete", "ON", "1");
  connection.set_pragma("temp_store", "FILE", "1");
  if (access == sqlite::Access::read_only) {
    connection.set_pragma("query_only", "ON", "1");
    return connection;
  }
  connection.set_pragma("journal_mode", "WAL", "wal");
  const bool full = options.synchronous == "FULL";
  connection.set_pragma("synchronous", options.synchronous,
                        full                              ? "2"
                        : options.synchronous == "NORMAL" ? "1"
                                                          : "0");
  return connection;
}

}  // namespace fogwright
