// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/witness.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "fogwright/book/encoding.hpp"
#include "fogwright/book/merkle.hpp"

namespace fogwright {
namespace {

constexpr std::string_view first_word = "old ";
constexpr std::size_t most_hashes = 63;

tl::unexpected<Error> no_request(std::string_view what) {
  return fail(ErrorCode::not_understood, fmt::format("this is neither a checkpoint nor a request: {}", what),
              {}, "take it over whole, as fogwright book checkpoint wrote it");
}

tl::unexpected<Error> forked(std::string what) {
  return fail(ErrorCode::bad_book, std::move(what), {},
              "the book was forked or cut: keep this checkpoint and the last one, they bear the same key's "
              "signature and show it");
}

std::string_view cut_line(std::string_view& text) {
  const auto end = std::min(text.find('\n'), text.size());
  const std::string_view line = text.substr(0, end);
  text.remove_prefix(std::min(end + 1, text.size()));
  return line;
}

Result<void> continues(const WitnessRequest& request, const Checkpoint& now, const Checkpoint& seen) {
  if (now.size < seen.size)
    return forked(fmt::format("the book had {} entries and now says it has {}", seen.size, now.size));
  if (now.size == seen.size && now.root != seen.root)
    return forked(fmt::format("these {} entries are not those that were cosigned before", now.size));
  if (now.size == seen.size || seen.size == 0) return {};
  if (request.old_size != seen.size)
    return fail(ErrorCode::missing_value,
                fmt::format("it is not shown that the {} entries go on from the {} that were cosigned last",
                            now.size, seen.size),
                "the proof", fmt::format("ask for: fogwright book checkpoint --since {}", seen.size));
  if (!verify_consistency(seen.size, seen.root, now.size, now.root, request.proof))
    return forked(
        fmt::format("the {} entries do not go on from the {} that were cosigned last", now.size, seen.size));
  return {};
}

bool is_of(const NoteSignature& signature, const VerifierKey& key) {
  return signature.name == key.name && signature.id == key.id();
}

bool has_one_of(const Note& note, const VerifierKey& key) {
  return std::any_of(note.signatures.begin(), note.signatures.end(),
                     [&](const NoteSignature& one) { return is_of(one, key); });
}

}  // namespace

std::string request_text(const WitnessRequest& request) {
  std::string text = fmt::format("{}{}\n", first_word, request.old_size);
  for (const Hash& hash : request.proof) text += to_base64(as_bytes(hash)) + '\n';
  return text + '\n' + request.checkpoint;
}

Result<WitnessRequest> read_request(std::string_view text) {
  if (!text.starts_with(first_word)) return WitnessRequest{0, {}, std::string(text)};
  const auto old_size = read_decimal(cut_line(text).substr(first_word.size()));
  if (!old_size) return no_request("its old size is not a plain decimal number");
  WitnessRequest request{*old_size, {}, {}};
  for (std::string_view line = cut_line(text); !line.empty(); line = cut_line(text)) {
    const auto hash = from_base64(line).and_then(read_hash);
    if (!hash) return no_request("a line of its proof is not Base 64 of 32 bytes");
    if (request.proof.size() == most_hashes) return no_request("its proof has more than 63 lines");
    request.proof.push_back(*hash);
  }
  if (text.empty()) return no_request("it has no checkpoint");
  request.checkpoint = text;
  return request;
}

Result<NoteSignature> witness_checkpoint(const WitnessRequest& request, const VerifierKey& book_key,
                                         const std::optional<Checkpoint>& seen, const SignerKey& witness,
                                         std::uint64_t unix_seconds) {
  const auto opened = open_checkpoint(request.checkpoint, book_key);
  if (!opened) return tl::make_unexpected(opened.error());
  if (!seen && request.old_size != 0)
    return fail(
        ErrorCode::not_found,
        fmt::format("the proof goes on from {} entries, but nothing of this book was cosigned yet",
                    request.old_size),
        "the proof",
        "a witness that has lost its memory must not go on as if nothing were: begin with a new key and a "
        "checkpoint without --since");
  if (seen) {
    if (auto ok = continues(request, opened->checkpoint, *seen); !ok) return tl::make_unexpected(ok.error());
  }
  return cosign_note(checkpoint_text(opened->checkpoint), witness, unix_seconds);
}

Result<std::string> take_cosignatures(std::string_view kept, std::string_view handed_in,
                                      const VerifierKey& book_key, std::span<const VerifierKey> witnesses) {
  if (auto opened = open_checkpoint(handed_in, book_key, witnesses); !opened)
    return tl::make_unexpected(opened.error());
  auto ours = read_note(kept);
  if (!ours) return tl::make_unexpected(ours.error());
  const Note theirs = *read_note(handed_in);
  if (ours->text != theirs.text)
    return forked("the checkpoint that was handed in is not the one that the book keeps");
  for (const VerifierKey& witness : witnesses) {
    if (has_one_of(*ours, witness)) continue;
    for (const NoteSignature& signature : theirs.signatures)
      if (is_of(signature, witness) && !has_one_of(*ours, witness)) ours->signatures.push_back(signature);
  }
  return note_text(*ours);
}

Result<std::optional<Witnessed>> witnessed_by(const VerifierKey& witness, std::span<const std::string> notes,
                                              const VerifierKey& book_key) {
  std::optional<Witnessed> newest;
  for (const std::string& note : notes) {
    const auto opened = open_checkpoint(note, book_key, std::span(&witness, 1));
    if (!opened) return tl::make_unexpected(opened.error());
    for (const VerifiedSignature& signature : opened->witnesses) {
      const Witnessed found{opened->checkpoint.size, signature.unix_seconds.value_or(0)};
      const bool newer = !newest || found.size > newest->size ||
                         (found.size == newest->size && found.unix_seconds > newest->unix_seconds);
      if (newer) newest = found;
    }
  }
  return newest;
}

}  // namespace fogwright
