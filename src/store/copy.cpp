// SPDX-License-Identifier: Apache-2.0
#include "store/copy.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <memory>

#include "store/schema.hpp"
#include "store/session.hpp"

namespace fogwright {
namespace {

[[noreturn]] void fault_of_system(std::string_view doing, const std::string& path) {
  const int error = errno;
  if (error == EEXIST) {
    throw StorageFault(ErrorCode::already_exists, fmt::format("{} is there already", path),
                       "choose another name; nothing is ever overwritten");
  }
  const ErrorCode code = error == ENOSPC || error == EIO ? ErrorCode::storage_fault : ErrorCode::file_fault;
  throw StorageFault(code, fmt::format("{} {}: {}", doing, path, std::strerror(error)),
                     "check the folder, its permissions and the space on its disk");
}

class Descriptor {
 public:
  Descriptor(const std::string& path, int flags) : number_(::open(path.c_str(), flags | O_CLOEXEC, 0600)) {
    if (number_ < 0) fault_of_system("cannot open", path);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() { ::close(number_); }

  void sync(const std::string& path) const {
    if (::fsync(number_) != 0) fault_of_system("cannot make durable", path);
  }

 private:
  int number_;
};

// A file on its way to its name. Gone again if it does not get there.
class Draft {
 public:
  explicit Draft(const std::string& target)
      : target_(target), path_(fmt::format("{}.part-{}", target, ::getpid())) {
    if (std::filesystem::exists(std::filesystem::symlink_status(target))) {
      errno = EEXIST;
      fault_of_system("cannot make", target);
    }
    Descriptor(path_, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW);
  }
  Draft(const Draft&) = delete;
  Draft& operator=(const Draft&) = delete;
  ~Draft() {
    for (const char* ending : {"", "-wal", "-shm", "-journal", ".lock"}) ::unlink((path_ + ending).c_str());
  }

  [[nodiscard]] const std::string& path() const { return path_; }

  /// Precondition: no connection to the file is open; opening it here would take SQLite's locks away.
  void publish() const {
    Descriptor(path_, O_RDONLY).sync(path_);
    if (::renameat2(AT_FDCWD, path_.c_str(), AT_FDCWD, target_.c_str(), RENAME_NOREPLACE) != 0) {
      fault_of_system("cannot make", target_);
    }
    const auto folder = std::filesystem::path(target_).parent_path().string();
    Descriptor(folder.empty() ? "." : folder, O_RDONLY | O_DIRECTORY).sync(folder);
  }

 private:
  std::string target_, path_;
};

struct FinishBackup {
  void operator()(sqlite3_backup* copy) const noexcept { sqlite3_backup_finish(copy); }
};

void copy_pages(const sqlite::Connection& source, const sqlite::Connection& target, const Progress& progress) {
  constexpr int pages_at_a_time = 256;
  const std::unique_ptr<sqlite3_backup, FinishBackup> copy(
      sqlite3_backup_init(target.handle(), "main", source.handle(), "main"));
  if (!copy) sqlite::throw_fault(target.handle(), sqlite3_extended_errcode(target.handle()));
  int code = SQLITE_OK;
  while (code == SQLITE_OK) {
    code = sqlite3_backup_step(copy.get(), pages_at_a_time);
    const int pages = sqlite3_backup_pagecount(copy.get());
    if (progress) progress(pages - sqlite3_backup_remaining(copy.get()), pages);
  }
  if (code != SQLITE_DONE) sqlite::throw_fault(code, sqlite3_errstr(code));
}

void check_copy(const sqlite::Connection& source, const sqlite::Connection& copy) {
  const std::string found = copy.value("PRAGMA integrity_check(1)");
  const bool same_end = SqliteTables(source).size() == SqliteTables(copy).size();
  if (found == "ok" && same_end) return;
  throw StorageFault(ErrorCode::bad_book, fmt::format("the copy does not hold together: {}", found),
                     "verify the book itself; check the target's disk");
}

}  // namespace

void make_book_file(const std::string& path, std::string_view origin, std::int64_t created_ms) {
  make_book_file(path, origin, created_ms, [](const std::string&) {});
}

void make_book_file(const std::string& path, std::string_view origin, std::int64_t created_ms,
                    const std::function<void(const std::string& draft)>& fill) {
  const Draft draft(path);
  {
    sqlite::Connection connection(draft.path(), sqlite::Access::read_write, {}, 0);
    connection.set_pragma("journal_mode", "WAL", "wal");
    make_tables(connection, origin, created_ms);
    connection.checkpoint_on_close();  // nobody else knows the file
  }
  fill(draft.path());
  draft.publish();
}

void copy_book_file(const std::string& path, const std::string& target, const SqliteOptions& options,
                    const Progress& progress) {
  sqlite::Connection source = open_connection(path, sqlite::Access::read_only, options);
  const sqlite::Transaction snapshot(source, sqlite::Transaction::Kind::read);
  (void)SqliteTables(source).size();  // the snapshot begins with the first look
  const Draft draft(target);
  {
    sqlite::Connection copy(draft.path(), sqlite::Access::read_write, {}, 0);
    copy.set_pragma("synchronous", "OFF", "0");  // made durable as a whole before it gets its name
    copy.set_pragma("journal_mode", "MEMORY", "memory");
    copy_pages(source, copy, progress);
    check_copy(source, copy);
  }
  draft.publish();
}

}  // namespace fogwright
