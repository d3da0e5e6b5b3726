// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <chrono>
#include <memory>
#include <span>
#include <string>

#include "fogwright/store.hpp"
#include "store/postgres_options.hpp"
#include "store/schema.hpp"

namespace fogwright {

/// How a book file is opened. The defaults are what the program uses; the rest is there to test it.
struct SqliteOptions {
  std::string vfs;                        ///< empty: SQLite's own access to files
  std::string_view synchronous = "FULL";  ///< anything less loses acknowledged entries at a power cut
  std::chrono::milliseconds wait{5000};   ///< how long to wait for other writers
  int checkpoint_pages = 1000;            ///< length of the write-ahead log at which it is copied into the file
  std::span<const char* const> steps = schema_steps();
};

[[nodiscard]] Result<std::unique_ptr<Store>> open_sqlite_book(const std::string& path, Fold fold, Clock clock,
                                                              const SqliteOptions& options);

[[nodiscard]] Result<std::unique_ptr<Store>> open_postgres_book(const std::string& address, Fold fold,
                                                                Clock clock, const pq::Options& options);
[[nodiscard]] Result<std::unique_ptr<Store>> create_postgres_book(const std::string& address,
                                                                  const pq::NewBook& book, Fold fold,
                                                                  Clock clock, const pq::Options& options);

}  // namespace fogwright
