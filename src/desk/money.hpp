// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "fogwright/error.hpp"

namespace fogwright {

/// "84.50", "$84.50" or "84" as cents; two digits after the point. Errors: not_understood.
[[nodiscard]] Result<std::int64_t> read_cents(std::string_view text, std::string_view where);

/// "$84.50".
[[nodiscard]] std::string show_cents(std::int64_t cents);

}  // namespace fogwright
