// SPDX-License-Identifier: Apache-2.0
#include "store/tree_state.hpp"

#include <fmt/format.h>

#include <bit>

namespace fogwright {
namespace {

// Beyond this it is quicker to put the tree together from its nodes.
constexpr std::int64_t most_to_append = 1024;

[[noreturn]] void damaged(const std::string& what) {
  throw StorageFault(ErrorCode::bad_book, what, "verify the book; restore it from a backup");
}

CompactRange tree_of(BookTables& tables, std::uint64_t size) {
  CompactRange tree;
  for (unsigned level = static_cast<unsigned>(std::bit_width(size)); level-- > 0;) {
    if ((size >> level & 1) == 0) continue;
    const auto root = tables.node({level, tree.size() >> level});
    if (!root) damaged(fmt::format("the tree over the first {} entries is damaged", size));
    tree.append_subtree(level, *root);
  }
  return tree;
}

void append_hashes(CompactRange& tree, BookTables& tables, std::int64_t size) {
  const auto added = tables.hashes(0, static_cast<std::int64_t>(tree.size()), size);
  if (!added) damaged(fmt::format("one of the entries {} to {} is missing", tree.size(), size - 1));
  for (const Hash& hash : *added) tree.append(hash);
}

bool still_there(const TreeState& state, BookTables& tables, const BookTables::Tail& tail) {
  if (state.size() == 0) return true;
  if (tail.seq < state.size() - 1) return false;
  if (tail.seq == state.size() - 1) return tail.hash == state.last_hash;
  return tables.leaf_hash(state.size() - 1) == state.last_hash;
}

}  // namespace

Entry sound_entry(std::int64_t seq, std::string_view leaf, std::string_view origin) {
  auto entry = read_entry(leaf, origin);
  if (!entry) damaged(fmt::format("entry {} is damaged: {}", seq, entry.error().message));
  return std::move(*entry);
}

bool catch_up(TreeState& state, BookTables& tables, std::string_view origin) {
  const BookTables::Tail tail = tables.tail();
  const std::int64_t size = tail.seq + 1;
  const bool known = still_there(state, tables, tail);
  if (known && size == state.size()) return true;
  if (known && size - state.size() <= most_to_append) {
    append_hashes(state.tree, tables, size);
  } else {
    state.tree = tree_of(tables, static_cast<std::uint64_t>(size));
  }
  state.last_hash = tail.hash;
  state.largest_id = tables.largest_id();
  state.last_received_ms =
      size > 0 ? sound_entry(tail.seq, tables.leaf(tail.seq).value_or(""), origin).received_ms : 0;
  return known;
}

}  // namespace fogwright
