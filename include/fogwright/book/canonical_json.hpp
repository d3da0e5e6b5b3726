// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

#include "fogwright/error.hpp"

namespace fogwright {

/// The largest integer that every JSON reader holds exactly, 2^53 - 1 (RFC 8259 section 6).
inline constexpr std::int64_t largest_exact_integer = 9'007'199'254'740'991;

/// The one text of a JSON value by RFC 8785: no white space, members in the order of their UTF-16 code
/// units, numbers as ECMAScript prints them. Integers beyond +-(2^53 - 1) become the nearest double, as
/// the RFC demands; record_value_ok refuses them before it comes to that.
/// Refuses NaN, infinities, strings that are not UTF-8 and binary values (bad_entry).
[[nodiscard]] Result<std::string> canonical_json(const nlohmann::json& value);

/// A double as ECMAScript's Number::toString prints it, in any locale. Refuses NaN and infinities.
[[nodiscard]] Result<std::string> canonical_number(double value);

/// Reads one JSON text (RFC 8259) and refuses what readers are known to disagree on: the same member name
/// twice, lone surrogates, malformed UTF-8, a byte order mark, text after the value, nesting deeper than
/// 64, numbers beyond the range of a double. The error is bad_entry and says at which byte.
[[nodiscard]] Result<nlohmann::json> read_strict_json(std::string_view text);

/// Whether a value may stand in the record: integers within +-(2^53 - 1), strings, true, false, null,
/// arrays, and objects with ASCII member names. No fractions: they go in as integers of a stated unit or
/// as decimal strings. Nesting at most 64. `where` of the error is the JSON pointer to what is wrong.
[[nodiscard]] Result<void> record_value_ok(const nlohmann::json& value);

}  // namespace fogwright
