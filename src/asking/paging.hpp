// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <vector>

#include "asking/route.hpp"

namespace fogwright {

inline constexpr std::int64_t page_size = 100;
inline constexpr std::int64_t largest_page = 500;

/// `limit` of the query. Errors: out_of_range.
[[nodiscard]] Result<std::int64_t> page_limit(const View& view);

/// {items, next?} of a kind of document in the order of keys: those after `after`, `limit` of them at most.
/// `next` is the `after` of the following page. A row that is null is left out.
using MakeRow = std::function<nlohmann::json(const std::string& key, const nlohmann::json& body)>;
[[nodiscard]] Result<nlohmann::json> page_of(const View& view, std::string_view kind, bool live_only,
                                             const MakeRow& make_row);
/// The same of rows that stand in an order of their own; the member `named_by` names each. Errors: not_found
/// where the row named by `after` is no longer among them.
[[nodiscard]] Result<nlohmann::json> page_of_rows(const View& view, const std::vector<nlohmann::json>& rows,
                                                  const char* named_by);

}  // namespace fogwright
