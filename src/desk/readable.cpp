// SPDX-License-Identifier: Apache-2.0
#include "desk/readable.hpp"

#include <nlohmann/json.hpp>

namespace fogwright {

std::optional<std::string> why_unreadable(const std::function<void()>& step) {
  try {
    step();
    return std::nullopt;
  } catch (const nlohmann::json::exception& fault) {
    return fault.what();
  }
}

}  // namespace fogwright
