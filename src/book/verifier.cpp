// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/verifier.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <thread>

#include "fogwright/book/encoding.hpp"
#include "fogwright/book/entry.hpp"

namespace fogwright {
namespace {

// Subtrees of 256 leaves are hashed to their root by one thread, so that the threads share the interior
// nodes as well as the leaves.
constexpr unsigned piece_level = 8;
constexpr std::uint64_t piece_size = 1U << piece_level;

// Turns the leaf hashes of a complete subtree into its root, in place.
Hash reduce(std::span<Hash> hashes) {
  for (std::size_t count = hashes.size(); count > 1; count /= 2) {
    for (std::size_t i = 0; i < count / 2; ++i) hashes[i] = hash_node(hashes[2 * i], hashes[2 * i + 1]);
  }
  return hashes.front();
}

std::string entry_name(std::uint64_t seq) { return fmt::format("entry {}", seq); }

}  // namespace

PieceRunner on_threads(unsigned threads) {
  return [threads](std::size_t count, const std::function<void(std::size_t)>& work) {
    std::atomic<std::size_t> next = 0;
    const auto take = [&] {
      for (std::size_t i = next++; i < count; i = next++) work(i);
    };
    std::vector<std::thread> helpers;
    while (helpers.size() + 1 < std::min<std::size_t>(threads, count)) helpers.emplace_back(take);
    take();
    for (std::thread& helper : helpers) helper.join();
  };
}

HashedLeaves::HashedLeaves(const BookVerifier& verifier, std::uint64_t first)
    : verifier_(&verifier), first_(first), next_(first), end_of_piece_(verifier.end_of_piece(first)) {
  open_.hashes.reserve(piece_size);
}

void HashedLeaves::add(const StoredLeaf& leaf) {
  if (next_ == end_of_piece_) end_piece();
  const Hash hash = hash_leaf(leaf.bytes);
  if (std::string fault = verifier_->fault_of(next_, leaf, hash); !fault.empty())
    open_.faults.emplace_back(next_, std::move(fault));
  open_.hashes.push_back(hash);
  ++next_;
}

void HashedLeaves::end_piece() {
  open_.reduced = open_.hashes.size() == piece_size;
  if (open_.reduced) open_.hashes.front() = reduce(open_.hashes);
  const auto kept = open_.reduced ? std::ptrdiff_t{1} : static_cast<std::ptrdiff_t>(open_.hashes.size());
  ended_.push_back(
      {{open_.hashes.begin(), open_.hashes.begin() + kept}, open_.reduced, std::move(open_.faults)});
  open_.hashes.clear();
  open_.faults.clear();
  end_of_piece_ = verifier_->end_of_piece(next_);
}

BookVerifier::BookVerifier(std::string origin, VerifyOptions options)
    : origin_(std::move(origin)), options_(std::move(options)) {}

void BookVerifier::expect(const Checkpoint& checkpoint) {
  expected_.emplace(checkpoint.size, checkpoint);
  compare_expected();
}

void BookVerifier::feed(std::span<const StoredLeaf> leaves) {
  std::vector<std::pair<HashedLeaves, std::span<const StoredLeaf>>> parts;
  for (std::uint64_t seq = tree_.size(); !leaves.empty();) {
    const auto count = std::min<std::size_t>(piece_size - seq % piece_size, leaves.size());
    parts.emplace_back(hashes_from(seq), leaves.first(count));
    leaves = leaves.subspan(count);
    seq += count;
  }
  options_.run(parts.size(), [&](std::size_t i) {
    for (const StoredLeaf& leaf : parts[i].second) parts[i].first.add(leaf);
  });
  for (auto& [part, given] : parts) feed(std::move(part));
}

HashedLeaves BookVerifier::hashes_from(std::uint64_t seq) const { return {*this, seq}; }

void BookVerifier::feed(HashedLeaves part) {
  part.end_piece();
  for (std::size_t i = 0; i < part.ended_.size(); ++i) append(part, i);
}

// Where the subtree of piece_size ends, or before it an expected checkpoint lies.
std::uint64_t BookVerifier::end_of_piece(std::uint64_t seq) const {
  const std::uint64_t end = (seq / piece_size + 1) * piece_size;
  const auto next = expected_.upper_bound(seq);
  return next == expected_.end() ? end : std::min(end, next->first);
}

std::string BookVerifier::fault_of(std::uint64_t seq, const StoredLeaf& leaf, const Hash& hash) const {
  if (leaf.hash != nullptr && *leaf.hash != hash) return "its bytes do not match the hash stored beside them";
  if (!claims_seq(leaf.bytes, seq)) return "its sequence number is not that of its place";
  if (leaf.bytes.size() > most_leaf_bytes) return "it has more than 65,535 bytes";
  if (!options_.deep) return {};
  const auto entry = read_entry(leaf.bytes, origin_);
  if (entry) return {};
  const Error& error = entry.error();
  return error.where.empty() ? error.message : fmt::format("{}: {}", error.where, error.message);
}

void BookVerifier::append(const HashedLeaves& part, std::size_t piece) {
  const HashedLeaves::Piece& ended = part.ended_[piece];
  for (const auto& [seq, message] : ended.faults)
    add_fault(message, entry_name(seq), "restore the book from a backup and compare this entry");
  if (ended.reduced) {
    tree_.append_subtree(piece_level, ended.hashes.front());
  } else {
    for (const Hash& hash : ended.hashes) tree_.append(hash);
  }
  compare_expected();
}

void BookVerifier::compare_expected() {
  const auto [begin, end] = expected_.equal_range(tree_.size());
  for (auto at = begin; at != end; ++at) {
    if (at->second.origin == origin_ && at->second.root == tree_.root()) {
      agreed_ = tree_.size();
      continue;
    }
    add_fault(fmt::format("the entries from {} to {} are not those that the checkpoint of size {} was made of",
                          agreed_, tree_.size(), tree_.size()),
              fmt::format("checkpoint {}", tree_.size()),
              "an entry was changed, added or taken away after the checkpoint was made");
  }
  expected_.erase(begin, end);
}

VerifySummary BookVerifier::finish() {
  for (const auto& [size, checkpoint] : expected_) {
    add_fault(fmt::format("the book has {} entries, a checkpoint was made of {}", tree_.size(), size),
              fmt::format("checkpoint {}", size), "entries were taken away from the end of the book");
  }
  expected_.clear();
  found_.size = tree_.size();
  found_.root = tree_.root();
  return found_;
}

void BookVerifier::add_fault(std::string message, std::string where, std::string hint) {
  ++found_.fault_count;
  if (found_.faults.size() == options_.most_faults) return;
  found_.faults.push_back({ErrorCode::bad_book, std::move(message), std::move(where), std::move(hint)});
}

}  // namespace fogwright
