// SPDX-License-Identifier: Apache-2.0
#include "store/postgres_tables.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "fogwright/book/encoding.hpp"
#include "fogwright/store.hpp"

namespace fogwright::pq {
namespace {

constexpr std::int64_t entries_at_a_time = 1024;  // at most 64 MB, usually half a megabyte
constexpr std::size_t most_entries = 2048, most_bytes = 4U << 20, most_places = 65'536;

// Entries, nodes and head in one statement; the triggers hold the head to the entries.
constexpr const char* add_all =
    "WITH entries AS (INSERT INTO entry(seq, id, hash, leaf) "
    "SELECT * FROM unnest($1::bigint[], $2::bytea[], $3::bytea[], $4::bytea[])), "
    "nodes AS (INSERT INTO node(level, position, hash) "
    "SELECT * FROM unnest($5::bigint[], $6::bigint[], $7::bytea[])) "
    "UPDATE head SET size = $8 WHERE size = $9";

}  // namespace

// It holds nobody up, so it may stand still while what it read is being used.
void PostgresTables::begin_reading() {
  forget();
  connection_.begin(
      "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY; SET LOCAL idle_in_transaction_session_timeout = 0");
}

// Each statement after the lock sees what was committed before it was granted.
void PostgresTables::begin_writing() {
  forget();
  connection_.begin("BEGIN; SELECT size FROM head FOR UPDATE");
}

void PostgresTables::flush() {
  send_record();
  documents_.flush();
}

void PostgresTables::commit() {
  connection_.commit();
  forget();
}

void PostgresTables::rollback() noexcept {
  connection_.rollback();
  forget();
}

void PostgresTables::forget() {
  documents_.forget();
  entries_.clear();
  nodes_.clear();
  places_.clear();
  bytes_ = 0;
}

void PostgresTables::send_record() {
  if (entries_.empty()) return;
  Integers seqs, levels, positions;
  ByteStrings ids, hashes, leaves, node_hashes;
  for (const NewEntryRow& row : entries_) {
    seqs.values.push_back(row.seq);
    ids.values.push_back(as_bytes(row.id));
    hashes.values.push_back(as_bytes(row.hash));
    leaves.values.push_back(row.leaf);
  }
  for (const NewNode& node : nodes_) {
    levels.values.push_back(node.level);
    positions.values.push_back(node.position);
    node_hashes.values.push_back(as_bytes(node.hash));
  }
  const Answer done = connection_.run(add_all, seqs, ids, hashes, leaves, levels, positions, node_hashes,
                                      entries_.back().seq + 1, entries_.front().seq);
  if (done.changes() != 1) {
    throw StorageFault(ErrorCode::bad_book, "the head of the book does not stand behind its last entry",
                       "verify the book; restore it from a backup");
  }
  entries_.clear();
  nodes_.clear();
  bytes_ = 0;
}

BookTables::Tail PostgresTables::tail() {
  if (!entries_.empty()) return {entries_.back().seq, entries_.back().hash};
  const Answer rows = connection_.run("SELECT seq, hash FROM entry ORDER BY seq DESC LIMIT 1");
  if (rows.rows() == 0) return {};
  return {rows.integer(0, 0), read_hash(rows.text(0, 1)).value_or(Hash{})};
}

void PostgresTables::each_entry(std::int64_t from, std::int64_t to,
                                const std::function<bool(const Row& row)>& visit) {
  send_record();
  for (int count = static_cast<int>(entries_at_a_time); from < to && count == entries_at_a_time;) {
    const Answer rows = connection_.run(
        "SELECT seq, id, hash, leaf FROM entry WHERE seq >= $1 AND seq < $2 ORDER BY seq LIMIT $3", from, to,
        entries_at_a_time);
    count = rows.rows();
    for (int row = 0; row < count; ++row) {
      from = rows.integer(row, 0) + 1;
      if (!visit({from - 1, rows.text(row, 1), rows.text(row, 2), rows.text(row, 3)})) return;
    }
  }
}

std::optional<std::string> PostgresTables::leaf(std::int64_t seq) {
  if (!entries_.empty() && seq >= entries_.front().seq) send_record();
  const Answer rows = connection_.run("SELECT leaf FROM entry WHERE seq = $1", seq);
  if (rows.rows() == 0) return std::nullopt;
  return std::string(rows.text(0, 0));
}

std::optional<std::int64_t> PostgresTables::find(const Uuid& id) {
  if (const auto known = places_.find(id.bytes); known != places_.end() && connection_.in_transaction())
    return known->second;
  send_record();
  const Answer rows = connection_.run("SELECT seq FROM entry WHERE id = $1", Bytes{as_bytes(id.bytes)});
  if (rows.rows() == 0) return std::nullopt;
  return rows.integer(0, 0);
}

std::optional<Uuid> PostgresTables::largest_id() {
  const Answer rows = connection_.run("SELECT id FROM entry ORDER BY id DESC LIMIT 1");
  Uuid id;
  if (rows.rows() == 0 || rows.text(0, 0).size() != id.bytes.size()) return std::nullopt;
  std::copy_n(rows.text(0, 0).begin(), id.bytes.size(), id.bytes.begin());
  return id;
}

void PostgresTables::look_up(std::span<const Uuid> ids) {
  if (!connection_.in_transaction() || ids.empty()) return;
  if (places_.size() > most_places) {
    send_record();
    places_.clear();
  }
  ByteStrings asked;
  for (const Uuid& id : ids)
    if (places_.emplace(id.bytes, std::nullopt).second) asked.values.push_back(as_bytes(id.bytes));
  const Answer rows = connection_.run("SELECT id, seq FROM entry WHERE id = ANY($1)", asked);
  for (int row = 0; row < rows.rows(); ++row) {
    Id id{};
    std::copy_n(rows.text(row, 0).begin(), id.size(), id.begin());
    places_[id] = rows.integer(row, 1);
  }
}

void PostgresTables::add_entry(const Entry& entry, const Hash& hash, std::string leaf) {
  bytes_ += leaf.size();
  entries_.push_back({entry.seq, entry.id.bytes, hash, std::move(leaf)});
  places_[entry.id.bytes] = entry.seq;
  if (entries_.size() >= most_entries || bytes_ >= most_bytes) send_record();
}

void PostgresTables::add_kept_node(std::int64_t level, std::int64_t position, const Hash& hash) {
  nodes_.push_back({level, position, hash});
}

void PostgresTables::each_hash(unsigned level, std::int64_t begin, std::int64_t end,
                               const std::function<void(std::string_view hash)>& visit) {
  send_record();
  const Answer rows =
      level == 0
          ? connection_.run("SELECT hash FROM entry WHERE seq >= $1 AND seq < $2 ORDER BY seq", begin, end)
          : connection_.run(
                "SELECT hash FROM node WHERE level = $3 AND position >= $1 AND position < $2 "
                "ORDER BY position",
                begin, end, std::int64_t{level});
  for (int row = 0; row < rows.rows(); ++row) visit(rows.text(row, 0));
}

void PostgresTables::each_node(
    unsigned lowest_level,
    const std::function<bool(std::int64_t level, std::int64_t position, std::string_view hash)>& visit) {
  std::int64_t level = lowest_level, after = -1;
  for (int count = static_cast<int>(entries_at_a_time); count == entries_at_a_time;) {
    const Answer rows = connection_.run(
        "SELECT level, position, hash FROM node WHERE (level, position) > ($1, $2) ORDER BY level, position "
        "LIMIT $3",
        level, after, entries_at_a_time);
    count = rows.rows();
    for (int row = 0; row < count; ++row) {
      level = rows.integer(row, 0);
      after = rows.integer(row, 1);
      if (!visit(level, after, rows.text(row, 2))) return;
    }
  }
}

BookTables::NodeCount PostgresTables::node_count(unsigned level) {
  const Answer rows = connection_.run("SELECT count(*), coalesce(max(position), -1) FROM node WHERE level = $1",
                                      std::int64_t{level});
  return {rows.integer(0, 0), rows.integer(0, 1)};
}

void PostgresTables::each_document(const std::function<void(const DocumentRow& row)>& visit) {
  documents_.each_row(visit);
}

BookTables::Checkpoints PostgresTables::checkpoints() {
  const Answer rows = connection_.run("SELECT size, note FROM checkpoint ORDER BY size");
  Checkpoints kept;
  for (int row = 0; row < rows.rows(); ++row) kept.emplace_back(rows.integer(row, 0), rows.text(row, 1));
  return kept;
}

std::optional<std::string> PostgresTables::checkpoint(std::int64_t size) {
  const Answer rows = connection_.run("SELECT note FROM checkpoint WHERE size = $1", size);
  if (rows.rows() == 0) return std::nullopt;
  return std::string(rows.text(0, 0));
}

void PostgresTables::add_checkpoint(std::int64_t size, std::string_view note) {
  (void)connection_.run("INSERT INTO checkpoint(size, note) VALUES($1, $2)", size, note);
}

void PostgresTables::extend_checkpoint(std::int64_t size, std::string_view note) {
  (void)connection_.run("UPDATE checkpoint SET note = $2 WHERE size = $1", size, note);
}

std::optional<PrivateRecord> PostgresTables::private_record(std::string_view hash) {
  const Answer rows = connection_.run("SELECT salt, bytes FROM private WHERE hash = $1", Bytes{hash});
  if (rows.rows() == 0) return std::nullopt;
  return PrivateRecord{std::string(rows.text(0, 0)), std::string(rows.text(0, 1))};
}

void PostgresTables::add_private(std::string_view hash, std::string_view salt, std::string_view bytes) {
  (void)connection_.run("INSERT INTO private(hash, salt, bytes) VALUES($1, $2, $3)", Bytes{hash}, Bytes{salt},
                        Bytes{bytes});
}

bool PostgresTables::erase_private(std::string_view hash) {
  return connection_.run("DELETE FROM private WHERE hash = $1", Bytes{hash}).changes() > 0;
}

void PostgresTables::each_private(
    const std::function<void(std::string_view hash, std::string_view salt, std::string_view bytes)>& visit) {
  constexpr std::int64_t at_a_time = 64;
  std::string after;
  for (int count = static_cast<int>(at_a_time); count == at_a_time;) {
    const Answer rows =
        connection_.run("SELECT hash, salt, bytes FROM private WHERE hash > $1 ORDER BY hash LIMIT $2",
                        Bytes{after}, at_a_time);
    count = rows.rows();
    for (int row = 0; row < count; ++row) visit(rows.text(row, 0), rows.text(row, 1), rows.text(row, 2));
    if (count > 0) after = rows.text(count - 1, 0);
  }
}

}  // namespace fogwright::pq
