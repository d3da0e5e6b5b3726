// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "store/postgres_options.hpp"
#include "store/pq.hpp"

namespace fogwright::pq {

/// A connection set up as the program demands, each setting read back, also when it is made anew. Throws
/// StorageFault, also for a server that may lose what it acknowledged.
[[nodiscard]] Connection open_connection(const Address& address, const Options& options);

}  // namespace fogwright::pq
