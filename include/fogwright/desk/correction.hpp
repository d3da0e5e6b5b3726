// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Notes, and words that put an earlier entry right. Nothing is edited: both entries stay, and both show.

#include <string>
#include <vector>

#include "fogwright/book/entry.hpp"
#include "fogwright/desk/context.hpp"

namespace fogwright {

/// A note about a thing that the book knows by name: job, container, batch, person, fogger, cartridge, place or
/// product. Errors: not_permitted, not_found, missing_value, out_of_range (1 to 1,024 bytes of words).
[[nodiscard]] Result<Drafts> write_note(const DeskContext& context, const std::string& about,
                                        const std::string& text);

/// A note that says what is right instead of what `entry` of this book says, and why. A correction may be put
/// right as well. It takes a role that may make such an entry. Errors: not_permitted, missing_value,
/// out_of_range (1 to 1,024 bytes each).
[[nodiscard]] Result<Drafts> correct_entry(const DeskContext& context, const Entry& entry,
                                           const std::string& text, const std::string& why);

/// The numbers of the entries that put the entry of this id right, in order.
[[nodiscard]] std::vector<std::int64_t> corrections_of(const Documents& documents, const Uuid& id);

}  // namespace fogwright
