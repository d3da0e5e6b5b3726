// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>

struct sqlite3;  // SQLite's own header stays in sqlite.cpp and copy.cpp
struct sqlite3_stmt;

/// A thin owner of SQLite's C interface. What SQLite reports as an error leaves here as a StorageFault:
/// storage_busy if somebody else holds the file too long, bad_book if the file is damaged or no database,
/// file_fault if it cannot be opened or written, storage_fault for a full disk and for errors of input or
/// output, internal_fault for the rest.
namespace fogwright::sqlite {

/// Marks bytes that are to be bound as a BLOB; plain text is bound as TEXT.
struct Blob {
  std::string_view bytes;
};

class Statement;

/// The rows of one run of a statement, which is ready to be run again when this goes. What text() and blob()
/// give lasts until the next row.
class Rows {
 public:
  explicit Rows(Statement& statement) : statement_(&statement) {}
  Rows(const Rows&) = delete;
  Rows& operator=(const Rows&) = delete;
  ~Rows();

  [[nodiscard]] bool next();
  [[nodiscard]] std::int64_t integer(int column) const;
  [[nodiscard]] std::string_view text(int column) const;
  [[nodiscard]] std::string_view blob(int column) const;

 private:
  Statement* statement_;
};

class Statement {
 public:
  Statement(sqlite3* connection, std::string_view sql);

  /// Runs to the end; for statements whose rows do not matter.
  template <class... Values>
  void run(Values... values) {
    Rows rows_of_run = rows(values...);
    while (rows_of_run.next()) {
    }
  }

  /// Texts and bytes must outlive the Rows. Precondition: no other Rows of this statement is alive.
  template <class... Values>
  [[nodiscard]] Rows rows(Values... values) {
    bind_from(1, values...);
    return Rows(*this);
  }

  /// Binds the parameters from this one on, the first being 1; returns the one after them. For run() without
  /// values: texts and bytes must last until then.
  template <class... Values>
  int bind_from(int index, Values... values) {
    (bind(index++, values), ...);
    return index;
  }

 private:
  friend class Rows;
  void bind(int index, std::int64_t value);
  void bind(int index, bool value) { bind(index, std::int64_t{value}); }
  void bind(int index, std::string_view text);
  void bind(int index, Blob blob);

  struct Finalize {
    void operator()(sqlite3_stmt* statement) const noexcept;
  };
  std::unique_ptr<sqlite3_stmt, Finalize> handle_;
};

enum class Access { read_only, read_write };

class Connection {
 public:
  /// Opens a file that exists; never makes one. Symbolic links are not followed. `vfs` empty: SQLite's own.
  /// Schema and file are not trusted, extensions cannot be loaded, closing does not checkpoint.
  Connection(const std::string& path, Access access, const std::string& vfs, int busy_ms);

  [[nodiscard]] Statement prepare(std::string_view sql) const { return Statement(handle_.get(), sql); }
  /// Runs several statements whose rows do not matter.
  void execute(const std::string& sql);
  /// Runs one statement whose rows do not matter, and keeps it for the next time.
  void execute_often(std::string_view sql);
  /// The first column of the first row, as text. Empty if there is none.
  [[nodiscard]] std::string value(std::string_view sql) const;
  /// Sets a pragma and reads it back; a setting that did not take is a StorageFault.
  void set_pragma(std::string_view name, std::string_view value, std::string_view read_back);

  [[nodiscard]] bool in_transaction() const noexcept;
  /// Rows changed by the last statement that ended.
  [[nodiscard]] std::int64_t changes() const noexcept;

  /// Pages in the write-ahead log after the last commit of this connection.
  [[nodiscard]] int wal_pages() const noexcept { return *wal_pages_; }
  /// Copies what the log holds into the book file as far as readers allow. Only under the writers' lock.
  void checkpoint();
  /// Copies all of the log and empties it. Waits for readers; storage_busy if they stay. Only under that lock.
  void checkpoint_and_empty();
  /// Writes the log's bytes once more over themselves and syncs. After a sync that failed the system may take
  /// pages for clean that are not on the disk; what is read from them is durable only when they were written
  /// again. Only under that lock.
  void rewrite_log();
  /// Ends the log as it is seen now with an empty commit. A commit that failed may stand behind that end,
  /// whole, unseen while other processes know the log without it, and come back after a crash; what stands
  /// there is overwritten. On a full disk nothing stands there: this does nothing. Only under that lock.
  void seal_log();
  /// Lets closing the last connection checkpoint and remove the log. Only if it closes under the writers' lock.
  void checkpoint_on_close() noexcept;

  [[nodiscard]] sqlite3* handle() const noexcept { return handle_.get(); }

 private:
  struct Close {
    void operator()(sqlite3* connection) const noexcept;
  };
  std::unique_ptr<int> wal_pages_;  // SQLite keeps its address
  std::unique_ptr<sqlite3, Close> handle_;
  std::map<std::string, Statement, std::less<>> often_;
};

/// A transaction; rolled back when it goes without commit(). Precondition: none is open on the connection.
class Transaction {
 public:
  enum class Kind { read, write };

  Transaction(Connection& connection, Kind kind);
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  ~Transaction();

  /// If this throws anything but storage_busy, whether the changes are in the file is not known.
  void commit();

 private:
  Connection& connection_;
};

/// The read transaction that is open on the connection, or one of its own.
class ReadScope {
 public:
  explicit ReadScope(Connection& connection);
  ReadScope(const ReadScope&) = delete;
  ReadScope& operator=(const ReadScope&) = delete;
  ~ReadScope();

 private:
  std::unique_ptr<Transaction> own_;
};

/// Turns a result code of SQLite into the StorageFault it stands for.
[[noreturn]] void throw_fault(int code, const std::string& detail);
/// The same for what `connection` just reported.
[[noreturn]] void throw_fault(sqlite3* connection, int code);

}  // namespace fogwright::sqlite
