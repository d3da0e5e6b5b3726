// SPDX-License-Identifier: Apache-2.0
#include "store/sqlite.hpp"

#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>
#include <vector>

#include "fogwright/store.hpp"

namespace fogwright::sqlite {
namespace {

struct Meaning {
  ErrorCode code;
  const char* what;
  const char* hint;
};

Meaning meaning_of(int code) {
  switch (code & 0xFF) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {ErrorCode::storage_busy, "another process holds the book", "wait until it is done and try again"};
    case SQLITE_CORRUPT:
      return {ErrorCode::bad_book, "the book file is damaged", "verify the book; restore it from a backup"};
    case SQLITE_NOTADB:
      return {ErrorCode::bad_book, "this is not a book", "name the file that was made as a book"};
    case SQLITE_FULL:
      return {ErrorCode::storage_fault, "the disk is full", "make room on the disk and try again"};
    case SQLITE_IOERR:
      return {ErrorCode::storage_fault, "the disk reports an error",
              "check the disk and its cable, then open the book again"};
    case SQLITE_NOMEM:
      return {ErrorCode::storage_fault, "there is not enough memory", "close other programs and try again"};
    case SQLITE_PERM:
    case SQLITE_READONLY:
    case SQLITE_CANTOPEN:
    case SQLITE_AUTH:
      return {ErrorCode::file_fault, "the book cannot be opened for writing",
              "check that you may write to the file and to its folder, and that it is no symbolic link"};
    default:
      return {ErrorCode::internal_fault, "the book's storage refused a statement", "report this as a defect"};
  }
}

int note_wal_pages(void* pages, sqlite3*, const char*, int count) {
  *static_cast<int*>(pages) = count;
  return SQLITE_OK;
}

void check(sqlite3* connection, int code) {
  if (code != SQLITE_OK) throw_fault(connection, code);
}

sqlite3* connection_of(sqlite3_stmt* statement) { return sqlite3_db_handle(statement); }

}  // namespace

void throw_fault(int code, const std::string& detail) {
  const Meaning meaning = meaning_of(code);
  throw StorageFault(meaning.code, fmt::format("{} ({}, code {})", meaning.what, detail, code), meaning.hint);
}

void throw_fault(sqlite3* connection, int code) {
  throw_fault(code, connection != nullptr ? sqlite3_errmsg(connection) : sqlite3_errstr(code));
}

Rows::~Rows() { sqlite3_reset(statement_->handle_.get()); }

bool Rows::next() {
  sqlite3_stmt* const handle = statement_->handle_.get();
  const int code = sqlite3_step(handle);
  if (code != SQLITE_ROW && code != SQLITE_DONE) throw_fault(connection_of(handle), code);
  return code == SQLITE_ROW;
}

std::int64_t Rows::integer(int column) const { return sqlite3_column_int64(statement_->handle_.get(), column); }

std::string_view Rows::text(int column) const { return blob(column); }

std::string_view Rows::blob(int column) const {
  sqlite3_stmt* const handle = statement_->handle_.get();
  const auto* bytes = static_cast<const char*>(sqlite3_column_blob(handle, column));
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(handle, column));
  return bytes == nullptr ? std::string_view() : std::string_view(bytes, size);
}

void Statement::Finalize::operator()(sqlite3_stmt* statement) const noexcept { sqlite3_finalize(statement); }

Statement::Statement(sqlite3* connection, std::string_view sql) {
  sqlite3_stmt* made = nullptr;
  check(connection, sqlite3_prepare_v3(connection, sql.data(), static_cast<int>(sql.size()),
                                       SQLITE_PREPARE_PERSISTENT, &made, nullptr));
  handle_.reset(made);
}

void Statement::bind(int index, std::int64_t value) {
  check(connection_of(handle_.get()), sqlite3_bind_int64(handle_.get(), index, value));
}

void Statement::bind(int index, std::string_view text) {
  const char* data = text.data() != nullptr ? text.data() : "";  // a null pointer would bind NULL
  check(connection_of(handle_.get()),
        sqlite3_bind_text64(handle_.get(), index, data, text.size(), SQLITE_STATIC, SQLITE_UTF8));
}

void Statement::bind(int index, Blob blob) {
  const char* data = blob.bytes.data() != nullptr ? blob.bytes.data() : "";
  check(connection_of(handle_.get()),
        sqlite3_bind_blob64(handle_.get(), index, data, blob.bytes.size(), SQLITE_STATIC));
}

// close_v2 does not fail: statements that outlive the connection keep it until they go.
void Connection::Close::operator()(sqlite3* connection) const noexcept { sqlite3_close_v2(connection); }

