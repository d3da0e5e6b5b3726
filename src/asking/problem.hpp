// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>
#include <string_view>

#include "fogwright/error.hpp"

namespace fogwright {

/// The HTTP status of each code; a test walks them all.
[[nodiscard]] int http_status(ErrorCode code) noexcept;

/// Problem details (RFC 9457): type, title, status, detail, and our code, where, hint; `faults` where there are
/// several. At least one must be given. What a fault of the system says stays in the log: the answer is
/// general.
[[nodiscard]] nlohmann::json problem_details(const Faults& faults);
/// The same with a status that no code stands for (404 of an address, 405, 413, 429, 503).
[[nodiscard]] nlohmann::json problem_details(int status, std::string_view code, std::string_view message,
                                             std::string_view where, std::string_view hint);

}  // namespace fogwright
