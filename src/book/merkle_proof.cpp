// SPDX-License-Identifier: Apache-2.0
#include <bit>

#include "fogwright/book/merkle.hpp"

namespace fogwright {
namespace {

using Proof = std::vector<Hash>;

// Leaves [begin, begin + count) of the tree; begin is a multiple of the largest power of two <= count.
struct Range {
  std::uint64_t begin;
  std::uint64_t count;

  [[nodiscard]] std::uint64_t split() const { return std::bit_floor(count - 1); }
  [[nodiscard]] Range left() const { return {begin, split()}; }
  [[nodiscard]] Range right() const { return {begin + split(), count - split()}; }
};

Result<Hash> range_root(const NodeSource& nodes, Range range) {
  if (std::has_single_bit(range.count)) {
    const auto level = static_cast<unsigned>(std::countr_zero(range.count));
    return nodes({level, range.begin >> level});
  }
  auto left = range_root(nodes, range.left());
  if (!left) return left;
  return range_root(nodes, range.right()).map([&](const Hash& right) { return hash_node(*left, right); });
}

Result<Proof> with(Result<Proof> proof, Result<Hash> last) {
  if (proof && !last) return tl::make_unexpected(last.error());
  if (proof) proof->push_back(*last);
  return proof;
}

// PATH of the RFC; `index` counts from the start of the tree.
Result<Proof> path(const NodeSource& nodes, std::uint64_t index, Range range) {
  if (range.count == 1) return Proof{};
  const bool in_left = index < range.right().begin;
  const Range near = in_left ? range.left() : range.right();
  const Range far = in_left ? range.right() : range.left();
  auto below = path(nodes, index, near);
  if (!below) return below;
  return with(std::move(below), range_root(nodes, far));
}

// SUBPROOF of the RFC; `old_size` counts from the start of the tree. `known`: the verifier has this root.
Result<Proof> subproof(const NodeSource& nodes, std::uint64_t old_size, Range range, bool known) {
  if (old_size == range.begin + range.count) {
    return known ? Result<Proof>(Proof{}) : with(Proof{}, range_root(nodes, range));
  }
  const bool in_left = old_size <= range.right().begin;
  auto below = in_left ? subproof(nodes, old_size, range.left(), known)
                       : subproof(nodes, old_size, range.right(), false);
  if (!below) return below;
  return with(std::move(below), range_root(nodes, in_left ? range.right() : range.left()));
}

bool odd(std::uint64_t n) { return n % 2 == 1; }

// The verifier's walk up the tree: `node` counts from the left on its level, `last` is the level's last node.
struct Climb {
  std::uint64_t node;
  std::uint64_t last;

  // Whether the next hash of the proof stands to the left of the node.
  [[nodiscard]] bool sibling_is_left() const { return odd(node) || node == last; }

  void up() {
    node /= 2;
    last /= 2;
  }

  // A last node without a sibling is carried up as it is; the walk skips those levels.
  void skip_lone_levels() {
    if (odd(node)) return;
    while (!odd(node) && node != 0) up();
  }
};

}  // namespace

Result<Hash> root_from(const NodeSource& nodes, std::uint64_t size) {
  return size == 0 ? Result<Hash>(empty_root()) : range_root(nodes, {0, size});
}

Result<Proof> inclusion_proof(const NodeSource& nodes, std::uint64_t index, std::uint64_t size) {
  if (index >= size) return fail(ErrorCode::out_of_range, "the tree has no entry of that number");
  return path(nodes, index, {0, size});
}

Result<Proof> consistency_proof(const NodeSource& nodes, std::uint64_t old_size, std::uint64_t new_size) {
  if (old_size == 0 || old_size > new_size) {
    return fail(ErrorCode::out_of_range,
                "the older tree must have at least one entry and no more than the newer");
  }
  return subproof(nodes, old_size, {0, new_size}, true);
}

bool verify_inclusion(std::uint64_t index, std::uint64_t size, const Hash& leaf, std::span<const Hash> proof,
                      const Hash& root) {
  if (index >= size) return false;
  Climb climb{index, size - 1};
  Hash reached = leaf;
  for (const Hash& sibling : proof) {
    if (climb.last == 0) return false;
    if (climb.sibling_is_left()) {
      reached = hash_node(sibling, reached);
      climb.skip_lone_levels();
    } else {
      reached = hash_node(reached, sibling);
    }
    climb.up();
  }
  return climb.last == 0 && reached == root;
}

bool verify_consistency(std::uint64_t old_size, const Hash& old_root, std::uint64_t new_size,
                        const Hash& new_root, std::span<const Hash> proof) {
  if (old_size == 0 || old_size > new_size) return false;
  if (old_size == new_size) return proof.empty() && old_root == new_root;
  if (proof.empty()) return false;
  Climb climb{old_size - 1, new_size - 1};
  while (odd(climb.node)) climb.up();
  // If the older tree is one complete subtree, the verifier's own root stands in for the first hash.
  const bool whole = std::has_single_bit(old_size);
  Hash old_reached = whole ? old_root : proof.front();
  Hash new_reached = old_reached;
  for (const Hash& next : whole ? proof : proof.subspan(1)) {
    if (climb.last == 0) return false;
    if (climb.sibling_is_left()) {
      old_reached = hash_node(next, old_reached);
      new_reached = hash_node(next, new_reached);
      climb.skip_lone_levels();
    } else {
      new_reached = hash_node(new_reached, next);
    }
    climb.up();
  }
  return climb.last == 0 && old_reached == old_root && new_reached == new_root;
}

}  // namespace fogwright
