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

LeafBatches::LeafBatches(const sqlite::Connection& connection, std::int64_t end)
    : select_(connection.prepare(
          "SELECT seq, id, hash, leaf FROM entry WHERE seq >= ?1 AND seq < ?2 ORDER BY seq")),
      end_(end) {}

void LeafBatches::next(LeafBatch& batch) {
  batch.rows.clear();
  batch.bytes.clear();
  sqlite::Rows rows = select_.rows(expected_, end_);
  while (batch.rows.size() < most_rows && batch.bytes.size() < most_bytes && rows.next()) {
    const std::int64_t seq = rows.integer(0);
    if (seq != expected_) break;
    const std::string_view leaf = rows.blob(3);
    batch.rows.push_back({seq, Uuid{octets_of<decltype(Uuid::bytes)>(rows.blob(1))},
                          octets_of<Hash>(rows.blob(2)), batch.bytes.size(), leaf.size()});
    batch.bytes += leaf;
    ++expected_;
  }
}

}  // namespace fogwright
