// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What the fold of a book keeps: documents by kind and key, each a JSON object. The same fold runs over a map
/// in memory, over a table of the store (in the transaction of the entry that changes it) and in the browser.

#include <cstdint>
#include <functional>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>

namespace fogwright {

class Documents {
 public:
  virtual ~Documents() = default;
  [[nodiscard]] virtual std::optional<nlohmann::json> get(std::string_view kind,
                                                          std::string_view key) const = 0;
  /// Calls `visit` for each document of a kind in the order of keys; `live_only` leaves out those put with live
  /// = false (emptied containers, closed jobs), so that what is on hand is found without reading all that ever
  /// was.
  virtual void each(
      std::string_view kind, bool live_only,
      const std::function<void(const std::string& key, const nlohmann::json& body)>& visit) const = 0;
};

class MutableDocuments : public Documents {
 public:
  virtual void put(std::string_view kind, std::string_view key, const nlohmann::json& body, bool live) = 0;
};

}  // namespace fogwright
