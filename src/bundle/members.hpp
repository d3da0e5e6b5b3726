// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "bundle/selection.hpp"
#include "bundle/zip.hpp"
#include "fogwright/book/checkpoint.hpp"

/// What an evidence bundle holds; the form is in docs/record-format.md.
namespace fogwright::bundle {

struct Order {
  const Selection& entries;
  std::string checkpoint;  ///< the note that the proofs lead to, with its cosignatures
  const SignerKey& key;    ///< of the book; signs the list of members
  const NodeSource& nodes;
  bool with_private = false;
  std::vector<Member> papers;  ///< whatever else goes along, under papers/
};

/// All members, by name in rising order but for README.txt, which comes first. The same book, entries and
/// papers give the same bytes. What was erased is in none of them. Errors: out_of_range where the entries have
/// more than 256 MB; those of the nodes.
[[nodiscard]] Result<std::vector<Member>> members_of(Store& store, const Order& order);

}  // namespace fogwright::bundle
