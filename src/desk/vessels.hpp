// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Containers and batches as documents: how the fold, the desk and the views find and read them.

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "fogwright/book/documents.hpp"
#include "fogwright/stock.hpp"

namespace fogwright {

/// Kinds of the documents that are vessels.
inline constexpr std::array<const char*, 2> vessel_kinds{"container", "batch"};

/// A container or a batch, as it stands.
struct Vessel {
  std::string kind;  ///< one of vessel_kinds
  std::string id;
  nlohmann::json body;

  [[nodiscard]] bool is_batch() const { return kind == "batch"; }
  [[nodiscard]] std::int64_t remaining_ul() const;
  [[nodiscard]] std::int64_t capacity_ul() const;  ///< its size, or what was made
  [[nodiscard]] bool disposed() const { return body.value("disposed", false); }
  [[nodiscard]] std::string text(const char* member) const { return body.value(member, std::string()); }
};
[[nodiscard]] std::optional<Vessel> vessel_in(const Documents& documents, const std::string& id);

[[nodiscard]] Container container_of(const nlohmann::json& body);
[[nodiscard]] Batch batch_of(const nlohmann::json& body);

/// What a label says of shelf life; nothing where the label is not known.
[[nodiscard]] ShelfLife shelf_life_in(const Documents& documents, std::string_view digest);
/// First moment at which a container or batch may no longer be used.
[[nodiscard]] std::int64_t vessel_usable_until(const Documents& documents, const Vessel& vessel);

/// "colder" or "hotter" than the label of these facts allows, in millikelvins; empty inside its range.
[[nodiscard]] std::string_view off_storage_range(const nlohmann::json& label_facts, std::int64_t mk);

/// The lot as it is now known; of a batch, the lots of its parts. Documents that lack a part (a device's) tell
/// the lot that the batch was mixed with.
[[nodiscard]] std::string lot_of(const Documents& documents, const Vessel& vessel);

/// The same of a draw of a job (`job-draws`).
[[nodiscard]] std::string lot_of_draw(const Documents& documents, const nlohmann::json& draw);

/// The entry that brought a vessel in: one sequence number, or none.
[[nodiscard]] std::vector<std::int64_t> first_movement(const Documents& documents, const std::string& vessel);

/// What is ordered and counted as one (docs/entries.md).
[[nodiscard]] std::string item_of(std::string_view product, std::string_view part);
[[nodiscard]] std::string item_of(const nlohmann::json& container);

/// "2026-03-04", the UTC day of a time.
[[nodiscard]] std::string day_of(std::int64_t ms);
/// Key of the use of an item on a day.
[[nodiscard]] std::string use_key(std::string_view item, std::string_view day);

/// "12.8 fl oz": a volume for a message.
[[nodiscard]] std::string volume_words(std::int64_t ul, Rounding rounding = Rounding::nearest);

}  // namespace fogwright
