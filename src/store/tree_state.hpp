// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "fogwright/store.hpp"
#include "store/book_tables.hpp"

namespace fogwright {

/// What has to be known of the record to go on with it.
struct TreeState {
  CompactRange tree;
  Hash last_hash{};  ///< leaf hash of the last entry; zeros if there is none
  std::int64_t last_received_ms = 0;
  std::optional<Uuid> largest_id;  ///< none if there are no entries

  /// False if no entry has this id, for certain. Ids begin with their time: nearly every new one is larger than
  /// all that are there, which needs no look at the table.
  [[nodiscard]] bool may_have(const Uuid& id) const { return largest_id && id <= *largest_id; }
  [[nodiscard]] std::int64_t size() const { return static_cast<std::int64_t>(tree.size()); }
  [[nodiscard]] Head head() const { return {size(), tree.root(), last_received_ms}; }
};

/// Brings a state up to what the tables hold. False if entries that the state knows are gone or are other ones;
/// the state is that of the tables all the same. Throws StorageFault (bad_book) if nodes or the last entry are
/// damaged.
[[nodiscard]] bool catch_up(TreeState& state, BookTables& tables, std::string_view origin);

/// The entry that these bytes are. Throws StorageFault (bad_book) if they are none.
[[nodiscard]] Entry sound_entry(std::int64_t seq, std::string_view leaf, std::string_view origin);

}  // namespace fogwright
