// SPDX-License-Identifier: Apache-2.0
#include "store/tables.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <bit>

#include "fogwright/book/encoding.hpp"
#include "fogwright/store.hpp"

namespace fogwright {
namespace {

using sqlite::Blob;
using sqlite::Rows;

// Beyond this it is quicker to put the tree together from its nodes.
constexpr std::int64_t most_to_append = 1024;

[[noreturn]] void damaged(const std::string& what) {
  throw StorageFault(ErrorCode::bad_book, what, "verify the book; restore it from a backup");
}

CompactRange tree_of(BookReader& reader, std::uint64_t size) {
  CompactRange tree;
  for (unsigned level = static_cast<unsigned>(std::bit_width(size)); level-- > 0;) {
    if ((size >> level & 1) == 0) continue;
    const auto root = reader.node({level, tree.size() >> level});
    if (!root) damaged(fmt::format("the tree over the first {} entries is damaged", size));
    tree.append_subtree(level, *root);
  }
  return tree;
}

bool still_there(const TreeState& state, BookReader& reader) {
  return state.size() == 0 || reader.leaf_hash(state.size() - 1) == state.last_hash;
}

std::int64_t received_of(BookReader& reader, std::int64_t seq, std::string_view origin) {
  const auto entry = read_entry(reader.leaf(seq).value_or(""), origin);
  if (!entry) damaged(fmt::format("entry {} is damaged: {}", seq, entry.error().message));
  return entry->received_ms;
}

void append_hashes(CompactRange& tree, BookReader& reader, std::int64_t size) {
  for (auto seq = static_cast<std::int64_t>(tree.size()); seq < size; ++seq) {
    const auto hash = reader.leaf_hash(seq);
    if (!hash) damaged(fmt::format("entry {} is missing", seq));
    tree.append(*hash);
  }
}

}  // namespace

BookReader::BookReader(const sqlite::Connection& connection)
    : size_(connection.prepare("SELECT coalesce(max(seq) + 1, 0) FROM entry")),
      leaf_(connection.prepare("SELECT leaf FROM entry WHERE seq = ?1")),
      leaf_hash_(connection.prepare("SELECT hash FROM entry WHERE seq = ?1")),
      find_(connection.prepare("SELECT seq FROM entry WHERE id = ?1")),
      largest_id_(connection.prepare("SELECT max(id) FROM entry")),
      leaf_hashes_(connection.prepare("SELECT hash FROM entry WHERE seq >= ?1 AND seq < ?2 ORDER BY seq")),
      node_hashes_(
          connection.prepare("SELECT hash FROM node WHERE level = ?3 AND position >= ?1 AND position < ?2 "
                             "ORDER BY position")) {}

std::int64_t BookReader::size() {
  Rows rows = size_.rows();
  return rows.next() ? rows.integer(0) : 0;
}

std::optional<std::string> BookReader::leaf(std::int64_t seq) {
  Rows rows = leaf_.rows(seq);
  if (!rows.next()) return std::nullopt;
  return std::string(rows.blob(0));
}

std::optional<Hash> BookReader::leaf_hash(std::int64_t seq) {
  Rows rows = leaf_hash_.rows(seq);
  if (!rows.next()) return std::nullopt;
  const auto hash = read_hash(rows.blob(0));
  return hash ? std::optional(*hash) : std::nullopt;
}

std::optional<std::int64_t> BookReader::find(const Uuid& id) {
  Rows rows = find_.rows(Blob{as_bytes(id.bytes)});
  if (!rows.next()) return std::nullopt;
  return rows.integer(0);
}

std::optional<Uuid> BookReader::largest_id() {
  Rows rows = largest_id_.rows();
  Uuid id;
  if (!rows.next() || rows.blob(0).size() != id.bytes.size()) return std::nullopt;
  std::copy_n(rows.blob(0).begin(), id.bytes.size(), id.bytes.begin());
  return id;
}

std::optional<Hash> BookReader::node(NodeId id) {
  const unsigned below = id.level % kept_level_step;
  const unsigned kept = id.level - below;
  if (id.level > 62 || id.index > std::uint64_t{1} << (62 - id.level)) return std::nullopt;
  const auto begin = static_cast<std::int64_t>(id.index << below);
  const auto end = static_cast<std::int64_t>((id.index + 1) << below);
  Rows rows = kept == 0 ? leaf_hashes_.rows(begin, end) : node_hashes_.rows(begin, end, std::int64_t{kept});
  CompactRange part;
  while (rows.next()) {
    const auto hash = read_hash(rows.blob(0));
    if (!hash) return std::nullopt;
    part.append(*hash);
  }
  if (part.size() != std::uint64_t{1} << below) return std::nullopt;
  return part.root();
}

BookWriter::BookWriter(const sqlite::Connection& connection)
    : entry_(connection.prepare("INSERT INTO entry(seq, id, hash, leaf) VALUES(?1, ?2, ?3, ?4)")),
      node_(connection.prepare("INSERT INTO node(level, position, hash) VALUES(?1, ?2, ?3)")) {}

void BookWriter::add_entry(const Entry& entry, const Hash& hash, std::string_view leaf) {
  entry_.run(entry.seq, Blob{as_bytes(entry.id.bytes)}, Blob{as_bytes(hash)}, Blob{leaf});
}

void BookWriter::add_node(const TreeNode& node) {
  if (node.id.level == 0 || node.id.level % kept_level_step != 0) return;
  node_.run(std::int64_t{node.id.level}, static_cast<std::int64_t>(node.id.index), Blob{as_bytes(node.hash)});
}

bool catch_up(TreeState& state, BookReader& reader, std::string_view origin) {
  const std::int64_t size = reader.size();
  const bool known = size >= state.size() && still_there(state, reader);
  if (known && size == state.size()) return true;
  if (known && size - state.size() <= most_to_append) {
    append_hashes(state.tree, reader, size);
  } else {
    state.tree = tree_of(reader, static_cast<std::uint64_t>(size));
  }
  state.last_hash = size > 0 ? reader.leaf_hash(size - 1).value_or(Hash{}) : Hash{};
  state.last_received_ms = size > 0 ? received_of(reader, size - 1, origin) : 0;
  return known;
}

}  // namespace fogwright
