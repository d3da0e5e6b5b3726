// SPDX-License-Identifier: Apache-2.0
#pragma once

/// A device's desk: the book's documents up to one entry, and on top of them the device's own entries that the
/// book does not have yet. What engine.d.ts says in TypeScript.

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "asking/route.hpp"
#include "desk/rehearsal.hpp"
#include "fogwright/desk/fold.hpp"

namespace fogwright {

/// An entry that the book does not have yet.
struct OwnEntry {
  NewEntry entry;
  Uuid request{};  ///< first id of the request that made it
  std::string beside_salt = {}, beside_text = {};
};

/// Documents in memory that can all be listed.
class ListedDocuments : public MapDocuments {
 public:
  void put(std::string_view kind, std::string_view key, const nlohmann::json& body, bool live) override;
  [[nodiscard]] nlohmann::json list() const;

 private:
  std::map<std::pair<std::string, std::string>, bool> live_;
};

class DeviceDesk {
 public:
  DeviceDesk();

  /// Documents as GET /api/v1/documents gives them. Errors: bad_entry.
  [[nodiscard]] Result<void> restore(const nlohmann::json& documents, std::int64_t size);
  /// An entry of the book (with seq), or an own one. Errors: bad_entry, out_of_range (a gap before it).
  [[nodiscard]] Result<void> fold(const nlohmann::json& entry);
  void drop(const std::string& id);

  [[nodiscard]] bool answers(std::string_view method, std::string_view path) const;
  /// {status, body, entries}
  [[nodiscard]] nlohmann::json ask(const nlohmann::json& request);

  /// {documents, size}; own entries are not in it.
  [[nodiscard]] nlohmann::json snapshot() const;
  [[nodiscard]] std::int64_t size() const { return size_; }

 private:
  [[nodiscard]] const Documents& now();
  [[nodiscard]] Entry on_top(std::size_t index) const;
  [[nodiscard]] nlohmann::json answer(const Route& route, const std::vector<std::string>& names,
                                      const nlohmann::json& request);
  [[nodiscard]] nlohmann::json write(const Route& route, Asked asked, const nlohmann::json& request);
  [[nodiscard]] nlohmann::json written(const Uuid& request, bool again, const std::optional<Error>& refusal);

  RouteTable routes_;
  ListedDocuments book_;
  std::int64_t size_ = 0;
  std::vector<OwnEntry> own_;
  std::optional<OverlaidDocuments> top_;  ///< the book with the own entries; empty: to be made anew
};

}  // namespace fogwright
