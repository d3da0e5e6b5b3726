// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/tlog_proof.hpp"

#include <fmt/format.h>

#include "fogwright/book/encoding.hpp"
#include "press/parts.hpp"

namespace fogwright::press {

using nlohmann::json;
using paper::Word;

namespace {

constexpr std::size_t most_in_a_code = 2'331;  // bytes, at error correction M

std::string leaf_at(Store& store, std::int64_t seq) {
  std::string bytes;
  store.each_leaf(seq, seq + 1, [&](std::int64_t, std::string_view leaf) { bytes = leaf; });
  return bytes;
}

/// The newest of the signed checkpoints, where it is of more entries than `seq`.
std::optional<std::string> covering_checkpoint(Store& store, std::int64_t seq) {
  const auto kept = store.checkpoints();
  if (kept.empty() || kept.back().first <= seq) return std::nullopt;
  return kept.back().second;
}

Result<TlogProof> prove(Store& store, std::int64_t seq, const std::string& note) {
  const auto opened = read_note(note);
  if (!opened) return tl::make_unexpected(opened.error());
  const auto checkpoint = read_checkpoint(opened->text);
  if (!checkpoint) return tl::make_unexpected(checkpoint.error());
  const NodeSource nodes = [&store](NodeId id) -> Result<Hash> {
    const auto hash = store.node(static_cast<std::int64_t>(id.level), static_cast<std::int64_t>(id.index));
    if (hash) return *hash;
    return fail(ErrorCode::bad_book, "the book lacks a node of its tree", {}, "run fogwright book verify");
  };
  auto path = inclusion_proof(nodes, static_cast<std::uint64_t>(seq), checkpoint->size);
  if (!path) return tl::make_unexpected(path.error());
  return TlogProof{{}, static_cast<std::uint64_t>(seq), std::move(*path), note};
}

}  // namespace

Result<std::optional<paper::Proof>> proof_of(const Source& source, const json& job) {
  const auto seq = job.at("last_seq").get<std::int64_t>();
  const auto note = covering_checkpoint(source.store, seq);
  if (!note) return std::nullopt;
  auto proof = prove(source.store, seq, *note);
  if (!proof) return tl::make_unexpected(proof.error());
  const std::string leaf = leaf_at(source.store, seq);
  const Hash hash = hash_leaf(leaf);
  paper::Proof paper;
  paper.checkpoint = *note;
  while (paper.checkpoint.ends_with('\n')) paper.checkpoint.pop_back();
  paper.entry = word(source.language, Word::entry_of, seq, source.head.size,
                     to_hex({reinterpret_cast<const char*>(hash.data()), hash.size()}));
  // With the entry itself, whoever has the key can check the paper alone.
  proof->extra = leaf;
  paper.qr = proof_text(*proof);
  paper.holds_entry = paper.qr.size() <= most_in_a_code;
  if (!paper.holds_entry) {
    proof->extra.reset();
    paper.qr = proof_text(*proof);
  }
  if (paper.qr.size() > most_in_a_code) paper.qr.clear();
  return paper;
}

}  // namespace fogwright::press
