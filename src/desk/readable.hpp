// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <optional>
#include <string>

namespace fogwright {

/// Takes a step that reads what another program may have written. nullopt: it was done; else why it could not
/// be read: a member is missing or of another type. The browser, which has no exceptions, has its own
/// (src/browser/giving_up.cpp).
[[nodiscard]] std::optional<std::string> why_unreadable(const std::function<void()>& step);

}  // namespace fogwright
