// SPDX-License-Identifier: Apache-2.0
#include "store/leaf_batches.hpp"

#include <algorithm>

namespace fogwright {
namespace {

constexpr std::size_t most_rows = 8192;
constexpr std::size_t most_bytes = 4U << 20;

template <class Octets>
Octets octets_of(std::string_view bytes) {
  Octets octets{};
  if (bytes.size() == octets.size()) std::copy(bytes.begin(), bytes.end(), octets.begin());
  return octets;
}

}  // namespace

std::vector<StoredLeaf> LeafBatch::leaves() const {
  std::vector<StoredLeaf> list;
  list.reserve(rows.size());
  for (const Row& row : rows) list.push_back({leaf(row), &row.hash});
  return list;
}

void LeafBatches::next(LeafBatch& batch) {
  batch.rows.clear();
  batch.bytes.clear();
  book_.each_entry(expected_, end_, [&](const BookTables::Row& row) {
    if (row.seq != expected_) return false;
    batch.rows.push_back({row.seq, Uuid{octets_of<decltype(Uuid::bytes)>(row.id)}, octets_of<Hash>(row.hash),
                          batch.bytes.size(), row.leaf.size()});
    batch.bytes += row.leaf;
    ++expected_;
    return batch.rows.size() < most_rows && batch.bytes.size() < most_bytes;
  });
}

}  // namespace fogwright
