// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

#include "fogwright/book/note.hpp"

/// Pure Ed25519 of RFC 8032, by libsodium.
namespace fogwright::ed25519 {

[[nodiscard]] KeyBytes public_key(const KeyBytes& seed);

/// 64 bytes.
[[nodiscard]] std::string sign(std::string_view message, const KeyBytes& seed);

[[nodiscard]] bool verify(std::string_view message, std::string_view signature, const KeyBytes& public_key);

void wipe(KeyBytes& secret) noexcept;

}  // namespace fogwright::ed25519
