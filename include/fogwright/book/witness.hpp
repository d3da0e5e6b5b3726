// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/book/checkpoint.hpp"

/// Witnesses: others who cosign the checkpoints of a book and refuse one that does not continue the last, so
/// that the book's owner cannot write a second past. C2SP tlog-witness v1.0.0 and tlog-cosignature v1.0.1.
namespace fogwright {

/// What a book hands to a witness: the body of `add-checkpoint`.
struct WitnessRequest {
  std::uint64_t old_size = 0;  ///< what the witness cosigned last; 0 the first time
  std::vector<Hash> proof;     ///< from old_size to the checkpoint's size; at most 63 hashes
  std::string checkpoint;      ///< the signed note, verbatim

  friend bool operator==(const WitnessRequest&, const WitnessRequest&) = default;
};

[[nodiscard]] std::string request_text(const WitnessRequest& request);

/// Reads a request, or a checkpoint alone, which is one from size 0. Errors: not_understood.
[[nodiscard]] Result<WitnessRequest> read_request(std::string_view text);

/// The signature that a witness gives, if the checkpoint is signed by the book and continues what the witness
/// has seen of that book. The caller keeps the new checkpoint durably before the signature leaves its hands.
/// Refuses a smaller book, one of the same size with another root, a proof that does not hold (bad_book), and a
/// larger book without a proof from the size that was seen (missing_value).
/// Precondition: the key's kind is cosignature.
[[nodiscard]] Result<NoteSignature> witness_checkpoint(const WitnessRequest& request,
                                                       const VerifierKey& book_key,
                                                       const std::optional<Checkpoint>& seen,
                                                       const SignerKey& witness, std::uint64_t unix_seconds);

/// The checkpoint as the book keeps it, with those cosignatures of `handed_in` that hold under these witnesses'
/// keys and that it did not have from them yet. Signatures of anybody else are left out. Refuses a note over
/// another text, one not signed by the book, a cosignature that does not hold (bad_book).
[[nodiscard]] Result<std::string> take_cosignatures(std::string_view kept, std::string_view handed_in,
                                                    const VerifierKey& book_key,
                                                    std::span<const VerifierKey> witnesses);

/// The newest checkpoint that a witness has cosigned.
struct Witnessed {
  std::uint64_t size = 0;
  std::uint64_t unix_seconds = 0;  ///< by the witness's clock; the latest, where it signed more than once

  friend bool operator==(const Witnessed&, const Witnessed&) = default;
};

/// Of these checkpoint notes, the one of the greatest size that bears this witness's cosignature; none if no
/// one does. Refuses notes not signed by the book, and a cosignature of this witness that does not hold
/// (bad_book).
[[nodiscard]] Result<std::optional<Witnessed>> witnessed_by(const VerifierKey& witness,
                                                            std::span<const std::string> notes,
                                                            const VerifierKey& book_key);

}  // namespace fogwright