Connection::Connection(const std::string& path, Access access, const std::string& vfs, int busy_ms)
    : wal_pages_(std::make_unique<int>(0)) {
  // Nobody asks how much memory it uses, which it would count under a lock of the whole process.
  [[maybe_unused]] static const int uncounted = sqlite3_config(SQLITE_CONFIG_MEMSTATUS, 0);
  const int mode = access == Access::read_only ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE;
  sqlite3* made = nullptr;
  const int code = sqlite3_open_v2(path.c_str(), &made,
                                   mode | SQLITE_OPEN_EXRESCODE | SQLITE_OPEN_NOFOLLOW | SQLITE_OPEN_NOMUTEX,
                                   vfs.empty() ? nullptr : vfs.c_str());
  handle_.reset(made);
  check(made, code);
  for (const auto& [option, setting] : {std::pair{SQLITE_DBCONFIG_DEFENSIVE, 1},
                                        {SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0},
                                        {SQLITE_DBCONFIG_ENABLE_FKEY, 1},
                                        {SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0},
                                        {SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1}}) {
    check(made, sqlite3_db_config(made, option, setting, nullptr));
  }
  sqlite3_limit(made, SQLITE_LIMIT_ATTACHED, 0);
  sqlite3_busy_timeout(made, busy_ms);
  sqlite3_wal_hook(made, note_wal_pages, wal_pages_.get());  // takes the place of automatic checkpoints
}

void Connection::execute(const std::string& sql) {
  check(handle_.get(), sqlite3_exec(handle_.get(), sql.c_str(), nullptr, nullptr, nullptr));
}

void Connection::execute_often(std::string_view sql) {
  auto kept = often_.find(sql);
  if (kept == often_.end()) kept = often_.emplace(sql, prepare(sql)).first;
  kept->second.run();
}

std::string Connection::value(std::string_view sql) const {
  Statement statement = prepare(sql);
  Rows rows = statement.rows();
  return rows.next() ? std::string(rows.text(0)) : std::string();
}

void Connection::set_pragma(std::string_view name, std::string_view setting, std::string_view read_back) {
  execute(fmt::format("PRAGMA {}={}", name, setting));
  const std::string now = value(fmt::format("PRAGMA {}", name));
  if (now == read_back) return;
  throw StorageFault(ErrorCode::storage_fault, fmt::format("the setting {} stayed at '{}'", name, now),
                     "keep the book on a local disk; this program needs SQLite with a write-ahead log");
}

bool Connection::in_transaction() const noexcept { return sqlite3_get_autocommit(handle_.get()) == 0; }

std::int64_t Connection::changes() const noexcept { return sqlite3_changes64(handle_.get()); }

void Connection::checkpoint() {
  const int code =
      sqlite3_wal_checkpoint_v2(handle_.get(), "main", SQLITE_CHECKPOINT_PASSIVE, nullptr, nullptr);
  if (code != SQLITE_BUSY) check(handle_.get(), code);  // a reader in the way: the next one gets further
}

void Connection::checkpoint_and_empty() {
  check(handle_.get(),
        sqlite3_wal_checkpoint_v2(handle_.get(), "main", SQLITE_CHECKPOINT_TRUNCATE, nullptr, nullptr));
}

void Connection::rewrite_log() {
  sqlite3_file* log = nullptr;
  check(handle_.get(), sqlite3_file_control(handle_.get(), "main", SQLITE_FCNTL_JOURNAL_POINTER, &log));
  if (log == nullptr || log->pMethods == nullptr) return;
  const auto require = [](int code) {
    if (code != SQLITE_OK) throw_fault(code, "writing the log once more");
  };
  sqlite3_int64 size = 0;
  require(log->pMethods->xFileSize(log, &size));
  std::vector<char> bytes(64U << 10);  // SQLite writes at most 128 KiB at once
  for (sqlite3_int64 at = 0; at < size; at += static_cast<sqlite3_int64>(bytes.size())) {
    const int count = static_cast<int>(std::min(size - at, static_cast<sqlite3_int64>(bytes.size())));
    require(log->pMethods->xRead(log, bytes.data(), count, at));
    require(log->pMethods->xWrite(log, bytes.data(), count, at));
  }
  require(log->pMethods->xSync(log, SQLITE_SYNC_NORMAL));
}

void Connection::seal_log() {
  const std::string same = "PRAGMA user_version=" + value("PRAGMA user_version");  // dirties the first page
  const std::string commit = "BEGIN IMMEDIATE;" + same + ";COMMIT";
  const int code = sqlite3_exec(handle_.get(), commit.c_str(), nullptr, nullptr, nullptr);
  if (in_transaction()) sqlite3_exec(handle_.get(), "ROLLBACK", nullptr, nullptr, nullptr);
  if ((code & 0xFF) != SQLITE_FULL) check(handle_.get(), code);
}

void Connection::checkpoint_on_close() noexcept {
  sqlite3_db_config(handle_.get(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 0, nullptr);
}

Transaction::Transaction(Connection& connection, Kind kind) : connection_(connection) {
  connection_.execute_often(kind == Kind::write ? "BEGIN IMMEDIATE" : "BEGIN");
}

// Some errors have rolled the transaction back already. A rollback that fails leaves nothing behind either:
// what was not committed is not read back.
Transaction::~Transaction() {
  if (connection_.in_transaction()) sqlite3_exec(connection_.handle(), "ROLLBACK", nullptr, nullptr, nullptr);
}

void Transaction::commit() { connection_.execute_often("COMMIT"); }

ReadScope::ReadScope(Connection& connection) {
  if (!connection.in_transaction()) own_ = std::make_unique<Transaction>(connection, Transaction::Kind::read);
}

ReadScope::~ReadScope() = default;

}  // namespace fogwright::sqlite
