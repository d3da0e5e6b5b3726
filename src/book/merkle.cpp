// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/merkle.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <bit>

#include "fogwright/book/encoding.hpp"

namespace fogwright {

Hash empty_root() { return sha256({}); }

Result<CompactRange> CompactRange::restore(std::uint64_t size, std::string_view bytes) {
  const std::size_t wanted = static_cast<std::size_t>(std::popcount(size)) * sizeof(Hash);
  if (bytes.size() != wanted) {
    return fail(ErrorCode::bad_book, fmt::format("a tree of {} entries needs {} bytes of hashes, here are {}",
                                                 size, wanted, bytes.size()));
  }
  CompactRange range;
  range.size_ = size;
  for (std::size_t at = 0; at < wanted; at += sizeof(Hash)) {
    std::copy_n(bytes.begin() + static_cast<std::ptrdiff_t>(at), sizeof(Hash),
                range.hashes_.emplace_back().begin());
  }
  return range;
}

std::string CompactRange::bytes() const {
  std::string joined;
  for (const Hash& hash : hashes_) joined += as_bytes(hash);
  return joined;
}

Hash CompactRange::root() const {
  if (hashes_.empty()) return empty_root();
  Hash root = hashes_.back();
  for (std::size_t i = hashes_.size() - 1; i > 0; --i) root = hash_node(hashes_[i - 1], root);
  return root;
}

void CompactRange::append_subtree(unsigned level, Hash hash, std::vector<TreeNode>* made) {
  // Each trailing 1 bit of the index is a complete subtree that the new one pairs up with.
  std::uint64_t index = size_ >> level;
  size_ += std::uint64_t{1} << level;
  if (made != nullptr) made->push_back({{level, index}, hash});
  for (; index % 2 == 1; index /= 2, ++level) {
    hash = hash_node(hashes_.back(), hash);
    hashes_.pop_back();
    if (made != nullptr) made->push_back({{level + 1, index / 2}, hash});
  }
  hashes_.push_back(hash);
}

}  // namespace fogwright
