// SPDX-License-Identifier: Apache-2.0
#include "store/fresh_documents.hpp"

#include <fmt/format.h>

#include <tuple>

#include "store/tree_state.hpp"

namespace fogwright {
namespace {

using DocumentRow = BookTables::DocumentRow;
using sqlite::Rows;

constexpr std::int64_t most_named = 100;
constexpr std::int64_t entries_a_step = 4096;

constexpr const char* tables = R"sql(
CREATE TABLE fresh(kind TEXT NOT NULL, key TEXT NOT NULL, body TEXT NOT NULL, live INTEGER NOT NULL,
  PRIMARY KEY(kind, key)) STRICT, WITHOUT ROWID;
CREATE INDEX fresh_live ON fresh(kind, key) WHERE live = 1;
CREATE TABLE odd(kind TEXT NOT NULL, key TEXT NOT NULL) STRICT;
)sql";

// One file for one use: nothing of it has to survive, so one transaction that never ends is enough.
sqlite::Connection temporary_file() {
  sqlite::Connection connection({}, sqlite::Access::read_write, {}, 0);
  connection.set_pragma("journal_mode", "MEMORY", "memory");
  connection.set_pragma("synchronous", "OFF", "0");
  connection.execute(tables);
  connection.execute("BEGIN");
  return connection;
}

auto place_of(const DocumentRow& row) { return std::tuple(row.kind, row.key); }

// The fresh rows in order, each held against the row of the book that stands at the same place.
class Comparison {
 public:
  Comparison(const sqlite::Connection& connection, std::vector<std::string>& differing)
      : select_(connection.prepare("SELECT kind, key, body, live FROM fresh ORDER BY kind, key")),
        odd_(connection.prepare("INSERT INTO odd(kind, key) VALUES(?1, ?2)")),
        rows_(select_.rows()),
        differing_(differing) {
    advance();
  }

  void take(const DocumentRow& kept) {
    while (there_ && place_of(fresh()) < place_of(kept)) take_missing();
    if (!there_ || place_of(fresh()) != place_of(kept)) return name(kept, "does not follow from the entries");
    if (fresh() != kept) name(kept, "differs from what the entries give");
    advance();
  }
  void finish() {
    while (there_) take_missing();
  }
  [[nodiscard]] std::int64_t count() const { return count_; }

 private:
  [[nodiscard]] DocumentRow fresh() const {
    return {rows_.text(0), rows_.text(1), rows_.text(2), rows_.integer(3) == 1};
  }
  void advance() { there_ = rows_.next(); }
  void take_missing() {
    name(fresh(), "is missing");
    advance();
  }
  void name(const DocumentRow& row, const char* what) {
    ++count_;
    odd_.run(row.kind, row.key);
    if (static_cast<std::int64_t>(differing_.size()) < most_named) {
      differing_.push_back(fmt::format("{} {}: {}", row.kind, row.key, what));
    }
  }

  sqlite::Statement select_, odd_;
  Rows rows_;
  std::vector<std::string>& differing_;
  bool there_ = false;
  std::int64_t count_ = 0;
};

void fold_all(BookTables& book, const std::string& origin, Fold fold, MutableDocuments& documents,
              const Progress& progress) {
  const std::int64_t size = book.size();
  book.each_entry(0, size, [&](const BookTables::Row& row) {
    fold(sound_entry(row.seq, row.leaf, origin), documents);
    if (progress && (row.seq + 1) % entries_a_step == 0) progress(row.seq + 1, size);
    return true;
  });
  if (progress) progress(size, size);
}

}  // namespace

FreshDocuments::FreshDocuments() : connection_(temporary_file()), documents_(connection_, "fresh") {}

std::int64_t FreshDocuments::compare(BookTables& book, std::vector<std::string>& differing) {
  documents_.flush();
  connection_.execute("DELETE FROM odd");
  Comparison comparison(connection_, differing);
  book.each_document([&](const DocumentRow& kept) { comparison.take(kept); });
  comparison.finish();
  return comparison.count();
}

void FreshDocuments::mend(BookTables& book) {
  sqlite::Statement select = connection_.prepare(
      "SELECT kind, key, body, live FROM odd LEFT JOIN fresh USING(kind, key) ORDER BY kind, key");
  Rows rows = select.rows();
  while (rows.next()) {
    if (rows.text(2).empty())  // no document is: the least is {}
      book.erase_document(rows.text(0), rows.text(1));
    else
      book.put_document({rows.text(0), rows.text(1), rows.text(2), rows.integer(3) == 1});
  }
}

std::int64_t rebuild_documents(BookTables& book, const std::string& origin, Fold fold,
                               std::vector<std::string>& differing, const Progress& progress) {
  FreshDocuments fresh;
  fold_all(book, origin, fold, fresh.documents(), progress);
  const std::int64_t count = fresh.compare(book, differing);
  if (count > 0) fresh.mend(book);
  return count;
}

}  // namespace fogwright
