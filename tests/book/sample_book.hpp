// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "fogwright/book/checkpoint.hpp"
#include "fogwright/book/entry.hpp"
#include "fogwright/book/merkle.hpp"

/// Books for tests. Their origin is that of the reference log, so that its test key signs for them.
namespace sample {

inline const std::string origin = "example.com/ref-log";

inline fogwright::Entry entry(std::int64_t seq) {
  fogwright::UuidRandom random{};
  random[9] = static_cast<std::uint8_t>(seq % 256);
  random[8] = static_cast<std::uint8_t>(seq / 256 % 256);
  fogwright::Entry made;
  made.seq = seq;
  made.happened_ms = 1'760'000'000'000 + 60'000 * seq;
  made.received_ms = made.happened_ms + 25;
  made.id = fogwright::uuid_v7(made.happened_ms, random);
  made.actor = "ada";
  made.device = "van-2";
  made.kind = "stock-received";
  made.body = {{"container", "C-" + std::to_string(seq)}, {"volume_ml", 3785 + seq}};
  return made;
}

inline fogwright::Entry correction(std::int64_t seq, std::int64_t of) {
  fogwright::Entry made = entry(seq);
  made.corrects = entry(of).id;
  made.reason = "the volume was read from the wrong line";
  return made;
}

/// Every seventh entry corrects the one before it.
inline std::vector<std::string> leaves(std::int64_t count) {
  std::vector<std::string> all;
  for (std::int64_t seq = 0; seq < count; ++seq) {
    const bool corrects = seq % 7 == 6;
    all.push_back(fogwright::leaf_bytes(corrects ? correction(seq, seq - 1) : entry(seq), origin).value());
  }
  return all;
}

inline fogwright::Checkpoint checkpoint(const std::vector<std::string>& leaves, std::size_t size) {
  fogwright::CompactRange tree;
  for (std::size_t i = 0; i < size; ++i) tree.append(fogwright::hash_leaf(leaves.at(i)));
  return {origin, size, tree.root()};
}

}  // namespace sample
