// SPDX-License-Identifier: Apache-2.0
#include "store/sql_documents.hpp"

#include <fmt/format.h>

#include <utility>
#include <vector>

#include "store/document_text.hpp"

namespace fogwright {
namespace {

using nlohmann::json;
using sqlite::Rows;

// Rows are taken this many at a time and left before the visitor sees them: a table must not change under a
// statement that runs.
constexpr int rows_at_a_time = 128;

/// The least text that is greater.
std::string next_key(std::string_view key) { return std::string(key) + '\0'; }

std::string select(const std::string& table, const char* condition) {
  return fmt::format("SELECT key, body FROM {} WHERE kind = ?1 AND key >= ?2 {} ORDER BY key LIMIT {}", table,
                     condition, rows_at_a_time);
}

}  // namespace

SqlDocuments::SqlDocuments(const sqlite::Connection& connection, const std::string& table)
    : connection_(connection),
      table_(table),
      get_(connection.prepare(fmt::format("SELECT body FROM {} WHERE kind = ?1 AND key = ?2", table))),
      each_(connection.prepare(select(table, ""))),
      each_live_(connection.prepare(select(table, "AND live = 1"))),
      rows_(connection.prepare(fmt::format("SELECT kind, key, body, live FROM {} ORDER BY kind, key", table))),
      put_(connection.prepare(fmt::format("INSERT INTO {}(kind, key, body, live) VALUES(?1, ?2, ?3, ?4) "
                                          "ON CONFLICT(kind, key) DO UPDATE SET body = ?3, live = ?4",
                                          table))) {}

std::optional<json> SqlDocuments::get(std::string_view kind, std::string_view key) const {
  Rows rows = get_.rows(kind, key);
  if (!rows.next()) return std::nullopt;
  return document_of(kind, key, rows.text(0));
}

std::optional<std::string> SqlDocuments::get_text(std::string_view kind, std::string_view key) const {
  Rows rows = get_.rows(kind, key);
  if (!rows.next()) return std::nullopt;
  return std::string(rows.text(0));
}

void SqlDocuments::each(std::string_view kind, bool live_only,
                        const std::function<void(const std::string& key, const json& body)>& visit) const {
  each_from(kind, live_only, {}, [&](const std::string& key, const json& body) {
    visit(key, body);
    return true;
  });
}

void SqlDocuments::each_after(
    std::string_view kind, bool live_only, std::string_view after,
    const std::function<bool(const std::string& key, const json& body)>& visit) const {
  each_from(kind, live_only, after.empty() ? std::string() : next_key(after), visit);
}

void SqlDocuments::each_from(std::string_view kind, bool live_only, std::string from,
                             const std::function<bool(const std::string& key, const json& body)>& visit) const {
  std::vector<std::pair<std::string, std::string>> taken;
  do {
    taken.clear();
    {
      Rows rows = (live_only ? each_live_ : each_).rows(kind, std::string_view(from));
      while (rows.next()) taken.emplace_back(rows.text(0), rows.text(1));
    }
    for (const auto& [key, body] : taken)
      if (!visit(key, document_of(kind, key, body))) return;
    if (!taken.empty()) from = next_key(taken.back().first);
  } while (taken.size() == rows_at_a_time);
}

// A statement of its own, since a visitor may ask for the text of other documents in between.
void SqlDocuments::each_text(
    std::string_view kind, bool live_only,
    const std::function<void(std::string_view key, std::string_view body)>& visit) const {
  sqlite::Statement select = connection_.prepare(fmt::format(
      "SELECT key, body FROM {} WHERE kind = ?1 {} ORDER BY key", table_, live_only ? "AND live = 1" : ""));
  Rows rows = select.rows(kind);
  while (rows.next()) visit(rows.text(0), rows.text(1));
}

void SqlDocuments::put(std::string_view kind, std::string_view key, const json& body, bool live) {
  put_row({kind, key, body.dump(), live});
}

void SqlDocuments::each_row(const std::function<void(const BookTables::DocumentRow& row)>& visit) const {
  Rows rows = rows_.rows();
  while (rows.next()) visit({rows.text(0), rows.text(1), rows.text(2), rows.integer(3) == 1});
}

void SqlDocuments::put_row(const BookTables::DocumentRow& row) {
  put_.run(row.kind, row.key, row.body, row.live);
}

}  // namespace fogwright
