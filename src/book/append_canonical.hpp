// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

#include "fogwright/error.hpp"

namespace fogwright {

/// canonical_json at the end of what is there already. After an error that end is of no use.
[[nodiscard]] Result<void> append_canonical(std::string& out, const nlohmann::json& value);
/// The same of a string that is no JSON value yet.
[[nodiscard]] Result<void> append_canonical_text(std::string& out, std::string_view text);

/// record_value_ok for a member of an object: the nesting and the place are counted from that object.
[[nodiscard]] Result<void> record_member_ok(const std::string& name, const nlohmann::json& value);

}  // namespace fogwright
