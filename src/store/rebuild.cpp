// SPDX-License-Identifier: Apache-2.0
#include "store/rebuild.hpp"

#include <fmt/format.h>

#include "fogwright/book/entry.hpp"
#include "store/sql_documents.hpp"
#include "store/tables.hpp"

namespace fogwright {
namespace {

using sqlite::Rows;

constexpr std::int64_t most_named = 100;
constexpr std::int64_t entries_a_step = 4096;

std::int64_t name_rows(const sqlite::Connection& connection, std::string_view select, const char* what,
                       std::vector<std::string>& differing) {
  sqlite::Statement statement = connection.prepare(select);
  std::int64_t count = 0;
  Rows rows = statement.rows();
  while (rows.next()) {
    ++count;
    if (static_cast<std::int64_t>(differing.size()) < most_named) {
      differing.push_back(fmt::format("{} {}: {}", rows.text(0), rows.text(1), what));
    }
  }
  return count;
}

void fold_all(sqlite::Connection& connection, const std::string& origin, Fold fold, const Progress& progress) {
  SqlDocuments documents(connection, fresh_documents);
  const std::int64_t size = BookReader(connection).size();
  sqlite::Statement select = connection.prepare("SELECT seq, leaf FROM entry ORDER BY seq");
  Rows rows = select.rows();
  while (rows.next()) {
    const std::int64_t seq = rows.integer(0);
    const auto entry = read_entry(rows.blob(1), origin);
    if (!entry) {
      throw StorageFault(ErrorCode::bad_book,
                         fmt::format("entry {} is damaged: {}", seq, entry.error().message),
                         "verify the book; restore it from a backup");
    }
    fold(*entry, documents);
    if (progress && (seq + 1) % entries_a_step == 0) progress(seq + 1, size);
  }
  if (progress) progress(size, size);
}

}  // namespace

void make_fresh_documents(sqlite::Connection& connection) {
  connection.execute(
      "DROP TABLE IF EXISTS temp.fresh;"
      "CREATE TABLE temp.fresh(kind TEXT NOT NULL, key TEXT NOT NULL, body TEXT NOT NULL, live INTEGER NOT "
      "NULL, "
      "PRIMARY KEY(kind, key)) STRICT, WITHOUT ROWID;"
      "CREATE INDEX temp.fresh_live ON fresh(kind, key) WHERE live = 1");
}

std::int64_t compare_documents(const sqlite::Connection& connection, std::vector<std::string>& differing) {
  return name_rows(connection,
                   "SELECT kind, key FROM main.document AS kept JOIN temp.fresh AS fresh USING(kind, key) "
                   "WHERE kept.body IS NOT fresh.body OR kept.live IS NOT fresh.live",
                   "differs from what the entries give", differing) +
         name_rows(connection,
                   "SELECT kind, key FROM main.document AS kept WHERE NOT EXISTS "
                   "(SELECT 1 FROM temp.fresh AS fresh WHERE fresh.kind = kept.kind AND fresh.key = kept.key)",
                   "does not follow from the entries", differing) +
         name_rows(
             connection,
             "SELECT kind, key FROM temp.fresh AS fresh WHERE NOT EXISTS "
             "(SELECT 1 FROM main.document AS kept WHERE kept.kind = fresh.kind AND kept.key = fresh.key)",
             "is missing", differing);
}

std::int64_t rebuild_documents(sqlite::Connection& connection, const std::string& origin, Fold fold,
                               std::vector<std::string>& differing, const Progress& progress) {
  make_fresh_documents(connection);
  fold_all(connection, origin, fold, progress);
  const std::int64_t count = compare_documents(connection, differing);
  if (count > 0) {
    connection.execute(
        "DELETE FROM main.document;"
        "INSERT INTO main.document(kind, key, body, live) SELECT kind, key, body, live FROM temp.fresh");
  }
  connection.execute("DROP TABLE temp.fresh");
  return count;
}

}  // namespace fogwright
