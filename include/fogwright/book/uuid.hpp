// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <compare>
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>

#include "fogwright/error.hpp"

namespace fogwright {

/// A UUID (RFC 9562), in the order of its bytes. An identifier, never a secret; its time is a hint, never
/// evidence of when something happened.
struct Uuid {
  std::array<std::uint8_t, 16> bytes{};

  friend auto operator<=>(const Uuid&, const Uuid&) = default;
};

/// Ten random octets, of which a UUIDv7 uses 74 bits: all but the top 4 of the first two octets (rand_a,
/// 12 bits) and the top 2 of the other eight (rand_b, 62 bits).
using UuidRandom = std::array<std::uint8_t, 10>;

/// A UUIDv7 of RFC 9562 section 5.7. `unix_ms` is limited to 0 .. 2^48 - 1.
[[nodiscard]] Uuid uuid_v7(std::int64_t unix_ms, const UuidRandom& random);

/// Whether the version is 7 and the variant that of RFC 9562.
[[nodiscard]] bool is_v7(const Uuid& id) noexcept;

/// The 48-bit Unix time of a UUIDv7, in milliseconds.
[[nodiscard]] std::int64_t uuid_ms(const Uuid& id) noexcept;

/// "017f22e2-79b0-7cc3-98c4-dc0c0c07398f", lower case.
[[nodiscard]] std::string uuid_text(const Uuid& id);

/// Reads 8-4-4-4-12 hexadecimal digits of either case (not_understood otherwise).
[[nodiscard]] Result<Uuid> read_uuid(std::string_view text);

/// Makes UUIDv7s of which each is greater than the one before, also within a millisecond and when the clock
/// is set back (RFC 9562 section 6.2, method 2). Not for use from two threads at once.
class UuidMaker {
 public:
  /// `clock` gives milliseconds since 1970 UTC; `random` must be unpredictable enough not to repeat.
  UuidMaker(std::function<std::int64_t()> clock, std::function<UuidRandom()> random);

  [[nodiscard]] Uuid next();

 private:
  std::function<std::int64_t()> clock_;
  std::function<UuidRandom()> random_;
  Uuid last_{};  // all zeros: less than any UUIDv7
};

}  // namespace fogwright
