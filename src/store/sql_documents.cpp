// SPDX-License-Identifier: Apache-2.0
#include "store/sql_documents.hpp"

#include <fmt/format.h>

#include <span>
#include <tuple>
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

constexpr std::size_t most_put = 8192;  // memory stays bounded in an import

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
      write_(connection, table + "(kind, key, body, live)", 4,
             "ON CONFLICT(kind, key) DO UPDATE SET body = excluded.body, live = excluded.live") {}

std::optional<json> SqlDocuments::get(std::string_view kind, std::string_view key) const {
  const auto text = get_text(kind, key);
  return text ? std::optional(document_of(kind, key, *text)) : std::nullopt;
}

std::optional<std::string> SqlDocuments::get_text(std::string_view kind, std::string_view key) const {
  if (const auto bodies = put_.find(kind); bodies != put_.end()) {
    const auto body = bodies->second.find(key);
    if (body != bodies->second.end()) return body->second.text;
  }
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
    flush();  // also what the visitor put
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
  flush();
  sqlite::Statement select = connection_.prepare(fmt::format(
      "SELECT key, body FROM {} WHERE kind = ?1 {} ORDER BY key", table_, live_only ? "AND live = 1" : ""));
  Rows rows = select.rows(kind);
  while (rows.next()) visit(rows.text(0), rows.text(1));
}

void SqlDocuments::put(std::string_view kind, std::string_view key, const json& body, bool live) {
  put_text(kind, key, body.dump(), live);
}

void SqlDocuments::each_row(const std::function<void(const BookTables::DocumentRow& row)>& visit) const {
  flush();
  Rows rows = rows_.rows();
  while (rows.next()) visit({rows.text(0), rows.text(1), rows.text(2), rows.integer(3) == 1});
}

void SqlDocuments::put_row(const BookTables::DocumentRow& row) {
  put_text(row.kind, row.key, std::string(row.body), row.live);
}

void SqlDocuments::put_text(std::string_view kind, std::string_view key, std::string text, bool live) {
  if (put_count_ >= most_put) flush();
  auto bodies = put_.find(kind);
  if (bodies == put_.end()) bodies = put_.emplace(kind, Bodies()).first;
  const auto place = bodies->second.lower_bound(key);
  if (place != bodies->second.end() && place->first == key) {
    place->second = {std::move(text), live};
  } else {
    bodies->second.emplace_hint(place, key, Body{std::move(text), live});
    ++put_count_;
  }
}

void SqlDocuments::erase(std::string_view kind, std::string_view key) {
  flush();
  connection_.prepare(fmt::format("DELETE FROM {} WHERE kind = ?1 AND key = ?2", table_)).run(kind, key);
}

void SqlDocuments::flush() const {
  if (put_.empty()) return;
  std::vector<BookTables::DocumentRow> rows;
  rows.reserve(put_count_);
  for (const auto& [kind, bodies] : put_)
    for (const auto& [key, body] : bodies) rows.push_back({kind, key, body.text, body.live});
  write_.run(std::span<const BookTables::DocumentRow>(rows),
             [](const auto& row) { return std::tuple(row.kind, row.key, row.body, row.live); });
  forget();
}

}  // namespace fogwright
