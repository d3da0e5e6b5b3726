// SPDX-License-Identifier: Apache-2.0
#include "store/appender.hpp"

#include <fmt/format.h>

#include <atomic>
#include <functional>
#include <optional>
#include <thread>

namespace fogwright {
namespace {

/// Fewer are not worth a thread.
constexpr std::size_t worth_a_thread = 32;

/// Calls `encode` for each index in order: on a thread of its own, ahead of who asks for them, and by who asks
/// for what that thread has not begun, since on a busy machine a thread may not run for milliseconds.
class Encoding {
 public:
  Encoding(std::size_t count, std::function<void(std::size_t index)> encode)
      : states_(count), encode_(std::move(encode)) {
    if (count >= worth_a_thread) thread_ = std::thread([this] { run(); });
  }
  Encoding(const Encoding&) = delete;
  Encoding& operator=(const Encoding&) = delete;
  ~Encoding() {
    next_ = states_.size();
    if (thread_.joinable()) thread_.join();
  }

  /// Until this one is encoded. Throws what encoding throws.
  void require(std::size_t index) {
    while (next_ <= index) {
      const std::size_t taken = next_++;
      if (taken < states_.size()) encode_(taken), tell(taken, done);
    }
    states_[index].wait(waiting);
    if (states_[index] == failed) encode_(index);  // once more, where a fault can be thrown
  }

 private:
  enum State : int { waiting, done, failed };

  void run() noexcept {
    for (std::size_t taken = next_++; taken < states_.size(); taken = next_++) {
      try {
        encode_(taken);
        tell(taken, done);
      } catch (...) {
        tell(taken, failed);
      }
    }
  }
  void tell(std::size_t index, State state) {
    states_[index] = state;
    states_[index].notify_one();
  }

  std::vector<std::atomic<int>> states_;
  std::atomic<std::size_t> next_ = 0;  // all before it are encoded or being encoded
  std::function<void(std::size_t)> encode_;
  std::thread thread_;
};

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

// While entries are written those after them are encoded by another thread, for the numbers that they get
// unless some before them are there already.
Result<void> Appender::add(std::vector<NewEntry> given) {
  std::vector<Made> all;
  all.reserve(given.size());
  for (NewEntry& one : given) all.push_back({entry_of(std::move(one)), std::string()});
  const auto encode_at = [this, &all, first_seq = state_.size()](std::size_t index) {
    all[index].entry.seq = first_seq + static_cast<std::int64_t>(index);
    all[index].entry.received_ms = received_ms_;
    encode(all[index]);
  };
  Encoding encoding(all.size(), encode_at);
  look_up(all);
  for (std::size_t i = 0; i < all.size(); ++i) {
    encoding.require(i);
    const auto added = add_one(all[i]);
    if (!added) return tl::make_unexpected(which_of(all.size(), i, added.error()));
  }
  return {};
}

Result<bool> Appender::add_copy(Entry entry, std::string leaf, const Hash& hash) {
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
  Made made{std::move(entry), std::move(leaf), hash};
  if (auto added = add_new(made); !added) return tl::make_unexpected(added.error());
  return true;
}

std::optional<std::int64_t> Appender::find(const Uuid& id) {
  if (!state_.may_have(id)) return std::nullopt;
  return place_.tables.find(id);
}

// Only those that find() will ask for: an id that is larger than all before it is new.
void Appender::look_up(std::span<const Made> made) {
  std::vector<Uuid> ids;
  std::optional<Uuid> largest = state_.largest_id;
  for (const Made& one : made) {
    if (largest && one.entry.id <= *largest)
      ids.push_back(one.entry.id);
    else
      largest = one.entry.id;
  }
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
  place_.tables.add_entry(made.entry, made.hash, std::move(*made.leaf));
  for (const TreeNode& node : nodes_) place_.tables.add_node(node);
  place_.fold(made.entry, place_.tables.documents());
  if (!state_.may_have(made.entry.id)) state_.largest_id = made.entry.id;
  state_.last_hash = made.hash;
  state_.last_received_ms = received_ms_;
  wrote_ = true;
  receipts_.push_back({made.entry.seq, made.entry.id, false});
  return {};
}

}  // namespace fogwright
