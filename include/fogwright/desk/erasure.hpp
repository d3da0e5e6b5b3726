// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Erasing what lives beside the record: a customer's name and address, a person's name and contact. The record
/// itself keeps the salted hash, and an entry that says who erased it and why. How long it must be kept is the
/// audit's to say (retention_of_job, retention_of_person): whoever erases asks it first.

#include <string>

#include "fogwright/desk/context.hpp"

namespace fogwright {

/// Errors: not_permitted, not_found, missing_value (no reason), wrong_state where nothing was kept or it is
/// erased already.
[[nodiscard]] Result<Drafts> erase_site(const DeskContext& context, const std::string& job,
                                        const std::string& why);
[[nodiscard]] Result<Drafts> erase_details(const DeskContext& context, const std::string& handle,
                                           const std::string& why);

}  // namespace fogwright
