// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Notes, and words that put an earlier entry right. Nothing is edited: both entries stay, and both show.

#include <map>
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

/// The job and the container that a body names: what is said about its entry is found with them. Another
/// program's body may name neither.
[[nodiscard]] nlohmann::json job_and_container(const nlohmann::json& body);

/// Numbers of the entries that put an entry right, in order, by the id of that entry as text. They are few.
using Corrections = std::map<std::string, std::vector<std::int64_t>>;
[[nodiscard]] Corrections corrections_in(const Documents& documents);

}  // namespace fogwright
