// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "fogwright/desk/crew.hpp"
#include "fogwright/desk/equipment.hpp"
#include "fogwright/desk/fold.hpp"
#include "fogwright/desk/stock_desk.hpp"
#include "fogwright/desk/views.hpp"

/// The vocabulary of the desk's tests: a shop with two vans, a crew, and a clock that stands until it is moved.
namespace desk_test {

using namespace fogwright;

inline constexpr std::int64_t hour_ms = 3'600'000;
inline constexpr std::int64_t litre = 1'000'000;  // microlitres
/// 2 March 2026, 14:00 UTC.
inline constexpr std::int64_t start_ms = 1'772'460'000'000;

/// The profile of a demo product, as it stands in its file.
[[nodiscard]] std::string profile(const std::string& product);

class Shop {
 public:
  /// Nobody, nothing.
  Shop() = default;
  /// Crew ash (owner, safety officer) and rowan (technician), places shop, heron, plover, and the demo labels.
  [[nodiscard]] static Shop open();

  [[nodiscard]] DeskContext context() const;
  void by(const std::string& handle) { actor_ = handle; }
  void wait(std::int64_t ms) { now_ms_ += ms; }
  [[nodiscard]] std::int64_t now() const { return now_ms_; }
  [[nodiscard]] const MapDocuments& book() const { return documents_; }
  [[nodiscard]] const std::vector<Entry>& entries() const { return entries_; }

  /// Writes what the desk decided; fails the test where it refused.
  void done(const Result<Drafts>& drafts);
  /// What the desk refused with; fails the test where it did not.
  [[nodiscard]] static Error refused(const Result<Drafts>& drafts);
  /// An entry that no desk decided: what another program may have written.
  void write(const std::string& kind, const nlohmann::json& body);

  void receive(const std::string& id, const std::string& product, std::int64_t ul, const std::string& expires,
               const std::string& place = "heron", std::optional<std::int64_t> cents = {},
               const std::string& part = {});
  void draw(const std::string& from, std::int64_t ul, const std::string& job = {},
            const std::string& reason = {});

  [[nodiscard]] nlohmann::json document(const std::string& kind, const std::string& key) const;
  [[nodiscard]] std::int64_t remaining(const std::string& vessel) const;
  /// Rules of the departures so far, in order.
  [[nodiscard]] std::vector<std::string> departures() const;

 private:
  void put(const NewEntry& entry);

  MapDocuments documents_;
  std::vector<Entry> entries_;
  std::string actor_ = "ash";
  std::int64_t now_ms_ = start_ms;
  mutable std::int64_t id_number_ = 0;
};

}  // namespace desk_test
