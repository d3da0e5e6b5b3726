// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/book/note.hpp"
#include "fogwright/book/sha256.hpp"

/// Checkpoints by C2SP tlog-checkpoint v1.0.0: a signed note that commits to a whole book.
namespace fogwright {

/// The size and root of a book's tree. `origin` names the book and is also the name of its key.
struct Checkpoint {
  std::string origin;
  std::uint64_t size = 0;
  Hash root{};

  friend bool operator==(const Checkpoint&, const Checkpoint&) = default;
};

/// The three lines that get signed: origin, size, root in Base 64.
[[nodiscard]] std::string checkpoint_text(const Checkpoint& checkpoint);

/// Refuses all but exactly these three lines (not_understood). The specification allows extension lines but
/// does not recommend them, and not all cosigners cover them; a book never has any.
[[nodiscard]] Result<Checkpoint> read_checkpoint(std::string_view text);

/// The checkpoint as a note with one signature. Refuses an origin that is no key name or is not the name of
/// the key, and a cosigner's key (not_understood).
[[nodiscard]] Result<std::string> sign_checkpoint(const Checkpoint& checkpoint, const SignerKey& key);

/// The same note with the signature of one more signer at its end.
[[nodiscard]] Result<std::string> add_signature(std::string_view note, const NoteSignature& signature);

/// A checkpoint whose signatures were checked.
struct OpenedCheckpoint {
  Checkpoint checkpoint;
  std::vector<VerifiedSignature> witnesses;  ///< the cosignatures of known witnesses
};

/// Reads a checkpoint note and checks it: it must be signed by the book's own key and name that key as its
/// origin; signatures of known witnesses must hold as well; those of others are ignored (bad_book).
[[nodiscard]] Result<OpenedCheckpoint> open_checkpoint(std::string_view note, const VerifierKey& book_key,
                                                       std::span<const VerifierKey> witnesses = {});

}  // namespace fogwright
