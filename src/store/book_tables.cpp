// SPDX-License-Identifier: Apache-2.0
#include "store/book_tables.hpp"

#include "fogwright/book/encoding.hpp"

namespace fogwright {

std::optional<std::vector<Hash>> BookTables::hashes(unsigned level, std::int64_t begin, std::int64_t end) {
  std::vector<Hash> all;
  bool sound = true;
  each_hash(level, begin, end, [&](std::string_view bytes) {
    const auto hash = read_hash(bytes);
    if (hash)
      all.push_back(*hash);
    else
      sound = false;
  });
  if (!sound || static_cast<std::int64_t>(all.size()) != end - begin) return std::nullopt;
  return all;
}

std::optional<Hash> BookTables::leaf_hash(std::int64_t seq) {
  const auto found = hashes(0, seq, seq + 1);
  return found ? std::optional(found->front()) : std::nullopt;
}

std::optional<Hash> BookTables::node(NodeId id) {
  if (id.level > 62 || id.index > std::uint64_t{1} << (62 - id.level)) return std::nullopt;
  const unsigned below = id.level % kept_level_step;
  const auto parts = hashes(id.level - below, static_cast<std::int64_t>(id.index << below),
                            static_cast<std::int64_t>((id.index + 1) << below));
  if (!parts) return std::nullopt;
  CompactRange part;
  for (const Hash& hash : *parts) part.append(hash);
  return part.root();
}

void BookTables::add_node(const TreeNode& node) {
  if (node.id.level == 0 || node.id.level % kept_level_step != 0) return;
  add_kept_node(std::int64_t{node.id.level}, static_cast<std::int64_t>(node.id.index), node.hash);
}

}  // namespace fogwright
