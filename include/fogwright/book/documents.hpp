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
  /// The same as its text: for who needs little of many.
  [[nodiscard]] virtual std::optional<std::string> get_text(std::string_view kind, std::string_view key) const {
    const auto body = get(kind, key);
    return body ? std::optional(body->dump()) : std::nullopt;
  }
  /// Calls `visit` for each document of a kind in the order of keys; `live_only` leaves out those put with live
  /// = false (emptied containers, closed jobs), so that what is on hand is found without reading all that ever
  /// was.
  virtual void each(
      std::string_view kind, bool live_only,
      const std::function<void(const std::string& key, const nlohmann::json& body)>& visit) const = 0;
  /// The same, each document as its text: for who looks at all of many documents and needs little of each.
  /// `visit` may read documents, but not change them; its views hold until it returns.
  virtual void each_text(std::string_view kind, bool live_only,
                         const std::function<void(std::string_view key, std::string_view body)>& visit) const {
    each(kind, live_only, [&](const std::string& key, const nlohmann::json& body) { visit(key, body.dump()); });
  }
};

class MutableDocuments : public Documents {
 public:
  virtual void put(std::string_view kind, std::string_view key, const nlohmann::json& body, bool live) = 0;
};

}  // namespace fogwright
