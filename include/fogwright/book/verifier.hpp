// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/book/checkpoint.hpp"
#include "fogwright/book/merkle.hpp"

namespace fogwright {

/// Runs work(0) to work(count - 1), each once, in any order and on any threads, and returns when all are done.
using PieceRunner = std::function<void(std::size_t count, const std::function<void(std::size_t)>& work)>;

/// Spreads the work over this many threads, the calling one included; 1 runs it in order.
[[nodiscard]] PieceRunner on_threads(unsigned threads);

/// How a book is verified.
struct VerifyOptions {
  /// Also read every entry and check that its bytes are its canonical form. Without it an entry's bytes are
  /// hashed and only its sequence number is looked at, which finds every change of a byte just as well:
  /// this is for finding entries that a faulty program wrote. Several times slower.
  bool deep = false;
  /// Takes pieces of 256 entries.
  PieceRunner run = on_threads(1);
  /// How many faults are kept; the rest are only counted.
  std::size_t most_faults = 100;
};

/// One entry as a store holds it. What it points to must last until feed returns.
struct StoredLeaf {
  std::string_view bytes;
  const Hash* hash = nullptr;  ///< the leaf hash that is stored beside the bytes, if there is one
};

/// What a verification found.
struct VerifySummary {
  std::uint64_t size = 0;
  Hash root{};
  std::uint64_t fault_count = 0;
  Faults faults;  ///< the first of them, in the order of the book; `where` is "entry N"

  [[nodiscard]] bool ok() const noexcept { return fault_count == 0; }
};

class BookVerifier;

/// Some entries in a row, hashed by one thread, for a BookVerifier that must outlive it.
class HashedLeaves {
 public:
  /// The next entry. Its bytes are done with when this returns.
  void add(const StoredLeaf& leaf);

 private:
  friend class BookVerifier;
  HashedLeaves(const BookVerifier& verifier, std::uint64_t first);
  void end_piece();

  /// Leaves of one subtree that no expected checkpoint cuts: their hashes, or the root if they are all of it.
  struct Piece {
    std::vector<Hash> hashes;
    bool reduced = false;
    std::vector<std::pair<std::uint64_t, std::string>> faults{};
  };

  const BookVerifier* verifier_;
  std::uint64_t first_, next_, end_of_piece_;
  Piece open_;
  std::vector<Piece> ended_;
};

/// Goes through a book from its first entry and rebuilds its tree. Memory does not grow with the book. That
/// ids do not repeat is for the store to see.
class BookVerifier {
 public:
  explicit BookVerifier(std::string origin, VerifyOptions options = {});

  /// Demands that the tree had this root at this size: a checkpoint that was opened, of any age. Precondition:
  /// no entry at or beyond `size` was fed yet.
  void expect(const Checkpoint& checkpoint);

  /// The next entries in order. Large pieces (several thousand) keep all threads busy.
  void feed(std::span<const StoredLeaf> leaves);

  /// For those who read and hash pieces of the book on threads of their own: what feed takes later. May be
  /// called on any thread while no entries are fed.
  [[nodiscard]] HashedLeaves hashes_from(std::uint64_t seq) const;
  /// The next entries, hashed. Precondition: they begin where those fed so far end.
  void feed(HashedLeaves part);

  /// Size, root and faults. Adds a fault for each expected checkpoint that lies beyond the last entry.
  [[nodiscard]] VerifySummary finish();

 private:
  friend class HashedLeaves;

  void append(const HashedLeaves& part, std::size_t piece);
  [[nodiscard]] std::uint64_t end_of_piece(std::uint64_t seq) const;
  [[nodiscard]] std::string fault_of(std::uint64_t seq, const StoredLeaf& leaf, const Hash& hash) const;
  void compare_expected();
  void add_fault(std::string message, std::string where, std::string hint);

  std::string origin_;
  VerifyOptions options_;
  CompactRange tree_;
  std::multimap<std::uint64_t, Checkpoint> expected_;  // those not reached yet, by size
  std::uint64_t agreed_ = 0;                           // size of the last expected checkpoint that held
  VerifySummary found_;
};

}  // namespace fogwright
