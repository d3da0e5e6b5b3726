// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>

#include "fogwright/book/uuid.hpp"

/// One entry of the book and its exact bytes. The grammar is in docs/record-format.md.
namespace fogwright {

/// The version of the record format that this program writes ("v" of the envelope).
inline constexpr int record_version = 1;

/// The most bytes that an entry may have, so that it fits the 16-bit length of tlog-tiles bundles.
inline constexpr std::size_t most_leaf_bytes = 65'535;

/// The latest time that an entry may carry: the end of the year 9999, in milliseconds since 1970 UTC.
inline constexpr std::int64_t latest_time_ms = 253'402'300'799'999;

/// What happened, once. Never edited: a correction is a new entry that names the old one.
struct Entry {
  std::int64_t seq = 0;          ///< place in the book, from 0
  Uuid id;                       ///< UUIDv7, made where the entry was made
  std::int64_t happened_ms = 0;  ///< milliseconds since 1970 UTC, by the clock of the device
  std::int64_t received_ms = 0;  ///< the same, when the book took it in
  std::string actor;             ///< who: a handle, 1 to 128 bytes
  std::string device;            ///< where it was made, 1 to 128 bytes
  std::string kind;              ///< e.g. "stock-received": lower case, digits, hyphens; 1 to 64 bytes
  nlohmann::json body;           ///< an object of integers, strings, true, false, null, arrays, objects
  std::optional<Uuid> corrects;  ///< the entry that this one puts right
  std::string reason;            ///< why; 1 to 1,024 bytes if `corrects` is set, else empty

  friend bool operator==(const Entry&, const Entry&) = default;
};

/// The entry as it is stored and hashed, the same bytes for the same entry always. `origin` names the book.
/// Refuses what the format does not allow (bad_entry; `where` is the member).
[[nodiscard]] Result<std::string> leaf_bytes(const Entry& entry, std::string_view origin);

/// The entry of stored bytes. Strict: the bytes must be exactly what leaf_bytes makes of the entry, and no
/// unknown member may stand in the envelope (bad_entry; newer_book if a newer version wrote it).
[[nodiscard]] Result<Entry> read_entry(std::string_view bytes, std::string_view origin);

/// Whether the bytes end as those of every entry with this sequence number do. Tells cheaply whether they
/// claim the place they stand in; it proves nothing about the rest of them.
[[nodiscard]] bool claims_seq(std::string_view bytes, std::uint64_t seq) noexcept;

}  // namespace fogwright
