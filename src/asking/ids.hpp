// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "fogwright/book/uuid.hpp"

namespace fogwright {

/// The n-th id of a request, from the one that the client made: the same request has the same ids.
[[nodiscard]] Uuid derived_id(const Uuid& first, std::uint32_t number);

/// SHA-256 of a text, as lower-case hexadecimal.
[[nodiscard]] std::string digest_hex(std::string_view text);

}  // namespace fogwright
