// SPDX-License-Identifier: Apache-2.0
#include "store/postgres_documents.hpp"

#include "store/document_text.hpp"

namespace fogwright::pq {
namespace {

using nlohmann::json;

constexpr std::int64_t rows_at_a_time = 512;
constexpr std::size_t most_known = 8192;  // memory stays bounded in an import

constexpr const char* put_all =
    "INSERT INTO document(kind, key, body, live) SELECT * FROM unnest($1::text[], $2::text[], $3::text[], "
    "$4::bigint[]) ON CONFLICT(kind, key) DO UPDATE SET body = excluded.body, live = excluded.live";

}  // namespace

PostgresDocuments::Known& PostgresDocuments::known(std::string_view kind, std::string_view key) const {
  const Place place(kind, key);
  const auto there = known_.find(place);
  if (there != known_.end()) return there->second;
  forget_if_many();
  const Answer rows =
      connection_.run("SELECT body, live FROM document WHERE kind = $1 AND key = $2", kind, key);
  Known now;
  if (rows.rows() == 1) now = {std::string(rows.text(0, 0)), rows.integer(0, 1) == 1, false};
  return known_[place] = std::move(now);
}

void PostgresDocuments::forget_if_many() const {
  if (known_.size() < most_known) return;
  flush();
  known_.clear();
}

// Outside of a transaction others may change a document at any time.
std::optional<json> PostgresDocuments::get(std::string_view kind, std::string_view key) const {
  if (!connection_.in_transaction()) known_.clear();
  const Known& now = known(kind, key);
  if (!now.body) return std::nullopt;
  return document_of(kind, key, *now.body);
}

void PostgresDocuments::each(std::string_view kind, bool live_only,
                             const std::function<void(const std::string& key, const json& body)>& visit) const {
  each_text(kind, live_only, [&](std::string_view key, std::string_view body) {
    visit(std::string(key), document_of(kind, key, body));
  });
}

void PostgresDocuments::each_text(
    std::string_view kind, bool live_only,
    const std::function<void(std::string_view key, std::string_view body)>& visit) const {
  each_text_after(kind, live_only, {}, true, [&](std::string_view key, std::string_view body) {
    visit(key, body);
    return true;
  });
}

void PostgresDocuments::each_after(
    std::string_view kind, bool live_only, std::string_view after,
    const std::function<bool(const std::string& key, const json& body)>& visit) const {
  each_text_after(kind, live_only, after, after.empty(), [&](std::string_view key, std::string_view body) {
    return visit(std::string(key), document_of(kind, key, body));
  });
}

void PostgresDocuments::each_text_after(
    std::string_view kind, bool live_only, std::string_view cursor, bool first,
    const std::function<bool(std::string_view key, std::string_view body)>& visit) const {
  const std::string live = live_only ? "AND live = 1 " : "";
  const std::string page = "ORDER BY key LIMIT $3";
  std::string after(cursor);
  for (int count = static_cast<int>(rows_at_a_time); count == rows_at_a_time; first = false) {
    flush();  // also what the visitor put
    const Answer rows = connection_.run("SELECT key, body FROM document WHERE kind = $1 AND key " +
                                            std::string(first ? ">= $2 " : "> $2 ") + live + page,
                                        kind, std::string_view(after), rows_at_a_time);
    count = rows.rows();
    for (int row = 0; row < count; ++row)
      if (!visit(rows.text(row, 0), rows.text(row, 1))) return;
    if (count > 0) after = rows.text(count - 1, 0);
  }
}

void PostgresDocuments::put(std::string_view kind, std::string_view key, const json& body, bool live) {
  const std::string text = body.dump();
  put_row({kind, key, text, live});
}

void PostgresDocuments::put_row(const BookTables::DocumentRow& row) {
  forget_if_many();
  Known& now = known_[Place(row.kind, row.key)];
  if (!now.changed) ++changed_;
  now = {std::string(row.body), row.live, true};
}

void PostgresDocuments::erase(std::string_view kind, std::string_view key) {
  flush();
  known_.clear();
  (void)connection_.run("DELETE FROM document WHERE kind = $1 AND key = $2", kind, key);
}

void PostgresDocuments::flush() const {
  if (changed_ == 0) return;
  Texts kinds, keys, bodies;
  Integers lives;
  for (auto& [place, now] : known_) {
    if (!now.changed) continue;
    kinds.values.push_back(place.first);
    keys.values.push_back(place.second);
    bodies.values.push_back(*now.body);
    lives.values.push_back(now.live ? 1 : 0);
  }
  (void)connection_.run(put_all, kinds, keys, bodies, lives);
  for (auto& [place, now] : known_) now.changed = false;
  changed_ = 0;
}

void PostgresDocuments::each_row(const std::function<void(const BookTables::DocumentRow& row)>& visit) const {
  flush();
  std::string kind, key;
  bool first = true;
  for (int count = static_cast<int>(rows_at_a_time); count == rows_at_a_time; first = false) {
    const Answer rows =
        connection_.run(std::string("SELECT kind, key, body, live FROM document WHERE (kind, key) ") +
                            (first ? ">=" : ">") + " ($1, $2) ORDER BY kind, key LIMIT $3",
                        std::string_view(kind), std::string_view(key), rows_at_a_time);
    count = rows.rows();
    for (int row = 0; row < count; ++row)
      visit({rows.text(row, 0), rows.text(row, 1), rows.text(row, 2), rows.integer(row, 3) == 1});
    if (count > 0) kind = rows.text(count - 1, 0), key = rows.text(count - 1, 1);
  }
}

}  // namespace fogwright::pq
