// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/book/checkpoint.hpp"

/// A `.tlog-proof` file (C2SP tlog-proof, first line "c2sp.org/tlog-proof@v1"): shows offline that one entry
/// is in a book.
namespace fogwright {

struct TlogProof {
  std::optional<std::string> extra;  ///< bytes that nothing vouches for
  std::uint64_t index = 0;           ///< sequence number of the entry
  std::vector<Hash> path;            ///< inclusion proof, from the leaf up
  std::string checkpoint;            ///< the signed checkpoint note, verbatim

  friend bool operator==(const TlogProof&, const TlogProof&) = default;
};

[[nodiscard]] std::string proof_text(const TlogProof& proof);

/// Refuses malformed text (not_understood). A path of more than 63 hashes is malformed.
[[nodiscard]] Result<TlogProof> read_proof(std::string_view text);

/// Checks the checkpoint's signatures, then that the entry stands at the index (bad_book).
[[nodiscard]] Result<OpenedCheckpoint> verify_proof(const TlogProof& proof, std::string_view leaf_bytes,
                                                    const VerifierKey& book_key,
                                                    std::span<const VerifierKey> witnesses = {});

}  // namespace fogwright
