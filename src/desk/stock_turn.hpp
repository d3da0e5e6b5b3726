// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "desk/vessels.hpp"
#include "fogwright/desk/context.hpp"

namespace fogwright {

/// The vessel of that id. Errors: not_found.
[[nodiscard]] Result<Vessel> find_vessel(const Documents& documents, const std::string& id,
                                         std::string_view where);

/// Containers of an item in a place that are not empty.
[[nodiscard]] std::vector<Container> containers_at(const Documents& documents, const std::string& item,
                                                   const std::string& place);

/// The turn goes by the shelf life of the product's current label.
[[nodiscard]] ShelfLife turn_life(const Documents& documents, const std::string& product);

/// The container that should be taken instead of this one: the same item in the same place, expiring first.
/// Empty where this one is in its turn.
[[nodiscard]] std::string whose_turn(const DeskContext& context, const Vessel& vessel);

/// Errors: missing_value (out of turn without a reason).
[[nodiscard]] Result<void> check_turn(const DeskContext& context, const Vessel& vessel,
                                      const std::string& reason);

/// The next free number of a kind: "C12", "B3".
[[nodiscard]] std::string next_id(const Documents& documents, const std::string& kind, std::int64_t ahead = 0);

}  // namespace fogwright
