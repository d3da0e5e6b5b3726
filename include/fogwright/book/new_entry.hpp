// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/book/entry.hpp"

namespace fogwright {

/// An entry as its maker hands it in; the store adds its place and the time of receipt.
struct NewEntry {
  Uuid id;
  std::int64_t happened_ms = 0;  ///< UTC
  std::string actor, device, kind;
  nlohmann::json body = nlohmann::json::object();
  std::optional<Uuid> corrects;
  std::string reason;
};

}  // namespace fogwright
