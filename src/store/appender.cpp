// SPDX-License-Identifier: Apache-2.0
#include "store/appender.hpp"

#include <fmt/format.h>

namespace fogwright {
namespace {

Entry entry_of(NewEntry&& given) {
  return {0,
          given.id,
          given.happened_ms,
          0,
          std::move(given.actor),
          std::move(given.device),
          std::move(given.kind),
          std::move(given.body),
          given.corrects,
          std::move(given.reason)};
}

}  // namespace

Result<void> Appender::add(NewEntry given) {
  const auto there = place_.reader.find(given.id);
  Entry entry = entry_of(std::move(given));
  return there ? add_again(std::move(entry), *there) : add_new(std::move(entry));
}

// Only the place and the time of receipt may differ from what is stored.
Result<void> Appender::add_again(Entry entry, std::int64_t seq) {
  const std::string leaf = place_.reader.leaf(seq).value_or("");
  const auto stored = read_entry(leaf, place_.origin);
  if (!stored) return tl::make_unexpected(stored.error());
  entry.seq = stored->seq;
  entry.received_ms = stored->received_ms;
  const auto again = leaf_bytes(entry, place_.origin);
  if (!again) return tl::make_unexpected(again.error());
  if (*again != leaf) {
    return fail(
        ErrorCode::bad_entry,
        fmt::format("the id {} belongs to entry {}, which says something else", uuid_text(entry.id), seq), "id",
        "give each entry an id of its own; correct an entry with a new one");
  }
  receipts_.push_back({seq, entry.id, true});
  return {};
}

Result<void> Appender::add_new(Entry entry) {
  entry.seq = state_.size();
  entry.received_ms = received_ms_;
  const auto leaf = leaf_bytes(entry, place_.origin);
  if (!leaf) return tl::make_unexpected(leaf.error());
  const Hash hash = hash_leaf(*leaf);
  std::vector<TreeNode> made;
  state_.tree.append(hash, made);
  place_.writer.add_entry(entry, hash, *leaf);
  for (const TreeNode& node : made) place_.writer.add_node(node);
  place_.fold(entry, place_.documents);
  state_.last_hash = hash;
  state_.last_received_ms = received_ms_;
  wrote_ = true;
  receipts_.push_back({entry.seq, entry.id, false});
  return {};
}

}  // namespace fogwright
