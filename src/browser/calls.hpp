// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

#include "browser/device_desk.hpp"

namespace fogwright {

/// One call of a page to its desk, text in and text out: {"call": "restore", "documents", "size"}, {"call":
/// "fold", "entry"}, {"call": "drop", "id"}, {"call": "answers", "method", "path"}, {"call": "ask", "request"},
/// {"call": "snapshot"}, {"call": "size"}. The answer is {"value": ...}, or {"error": words} for the caller's
/// fault.
[[nodiscard]] std::string desk_call(DeviceDesk& desk, std::string_view call_json);

}  // namespace fogwright
