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
Hash reduce(std::span<Hash> hashes, Sha256& hasher) {
  for (std::size_t count = hashes.size(); count > 1; count /= 2) {
    for (std::size_t i = 0; i < count / 2; ++i) hashes[i] = hasher.node(hashes[2 * i], hashes[2 * i + 1]);
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

struct BookVerifier::Piece {
  std::uint64_t seq;  // of its first leaf
  std::size_t begin;  // of its leaves in the span that was fed
  std::size_t count;
  bool reduced;  // its first hash is the root of all of it
  std::vector<std::pair<std::uint64_t, std::string>> faults{};
};

BookVerifier::BookVerifier(std::string origin, VerifyOptions options)
    : origin_(std::move(origin)), options_(std::move(options)) {}

void BookVerifier::expect(const Checkpoint& checkpoint) {
  expected_.emplace(checkpoint.size, checkpoint);
  compare_expected();
}

void BookVerifier::feed(std::span<const StoredLeaf> leaves) {
  std::vector<Hash> hashes(leaves.size());
  std::vector<Piece> pieces = cut(leaves.size());
  options_.run(pieces.size(), [&](std::size_t i) { hash_piece(pieces[i], leaves, hashes); });
  for (const Piece& piece : pieces) {
    for (const auto& [seq, message] : piece.faults) {
      add_fault(message, entry_name(seq), "restore the book from a backup and compare this entry");
    }
    append(piece, std::span(hashes).subspan(piece.begin, piece.count));
  }
}

// Cuts where a subtree of piece_size ends and where an expected checkpoint lies.
std::vector<BookVerifier::Piece> BookVerifier::cut(std::size_t count) const {
  std::vector<Piece> pieces;
  for (std::size_t begin = 0; begin < count;) {
    const std::uint64_t seq = tree_.size() + begin;
    std::uint64_t end = std::min((seq / piece_size + 1) * piece_size, tree_.size() + count);
    if (const auto next = expected_.upper_bound(seq); next != expected_.end()) end = std::min(end, next->first);
    const auto length = static_cast<std::size_t>(end - seq);
    pieces.push_back({seq, begin, length, length == piece_size});
    begin += length;
  }
  return pieces;
}

void BookVerifier::hash_piece(Piece& piece, std::span<const StoredLeaf> leaves, std::span<Hash> hashes) const {
  Sha256 hasher;  // one a piece, so that pieces may run on any thread
  for (std::size_t i = 0; i < piece.count; ++i) {
    const StoredLeaf& leaf = leaves[piece.begin + i];
    Hash& hash = hashes[piece.begin + i];
    hash = hasher.leaf(leaf.bytes);
    if (std::string fault = fault_of(piece.seq + i, leaf, hash); !fault.empty()) {
      piece.faults.emplace_back(piece.seq + i, std::move(fault));
    }
  }
  if (piece.reduced) reduce(hashes.subspan(piece.begin, piece.count), hasher);
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

void BookVerifier::append(const Piece& piece, std::span<const Hash> hashes) {
  if (piece.reduced) {
    tree_.append_subtree(piece_level, hashes.front());
  } else {
    for (const Hash& hash : hashes) tree_.append(hash);
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
