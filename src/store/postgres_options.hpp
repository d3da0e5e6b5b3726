// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <chrono>
#include <span>

#include "store/postgres_schema.hpp"

namespace fogwright::pq {

/// How a book on a server is opened. The defaults are what the program uses; the rest is there to test it.
struct Options {
  std::chrono::milliseconds wait{5000};  ///< for other writers, and for a server that is being restarted
  bool demand_durable = true;            ///< refuses a server that may lose what it acknowledged
  std::span<const char* const> steps = schema_steps();
};

}  // namespace fogwright::pq
