// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

namespace fogwright {

/// Documents that can be read from a key on, without reading those before it: those of a store. A page of a
/// list costs what it shows, and not what the book holds.
class DocumentRange {
 public:
  virtual ~DocumentRange() = default;
  /// Documents of a kind whose key comes after `after`, in the order of keys, until `visit` returns false.
  /// `live_only` as in Documents::each. `visit` may read documents.
  virtual void each_after(
      std::string_view kind, bool live_only, std::string_view after,
      const std::function<bool(const std::string& key, const nlohmann::json& body)>& visit) const = 0;
};

}  // namespace fogwright
