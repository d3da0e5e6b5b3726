// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>

#include "fogwright/book/documents.hpp"

namespace fogwright {

/// What a device needs of the book to decide by itself and to fold what comes after: a list of {kind, key,
/// body, live}. People, gear, labels that hold, places; jobs and vessels that are open or were until
/// `recent_days` ago, with what belongs to them; the use of stock that demand is reckoned from. It grows with
/// what a firm has open, not with the age of its book.
[[nodiscard]] nlohmann::json device_documents(const Documents& now, std::int64_t now_ms);

inline constexpr int recent_days = 31;

}  // namespace fogwright
