// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/desk_call.hpp"
#include "fogwright/desk/firm.hpp"

namespace fogwright {

/// "Office=555-0100": the number stands behind the last equals sign. Errors: not_understood.
[[nodiscard]] Result<FirmContact> read_contact(const std::string& typed);

}  // namespace fogwright
