// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/book/sha256.hpp"

/// The Merkle tree of RFC 9162 section 2.1 over SHA-256. Trees have fewer than 2^63 leaves.
namespace fogwright {

/// A complete subtree: the one of 2^level leaves that starts at leaf index * 2^level. Level 0 is a leaf.
struct NodeId {
  unsigned level = 0;
  std::uint64_t index = 0;

  friend bool operator==(const NodeId&, const NodeId&) = default;
};

/// A node that an append completes. It never changes afterwards, so a store may keep it for good.
struct TreeNode {
  NodeId id;
  Hash hash{};

  friend bool operator==(const TreeNode&, const TreeNode&) = default;
};

/// The root of the tree without leaves: SHA-256 of nothing.
[[nodiscard]] Hash empty_root();

/// All that has to be known about a tree to append to it: the roots of the complete subtrees that cover it,
/// largest first. At most 63 hashes, whatever the size.
class CompactRange {
 public:
  CompactRange() = default;

  /// A tree of this size from what bytes() gave. Refuses bytes whose count does not fit the size (bad_book).
  [[nodiscard]] static Result<CompactRange> restore(std::uint64_t size, std::string_view bytes);

  [[nodiscard]] std::uint64_t size() const noexcept { return size_; }
  [[nodiscard]] const std::vector<Hash>& hashes() const noexcept { return hashes_; }

  /// The hashes one after the other, to be stored beside the size.
  [[nodiscard]] std::string bytes() const;

  /// The root of the tree as it stands.
  [[nodiscard]] Hash root() const;

  /// Appends one leaf hash.
  void append(const Hash& leaf) { append_subtree(0, leaf, nullptr); }

  /// Appends one leaf hash and adds each node that it completes to `made`, the leaf first.
  void append(const Hash& leaf, std::vector<TreeNode>& made) { append_subtree(0, leaf, &made); }

  /// Appends the root of 2^level leaves. Precondition: the size is a multiple of 2^level.
  void append_subtree(unsigned level, const Hash& root) { append_subtree(level, root, nullptr); }

 private:
  void append_subtree(unsigned level, Hash hash, std::vector<TreeNode>* made);

  std::uint64_t size_ = 0;
  std::vector<Hash> hashes_;
};

/// Gives the stored hash of a complete subtree.
using NodeSource = std::function<Result<Hash>(NodeId)>;

/// The root of the first `size` leaves. Errors are those of the source.
[[nodiscard]] Result<Hash> root_from(const NodeSource& nodes, std::uint64_t size);

/// Sibling hashes from the leaf up (RFC 9162 section 2.1.3.1). Needs index < size (out_of_range).
[[nodiscard]] Result<std::vector<Hash>> inclusion_proof(const NodeSource& nodes, std::uint64_t index,
                                                        std::uint64_t size);

/// Shows that the tree of old_size is the beginning of that of new_size (RFC 9162 section 2.1.4.1). Needs
/// 0 < old_size <= new_size (out_of_range); empty if the sizes are equal.
[[nodiscard]] Result<std::vector<Hash>> consistency_proof(const NodeSource& nodes, std::uint64_t old_size,
                                                          std::uint64_t new_size);

/// RFC 9162 section 2.1.3.2.
[[nodiscard]] bool verify_inclusion(std::uint64_t index, std::uint64_t size, const Hash& leaf,
                                    std::span<const Hash> proof, const Hash& root);

/// RFC 9162 section 2.1.4.2. Where the RFC is silent: equal sizes above 0 need equal roots and an empty
/// proof; an old size of 0 is refused, since nothing is shown by it.
[[nodiscard]] bool verify_consistency(std::uint64_t old_size, const Hash& old_root, std::uint64_t new_size,
                                      const Hash& new_root, std::span<const Hash> proof);

}  // namespace fogwright
