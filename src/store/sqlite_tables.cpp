// SPDX-License-Identifier: Apache-2.0
#include "store/sqlite_tables.hpp"

#include <algorithm>

#include "fogwright/book/encoding.hpp"

namespace fogwright {
namespace {

constexpr std::size_t most_entries = 64;  // at most 4 MB, usually 32 KB

}  // namespace

using sqlite::Blob;
using sqlite::Rows;

SqliteTables::SqliteTables(const sqlite::Connection& connection)
    : connection_(connection),
      tail_(connection.prepare("SELECT seq, hash FROM entry ORDER BY seq DESC LIMIT 1")),
      leaf_(connection.prepare("SELECT leaf FROM entry WHERE seq = ?1")),
      find_(connection.prepare("SELECT seq FROM entry WHERE id = ?1")),
      largest_id_(connection.prepare("SELECT max(id) FROM entry")),
      leaf_hashes_(connection.prepare("SELECT hash FROM entry WHERE seq >= ?1 AND seq < ?2 ORDER BY seq")),
      node_hashes_(
          connection.prepare("SELECT hash FROM node WHERE level = ?3 AND position >= ?1 AND position < ?2 "
                             "ORDER BY position")),
      add_node_(connection.prepare("INSERT INTO node(level, position, hash) VALUES(?1, ?2, ?3)")),
      add_entries_(connection, "entry(seq, id, hash, leaf)", 4),
      documents_(connection, "document") {}

void SqliteTables::flush() {
  write_entries();
  documents_.flush();
}

void SqliteTables::forget() {
  entries_.clear();
  documents_.forget();
}

BookTables::Tail SqliteTables::tail() {
  write_entries();
  Rows rows = tail_.rows();
  if (!rows.next()) return {};
  return {rows.integer(0), read_hash(rows.blob(1)).value_or(Hash{})};
}

void SqliteTables::each_entry(std::int64_t from, std::int64_t to,
                              const std::function<bool(const Row& row)>& visit) {
  write_entries();
  sqlite::Statement select =
      connection_.prepare("SELECT seq, id, hash, leaf FROM entry WHERE seq >= ?1 AND seq < ?2 ORDER BY seq");
  Rows rows = select.rows(from, to);
  while (rows.next() && visit({rows.integer(0), rows.blob(1), rows.blob(2), rows.blob(3)})) {
  }
}

std::optional<std::string> SqliteTables::leaf(std::int64_t seq) {
  write_entries();
  Rows rows = leaf_.rows(seq);
  if (!rows.next()) return std::nullopt;
  return std::string(rows.blob(0));
}

std::optional<std::int64_t> SqliteTables::find(const Uuid& id) {
  write_entries();
  Rows rows = find_.rows(Blob{as_bytes(id.bytes)});
  if (!rows.next()) return std::nullopt;
  return rows.integer(0);
}

std::optional<Uuid> SqliteTables::largest_id() {
  write_entries();
  Rows rows = largest_id_.rows();
  Uuid id;
  if (!rows.next() || rows.blob(0).size() != id.bytes.size()) return std::nullopt;
  std::copy_n(rows.blob(0).begin(), id.bytes.size(), id.bytes.begin());
  return id;
}

void SqliteTables::add_entry(const Entry& entry, const Hash& hash, std::string leaf) {
  entries_.push_back({entry.seq, entry.id, hash, std::move(leaf)});
  if (entries_.size() >= most_entries) write_entries();
}

void SqliteTables::write_entries() {
  if (entries_.empty()) return;
  add_entries_.run(std::span<const NewEntryRow>(entries_), [](const NewEntryRow& row) {
    return std::tuple(row.seq, Blob{as_bytes(row.id.bytes)}, Blob{as_bytes(row.hash)}, Blob{row.leaf});
  });
  entries_.clear();
}

void SqliteTables::each_hash(unsigned level, std::int64_t begin, std::int64_t end,
                             const std::function<void(std::string_view hash)>& visit) {
  write_entries();
  Rows rows = level == 0 ? leaf_hashes_.rows(begin, end) : node_hashes_.rows(begin, end, std::int64_t{level});
  while (rows.next()) visit(rows.blob(0));
}

void SqliteTables::each_node(
    unsigned lowest_level,
    const std::function<bool(std::int64_t level, std::int64_t position, std::string_view hash)>& visit) {
  sqlite::Statement select = connection_.prepare("SELECT level, position, hash FROM node WHERE level >= ?1");
  Rows rows = select.rows(std::int64_t{lowest_level});
  while (rows.next() && visit(rows.integer(0), rows.integer(1), rows.blob(2))) {
  }
}

BookTables::NodeCount SqliteTables::node_count(unsigned level) {
  sqlite::Statement select =
      connection_.prepare("SELECT count(*), coalesce(max(position), -1) FROM node WHERE level = ?1");
  Rows rows = select.rows(std::int64_t{level});
  return rows.next() ? NodeCount{rows.integer(0), rows.integer(1)} : NodeCount{};
}

void SqliteTables::add_kept_node(std::int64_t level, std::int64_t position, const Hash& hash) {
  add_node_.run(level, position, Blob{as_bytes(hash)});
}

void SqliteTables::each_document(const std::function<void(const DocumentRow& row)>& visit) {
  documents_.each_row(visit);
}

BookTables::Checkpoints SqliteTables::checkpoints() {
  sqlite::Statement select = connection_.prepare("SELECT size, note FROM checkpoint ORDER BY size");
  Checkpoints kept;
  Rows rows = select.rows();
  while (rows.next()) kept.emplace_back(rows.integer(0), rows.text(1));
  return kept;
}

std::optional<std::string> SqliteTables::checkpoint(std::int64_t size) {
  sqlite::Statement select = connection_.prepare("SELECT note FROM checkpoint WHERE size = ?1");
  Rows rows = select.rows(size);
  if (!rows.next()) return std::nullopt;
  return std::string(rows.text(0));
}

void SqliteTables::add_checkpoint(std::int64_t size, std::string_view note) {
  connection_.prepare("INSERT INTO checkpoint(size, note) VALUES(?1, ?2)").run(size, note);
}

void SqliteTables::extend_checkpoint(std::int64_t size, std::string_view note) {
  connection_.prepare("UPDATE checkpoint SET note = ?2 WHERE size = ?1").run(size, note);
}

std::optional<PrivateRecord> SqliteTables::private_record(std::string_view hash) {
  sqlite::Statement select = connection_.prepare("SELECT salt, bytes FROM private WHERE hash = ?1");
  Rows rows = select.rows(Blob{hash});
  if (!rows.next()) return std::nullopt;
  return PrivateRecord{std::string(rows.blob(0)), std::string(rows.blob(1))};
}

void SqliteTables::add_private(std::string_view hash, std::string_view salt, std::string_view bytes) {
  connection_.prepare("INSERT INTO private(hash, salt, bytes) VALUES(?1, ?2, ?3)")
      .run(Blob{hash}, Blob{salt}, Blob{bytes});
}

bool SqliteTables::erase_private(std::string_view hash) {
  connection_.prepare("DELETE FROM private WHERE hash = ?1").run(Blob{hash});
  return connection_.changes() > 0;
}

void SqliteTables::each_private(
    const std::function<void(std::string_view hash, std::string_view salt, std::string_view bytes)>& visit) {
  sqlite::Statement select = connection_.prepare("SELECT hash, salt, bytes FROM private ORDER BY hash");
  Rows rows = select.rows();
  while (rows.next()) visit(rows.blob(0), rows.blob(1), rows.blob(2));
}

}  // namespace fogwright
