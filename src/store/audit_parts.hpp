// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "fogwright/book/verifier.hpp"
#include "store/audit.hpp"

/// The single checks of a verification. Each adds what it finds.
namespace fogwright {

/// The checkpoints that are kept with the book. With a trusted key each must bear its signature; without one
/// only what they say is compared with the entries.
class CheckpointAudit {
 public:
  CheckpointAudit(const BookTables::Checkpoints& kept, std::string_view trusted_vkey);

  void expect(BookVerifier& verifier) const;

  /// How each fared, one line each; those that cannot be trusted are findings as well.
  [[nodiscard]] std::vector<std::string> outcomes(const Faults& faults, std::vector<Finding>& findings) const;

 private:
  struct Kept {
    std::int64_t size;
    Result<Checkpoint> opened;
  };
  bool signatures_checked_;
  std::vector<Kept> kept_;
};

/// The stored nodes against the tree that the entries gave: the topmost by the root, the others by the one
/// above.
void check_nodes(BookTables& book, const VerifySummary& summary, std::vector<Finding>& findings);

/// What is kept beside the record against its salted hash.
void check_private(BookTables& book, std::vector<Finding>& findings);

/// What the tables of a book are (one line of its name, then how it is defined) against what they should be.
void check_described(std::vector<std::string> wanted, std::vector<std::string> found,
                     std::vector<Finding>& findings);

/// When the last entry was received; 0 if there is none or it cannot be read.
[[nodiscard]] std::int64_t last_received(BookTables& book, std::string_view origin);

}  // namespace fogwright
