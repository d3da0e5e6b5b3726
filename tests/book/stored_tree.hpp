// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>
#include <span>
#include <string>
#include <vector>

#include "fogwright/book/merkle.hpp"

/// A tree whose completed nodes are kept, as a store keeps them, beside a second way to its roots: the
/// recursive definition of RFC 9162 section 2.1.1.
class StoredTree {
 public:
  explicit StoredTree(const std::vector<std::string>& leaves) {
    fogwright::CompactRange range;
    for (const std::string& leaf : leaves) {
      hashes_.push_back(fogwright::hash_leaf(leaf));
      std::vector<fogwright::TreeNode> made;
      range.append(hashes_.back(), made);
      for (const auto& node : made) nodes_[{node.id.level, node.id.index}] = node.hash;
    }
  }

  [[nodiscard]] fogwright::NodeSource source() const {
    return [this](fogwright::NodeId id) -> fogwright::Result<fogwright::Hash> {
      const auto node = nodes_.find({id.level, id.index});
      if (node == nodes_.end()) return fogwright::fail(fogwright::ErrorCode::not_found, "no such node");
      return node->second;
    };
  }

  [[nodiscard]] const fogwright::Hash& leaf_hash(std::size_t index) const { return hashes_.at(index); }

  [[nodiscard]] fogwright::Hash root_by_definition(std::size_t size) const {
    return definition(std::span(hashes_).first(size));
  }

 private:
  static fogwright::Hash definition(std::span<const fogwright::Hash> leaves) {
    if (leaves.empty()) return fogwright::sha256("");
    if (leaves.size() == 1) return leaves.front();
    std::size_t k = 1;
    while (2 * k < leaves.size()) k *= 2;
    return fogwright::hash_node(definition(leaves.first(k)), definition(leaves.subspan(k)));
  }

  std::vector<fogwright::Hash> hashes_;
  std::map<std::pair<unsigned, std::uint64_t>, fogwright::Hash> nodes_;
};

inline std::vector<std::string> numbered_leaves(std::size_t count) {
  std::vector<std::string> leaves;
  for (std::size_t i = 0; i < count; ++i) leaves.push_back("leaf " + std::to_string(i));
  return leaves;
}
