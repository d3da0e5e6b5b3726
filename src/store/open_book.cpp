// SPDX-License-Identifier: Apache-2.0
// Opening and making books: what a user can cause becomes an Error here.
#include <fmt/format.h>

#include <filesystem>

#include "fogwright/book/note.hpp"
#include "store/copy.hpp"
#include "store/sqlite_store.hpp"

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

}  // namespace fogwright
