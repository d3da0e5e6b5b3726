// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/tlog_proof.hpp"

#include <fmt/format.h>

#include "fogwright/book/encoding.hpp"
#include "fogwright/book/merkle.hpp"

namespace fogwright {
namespace {

constexpr std::string_view first_line = "c2sp.org/tlog-proof@v1";
constexpr std::size_t longest_path = 63;

tl::unexpected<Error> no_proof(std::string_view what) {
  return fail(ErrorCode::not_understood, fmt::format("this is not a tlog-proof: {}", what), {},
              "copy the proof file again, whole");
}

// Takes one line off the text; nothing if no whole line is left.
std::optional<std::string_view> take_line(std::string_view& text) {
  const std::size_t end = text.find('\n');
  if (end == text.npos) return {};
  const std::string_view line = text.substr(0, end);
  text.remove_prefix(end + 1);
  return line;
}

// The rest of a line after "word ".
std::optional<std::string_view> after(std::string_view word, std::optional<std::string_view> line) {
  if (!line || !line->starts_with(word) || line->size() <= word.size() || (*line)[word.size()] != ' ')
    return {};
  return line->substr(word.size() + 1);
}

Result<std::vector<Hash>> read_path(std::string_view& text) {
  std::vector<Hash> path;
  for (auto line = take_line(text);; line = take_line(text)) {
    if (!line) return no_proof("it ends before its checkpoint");
    if (line->empty()) return path;
    const auto hash = from_base64(*line).and_then(read_hash);
    if (!hash || path.size() == longest_path)
      return no_proof("its path is not of at most 63 hashes in Base 64");
    path.push_back(*hash);
  }
}

}  // namespace

std::string proof_text(const TlogProof& proof) {
  std::string text = fmt::format("{}\n", first_line);
  if (proof.extra) text += fmt::format("extra {}\n", to_base64(*proof.extra));
  text += fmt::format("index {}\n", proof.index);
  for (const Hash& hash : proof.path) text += to_base64(as_bytes(hash)) + '\n';
  return text + '\n' + proof.checkpoint;
}

Result<TlogProof> read_proof(std::string_view text) {
  TlogProof proof;
  if (take_line(text) != first_line) return no_proof("its first line is another one");
  auto line = take_line(text);
  if (const auto encoded = after("extra", line)) {
    auto extra = from_base64(*encoded);
    if (!extra) return no_proof("its extra data is not Base 64");
    proof.extra = std::move(*extra);
    line = take_line(text);
  }
  const auto digits = after("index", line);
  const auto index = read_decimal(digits.value_or(""));
  if (!index) return no_proof("it has no index line");
  auto path = read_path(text);
  if (!path) return tl::make_unexpected(path.error());
  if (text.empty()) return no_proof("it has no checkpoint");
  proof.index = *index;
  proof.path = std::move(*path);
  proof.checkpoint = text;
  return proof;
}

Result<OpenedCheckpoint> verify_proof(const TlogProof& proof, std::string_view leaf_bytes,
                                      const VerifierKey& book_key, std::span<const VerifierKey> witnesses) {
  auto opened = open_checkpoint(proof.checkpoint, book_key, witnesses);
  if (!opened) return opened;
  const Checkpoint& checkpoint = opened->checkpoint;
  if (!verify_inclusion(proof.index, checkpoint.size, hash_leaf(leaf_bytes), proof.path, checkpoint.root)) {
    return fail(ErrorCode::bad_book, "the proof does not show this entry in the book",
                fmt::format("entry {}", proof.index),
                "the entry or the proof was changed or belongs to another checkpoint");
  }
  return opened;
}

}  // namespace fogwright
