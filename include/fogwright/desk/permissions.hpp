// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/desk/context.hpp"

namespace fogwright {

/// Whether people with this role may make entries of a kind: the table that may_make() asks.
[[nodiscard]] bool role_may_make(Role role, std::string_view kind) noexcept;
/// The same for somebody with several roles, by their names.
[[nodiscard]] bool roles_may_make(const std::vector<std::string>& roles, std::string_view kind);
/// The roles that may, as words to tell somebody who has none of them: "technician or owner". Empty for an
/// unknown kind.
[[nodiscard]] std::string roles_that_may_make(std::string_view kind);

}  // namespace fogwright
