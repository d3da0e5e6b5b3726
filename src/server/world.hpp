// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <string>

#include "fogwright/desk/context.hpp"

namespace fogwright::server {

/// What the server touches beside sockets and the book; tests hand in their own. For use from several threads.
struct World {
  std::function<std::int64_t()> now_ms;                 ///< UTC
  std::function<BootClock()> boot_clock;                ///< the running boot and the time since it
  std::function<void(std::span<std::uint8_t>)> random;  ///< not to be guessed
};

/// So many random bytes, as lower-case hexadecimal.
[[nodiscard]] std::string random_hex(const World& world, std::size_t bytes);

}  // namespace fogwright::server
