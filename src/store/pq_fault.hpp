// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

namespace fogwright::pq {

/// Turns an SQLSTATE (empty: the connection is lost) into the StorageFault it stands for.
[[noreturn]] void throw_fault(std::string_view state, const std::string& detail);

}  // namespace fogwright::pq
