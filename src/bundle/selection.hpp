// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "fogwright/store.hpp"

/// Which entries go into a bundle.
namespace fogwright::bundle {

/// Sequence numbers in rising order.
using Selection = std::vector<std::int64_t>;

/// Every entry of these jobs, with what they rest on: label, containers, batches, gear, people and their
/// credentials, and every correction of any of these. Errors: not_found for a job that no entry names.
[[nodiscard]] Result<Selection> entries_of_jobs(Store& store, std::span<const std::string> jobs);

/// What happened from this time on and before that one, by the clocks of the devices.
[[nodiscard]] Selection entries_between(Store& store, std::int64_t from_ms, std::int64_t to_ms);

}  // namespace fogwright::bundle
