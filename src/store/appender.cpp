// SPDX-License-Identifier: Apache-2.0
#include "store/appender.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <future>

namespace fogwright {
namespace {

constexpr std::size_t piece_size = 128;

Error which_of(std::size_t count, std::size_t index, Error error) {
  if (count > 1) error.where = fmt::format("{} of entry {} of {}", error.where, index + 1, count);
  return error;
}

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

void Appender::encode(Made& made) const {
  made.leaf = leaf_bytes(made.entry, place_.origin);
  if (made.leaf) made.hash = hash_leaf(*made.leaf);
}

void Appender::encode(std::span<Made> made, std::int64_t first_seq) const {
  for (Made& one : made) {
    one.entry.seq = first_seq++;
    one.entry.received_ms = received_ms_;
    encode(one);
  }
}

// While one piece is written the next is encoded by another thread, for the numbers that it gets unless some of
// its entries are there already.
Result<void> Appender::add(std::vector<NewEntry> given) {
  std::vector<Made> all;
  all.reserve(given.size());
  for (NewEntry& one : given) all.push_back({entry_of(std::move(one)), std::string()});
  const auto piece = [&](std::size_t begin) {
    const std::span<Made> rest = std::span(all).subspan(std::min(begin, all.size()));
    return rest.first(std::min(rest.size(), piece_size));
  };
  encode(piece(0), state_.size());
  for (std::size_t begin = 0; begin < all.size(); begin += piece_size) {
    const std::span<Made> now = piece(begin), next = piece(begin + piece_size);
    const std::int64_t next_seq = state_.size() + static_cast<std::int64_t>(now.size());
    std::future<void> encoding;
    if (!next.empty()) encoding = std::async(std::launch::async, [=, this] { encode(next, next_seq); });
    look_up(now);
    for (std::size_t i = 0; i < now.size(); ++i) {
      const auto added = add_one(now[i]);
      if (!added) return tl::make_unexpected(which_of(all.size(), begin + i, added.error()));
    }
  }
  return {};
}

Result<bool> Appender::add_copy(Entry entry, std::string_view leaf) {
  const std::int64_t seq = entry.seq;
  if (seq < state_.size()) {
    if (place_.tables.leaf(seq) == leaf) return false;
    return fail(ErrorCode::bad_entry, fmt::format("entry {} is another one than the book's own", seq), "seq",
                "the two copies have parted: verify both against a checkpoint held elsewhere");
  }
  if (seq > state_.size())
    return fail(ErrorCode::bad_entry, fmt::format("entry {} comes next, not {}", state_.size(), seq), "seq",
                "export the other copy whole, in order");
  if (find(entry.id))
    return fail(ErrorCode::bad_entry,
                fmt::format("the id {} is taken by an earlier entry", uuid_text(entry.id)), "id",
                "verify the copy that this export came from");
  received_ms_ = entry.received_ms;
  Made made{std::move(entry), std::string(leaf), hash_leaf(leaf)};
  if (auto added = add_new(made); !added) return tl::make_unexpected(added.error());
  return true;
}

std::optional<std::int64_t> Appender::find(const Uuid& id) {
  if (!largest_id_ || id > *largest_id_) return std::nullopt;
  return place_.tables.find(id);
}

// Only those that may be there.
void Appender::look_up(std::span<const Made> made) {
  std::vector<Uuid> ids;
  for (const Made& one : made)
    if (largest_id_ && one.entry.id <= *largest_id_) ids.push_back(one.entry.id);
  place_.tables.look_up(ids);
}

Result<void> Appender::add_one(Made& made) {
  const auto there = find(made.entry.id);
  return there ? add_again(made.entry, *there) : add_new(made);
}

// Only the place and the time of receipt may differ from what is stored.
Result<void> Appender::add_again(Entry& entry, std::int64_t seq) {
  const std::string leaf = place_.tables.leaf(seq).value_or("");
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

Result<void> Appender::add_new(Made& made) {
  if (made.entry.seq != state_.size()) {
    made.entry.seq = state_.size();
    encode(made);
  }
  if (!made.leaf) return tl::make_unexpected(made.leaf.error());
  nodes_.clear();
  state_.tree.append(made.hash, nodes_);
  place_.tables.add_entry(made.entry, made.hash, *made.leaf);
  for (const TreeNode& node : nodes_) place_.tables.add_node(node);
  place_.fold(made.entry, place_.tables.documents());
  if (!largest_id_ || made.entry.id > *largest_id_) largest_id_ = made.entry.id;
  state_.last_hash = made.hash;
  state_.last_received_ms = received_ms_;
  wrote_ = true;
  receipts_.push_back({made.entry.seq, made.entry.id, false});
  return {};
}

}  // namespace fogwright
