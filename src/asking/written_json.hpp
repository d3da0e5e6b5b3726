// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>
#include <vector>

#include "fogwright/book/documents.hpp"
#include "fogwright/book/entry.hpp"

namespace fogwright {

/// The departures that the entries of these numbers raised, in order.
[[nodiscard]] nlohmann::json departures_json(const Documents& now, const std::vector<std::int64_t>& seqs);

/// What is told of a request that was written: entries, departures, already_there.
[[nodiscard]] nlohmann::json written_json(const Documents& now, const std::vector<Entry>& entries,
                                          bool already_there);

/// Whether a kind says that something was refused.
[[nodiscard]] bool is_refusal(std::string_view kind);

}  // namespace fogwright
