// SPDX-License-Identifier: Apache-2.0
#include "store/sqlite_store.hpp"

#include "store/copy.hpp"
#include "store/schema.hpp"

namespace fogwright {
namespace {

using sqlite::Transaction;

// After these the connection is not to be trusted: SQLite goes on, but what it believes to be written may not
// be.
bool of_the_disk(ErrorCode code) {
  return code == ErrorCode::storage_fault || code == ErrorCode::file_fault || code == ErrorCode::bad_book;
}

// What a transaction gathers does not outlive it.
struct Gathered {
  explicit Gathered(SqliteTables& gathering) : tables(gathering) {}
  Gathered(const Gathered&) = delete;
  Gathered& operator=(const Gathered&) = delete;
  ~Gathered() { tables.forget(); }

  SqliteTables& tables;
};

}  // namespace

SqliteStore::SqliteStore(std::string path, Fold fold, Clock clock, const SqliteOptions& options)
    : BookStore(fold, std::move(clock)), path_(std::move(path)), options_(options) {
  sqlite::Connection first = open_connection(path_, sqlite::Access::read_write, options_);
  lock_.emplace(path_ + ".lock");
  if (book_version(first, options_.steps) < static_cast<int>(options_.steps.size())) {
    const auto held = lock_->hold(options_.wait);
    bring_up_to_date(first, options_.steps);
  }
  origin_ = first.value("SELECT value FROM meta WHERE name = 'origin'");
  session_ = std::make_unique<Session>(path_, options_);
}

// Leaves a single file behind if nobody else has it open.
SqliteStore::~SqliteStore() {
  if (!session_) return;
  try {
    const auto held = lock_->hold(std::chrono::milliseconds(0));
    session_->writer.checkpoint_on_close();
    session_.reset();
  } catch (const StorageFault&) {
    // Another process is writing: it tidies up.
  }
}

Session& SqliteStore::session() {
  if (session_) return *session_;
  throw StorageFault(ErrorCode::storage_fault, "the book had a fault that could not be resolved",
                     "check the disk, then open the book again");
}

// What the log held when a sync failed may be in the system's memory only; it counts once it was written again.
void SqliteStore::reopen() noexcept {
  session_.reset();
  try {
    auto again = std::make_unique<Session>(path_, options_);
    again->writer.rewrite_log();
    again->writer.seal_log();
    session_ = std::move(again);
  } catch (const std::exception&) {
    // session() says so from now on.
  }
}

void SqliteStore::look(const std::function<void(BookTables& tables)>& use) {
  Session& open = session();
  const sqlite::ReadScope scope(open.reader);
  use(open.seen);
}

std::shared_ptr<void> SqliteStore::hold() {
  return std::make_shared<LockFile::Hold>(lock_->hold(options_.wait));
}

void SqliteStore::transact(const Work& work) {
  Session& open = session();
  const auto held = lock_->hold(options_.wait);
  try {
    const Gathered ended(open.written);
    Transaction transaction(open.writer, Transaction::Kind::write);
    begin_work(open.written);
    if (!work(open.written)) return;
    open.written.flush();
    about_to_commit();
    transaction.commit();
  } catch (const StorageFault& fault) {
    if (of_the_disk(fault.code())) reopen();
    throw;
  }
  checkpoint_if_long();
}

// What was committed is durable whatever happens here, but after a fault the connection must go.
void SqliteStore::checkpoint_if_long() noexcept {
  try {
    if (session_->writer.wal_pages() >= options_.checkpoint_pages) session_->writer.checkpoint();
  } catch (const std::exception&) {
    reopen();
  }
}

// reopen() has made durable what is there.
bool SqliteStore::made_it(const std::vector<Receipt>& receipts) {
  if (!session_) return false;
  try {
    return all_there(receipts, session_->written);
  } catch (const StorageFault&) {
    session_.reset();
    return false;
  }
}

// The log still holds the page with what was erased; a reader may keep it there a while.
void SqliteStore::erased() {
  try {
    session().writer.checkpoint_and_empty();
  } catch (const StorageFault& fault) {
    if (fault.code() == ErrorCode::storage_busy) return;
    reopen();
    throw;
  }
}

std::unique_ptr<AuditedBook> SqliteStore::audited() { return audited_file(path_, options_); }

void SqliteStore::backup_to(const std::string& path, const Progress& progress) {
  copy_book_file(path_, path, options_, progress);
}

}  // namespace fogwright
