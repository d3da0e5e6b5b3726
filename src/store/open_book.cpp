// SPDX-License-Identifier: Apache-2.0
// Opening and making books: what a user can cause becomes an Error here.
#include <fmt/format.h>

#include <filesystem>

#include "fogwright/book/note.hpp"
#include "store/copy.hpp"
#include "store/postgres_schema.hpp"
#include "store/postgres_store.hpp"
#include "store/sqlite_store.hpp"
#include "store/transfer.hpp"

namespace fogwright {
namespace {

namespace fs = std::filesystem;

// SQLite refuses a symbolic link anywhere in the path. Folders may be links, the book itself may not.
fs::path with_real_folder(const std::string& path) {
  const fs::path given(path);
  const fs::path folder = given.has_parent_path() ? given.parent_path() : fs::path(".");
  std::error_code unknown;
  const fs::path real = fs::canonical(folder, unknown);
  return unknown ? given : real / given.filename();
}

Result<void> file_ok(const fs::path& path) {
  std::error_code unknown;
  const fs::file_status status = fs::symlink_status(path, unknown);
  if (status.type() == fs::file_type::not_found) {
    return fail(ErrorCode::not_found, "there is no book of this name", path.string(),
                "make one with: fogwright book create");
  }
  if (unknown)
    return fail(ErrorCode::file_fault, unknown.message(), path.string(), "check the path and its permissions");
  if (status.type() == fs::file_type::symlink) {
    return fail(ErrorCode::file_fault, "this is a symbolic link", path.string(),
                "name the file that it points to");
  }
  if (status.type() != fs::file_type::regular) {
    return fail(ErrorCode::bad_book, "this is a folder or a device, not a book", path.string(),
                "name the book's file");
  }
  return {};
}

// An address that is read; without the library that reads it, what it says.
Result<pq::Address> understood(const std::string& address) {
  try {
    return pq::read_address(address);
  } catch (const StorageFault& fault) {
    return fail(fault.code(), fault.what(), "--book", fault.hint());
  }
}

tl::unexpected<Error> as_error(const StorageFault& fault, const std::string& path) {
  return fail(fault.code(), fault.what(), path, fault.hint());
}

}  // namespace

Result<std::unique_ptr<Store>> open_sqlite_book(const std::string& path, Fold fold, Clock clock,
                                                const SqliteOptions& options) {
  const fs::path real = with_real_folder(path);
  if (auto ok = file_ok(real); !ok) return tl::make_unexpected(ok.error());
  try {
    return std::make_unique<SqliteStore>(real.string(), fold, std::move(clock), options);
  } catch (const StorageFault& fault) {
    return as_error(fault, path);
  }
}

Result<std::unique_ptr<Store>> open_sqlite_book(const std::string& path, Fold fold, Clock clock) {
  return open_sqlite_book(path, fold, std::move(clock), SqliteOptions{});
}

Result<std::unique_ptr<Store>> create_sqlite_book(const std::string& path, std::string_view origin, Fold fold,
                                                  Clock clock) {
  if (auto ok = key_name_ok(origin); !ok) return tl::make_unexpected(ok.error());
  try {
    make_book_file(with_real_folder(path).string(), origin, clock());
  } catch (const StorageFault& fault) {
    return as_error(fault, path);
  }
  return open_sqlite_book(path, fold, std::move(clock));
}

bool is_server_address(std::string_view address) noexcept {
  return address.starts_with("postgresql://") || address.starts_with("postgres://");
}

std::string shown_address(const std::string& address) {
  if (!is_server_address(address)) return address;
  const auto read = understood(address);
  return read ? read->shown : "postgresql://...";
}

// Percent signs keep two books apart whatever characters their names have.
Result<std::string> file_name_of(const std::string& address) {
  const auto read = understood(address);
  if (!read) return tl::make_unexpected(read.error());
  std::string name;
  for (const char* keyword : {"service", "host", "hostaddr", "port", "dbname"}) {
    const std::string value = read->value(keyword);
    if (!value.empty()) name += value + '-';
  }
  std::string safe;
  for (const char c : name + read->schema) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
                       c == '_' || c == '.';
    safe += plain ? std::string(1, c) : fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return safe;
}

Result<std::unique_ptr<Store>> open_postgres_book(const std::string& address, Fold fold, Clock clock,
                                                  const pq::Options& options) {
  const auto read = understood(address);
  if (!read) return tl::make_unexpected(read.error());
  try {
    return std::make_unique<pq::PostgresStore>(*read, fold, std::move(clock), options);
  } catch (const StorageFault& fault) {
    return as_error(fault, read->shown);
  }
}

Result<std::unique_ptr<Store>> create_postgres_book(const std::string& address, const pq::NewBook& book,
                                                    Fold fold, Clock clock, const pq::Options& options) {
  if (auto ok = key_name_ok(book.origin); !ok) return tl::make_unexpected(ok.error());
  const auto read = understood(address);
  if (!read) return tl::make_unexpected(read.error());
  try {
    pq::Connection connection = pq::open_connection(*read, options);
    pq::make_tables(connection, book);
  } catch (const StorageFault& fault) {
    return as_error(fault, read->shown);
  }
  return open_postgres_book(address, fold, std::move(clock), options);
}

Result<std::unique_ptr<Store>> create_book(const std::string& address, std::string_view origin, Fold fold,
                                           Clock clock, const std::vector<std::string>& grant_to) {
  if (is_server_address(address)) {
    const std::int64_t now = clock();
    return create_postgres_book(address, {origin, now, grant_to}, fold, std::move(clock), {});
  }
  if (grant_to.empty()) return create_sqlite_book(address, origin, fold, std::move(clock));
  return fail(ErrorCode::bad_usage, "a book in a file has no roles", "--grant-to",
              "who may read and write the file is for its folder to say");
}

Result<std::unique_ptr<Store>> open_book(const std::string& address, Fold fold, Clock clock) {
  if (is_server_address(address)) return open_postgres_book(address, fold, std::move(clock), {});
  return open_sqlite_book(address, fold, std::move(clock));
}

tl::expected<Transferred, Faults> copy_book(Store& from, const std::string& address, Fold fold, Clock clock,
                                            const Progress& progress,
                                            const std::vector<std::string>& grant_to) {
  std::error_code unknown;
  if (!is_server_address(address) && !fs::exists(fs::symlink_status(address, unknown)))
    return copy_to_file(from, with_real_folder(address).string(), fold, clock, progress);
  auto to = open_book(address, fold, clock);
  if (!to && to.error().code == ErrorCode::not_found)
    to = create_book(address, from.origin(), fold, clock, grant_to);
  if (!to) return tl::make_unexpected(Faults{to.error()});
  return transfer(from, **to, progress);
}

}  // namespace fogwright
