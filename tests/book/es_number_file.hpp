// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <bit>
#include <cmath>
#include <string>
#include <vector>

#include "book/reference.hpp"

/// The doubles of the published number file one after the other; tests/data/es_number_file.txt says how they
/// come about.
class EsNumberFile {
 public:
  EsNumberFile() {
    for (const auto& row : reference::word_rows("es_number_file.txt")) {
      if (row[0] != "bits") continue;
      for (std::size_t i = 1; i < row.size(); ++i) bits_.push_back(std::stoull(row[i], nullptr, 16));
    }
    REQUIRE(bits_.size() == 168);
    for (std::uint64_t i = 0; i < 2000; ++i) bits_.push_back(0x0010000000000000 + i);
  }

  double next() {
    if (at_ < bits_.size()) return std::bit_cast<double>(bits_[at_++]);
    double value = 0;
    while (value == 0 || !std::isfinite(value)) value = std::bit_cast<double>(next_of_chain());
    return value;
  }

 private:
  std::uint64_t next_of_chain() {
    if (in_block_ % 4 == 0) block_ = fogwright::sha256(fogwright::as_bytes(block_));
    std::uint64_t bits = 0;
    for (std::size_t i = 8; i > 0; --i) bits = bits << 8 | block_[in_block_ % 4 * 8 + i - 1];
    ++in_block_;
    return bits;
  }

  std::vector<std::uint64_t> bits_;
  std::size_t at_ = 0;
  fogwright::Hash block_{};
  std::size_t in_block_ = 0;
};
