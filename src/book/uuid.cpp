// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/uuid.hpp"

#include <algorithm>

#include "book/big_endian.hpp"
#include "fogwright/book/encoding.hpp"

namespace fogwright {
namespace {

constexpr std::uint64_t rand_b_mask = (std::uint64_t{1} << 62) - 1;

Uuid assemble(std::uint64_t ms, std::uint64_t rand_a, std::uint64_t rand_b) {
  const std::string bytes =
      big_endian(ms << 16 | 0x7000U | rand_a, 8) + big_endian(std::uint64_t{1} << 63 | rand_b, 8);
  Uuid id;
  std::copy(bytes.begin(), bytes.end(), id.bytes.begin());
  return id;
}

std::uint64_t half(const Uuid& id, std::size_t at) { return read_big_endian(as_bytes(id.bytes).substr(at, 8)); }

// The next greater UUIDv7: the 74 random bits as a counter, carried into the time when they run over.
Uuid successor(const Uuid& id) {
  std::uint64_t rand_b = (half(id, 8) & rand_b_mask) + 1;
  std::uint64_t rand_a = (half(id, 0) & 0xFFFU) + (rand_b >> 62);
  const std::uint64_t ms = (half(id, 0) >> 16) + (rand_a >> 12);
  return assemble(ms, rand_a & 0xFFFU, rand_b & rand_b_mask);
}

}  // namespace

Uuid uuid_v7(std::int64_t unix_ms, const UuidRandom& random) {
  const std::string_view bytes = as_bytes(random);
  const auto ms = std::clamp<std::int64_t>(unix_ms, 0, (std::int64_t{1} << 48) - 1);
  return assemble(static_cast<std::uint64_t>(ms), read_big_endian(bytes.substr(0, 2)) & 0xFFFU,
                  read_big_endian(bytes.substr(2)) & rand_b_mask);
}

bool is_v7(const Uuid& id) noexcept { return id.bytes[6] >> 4 == 7 && id.bytes[8] >> 6 == 2; }

std::int64_t uuid_ms(const Uuid& id) noexcept { return static_cast<std::int64_t>(half(id, 0) >> 16); }

std::string uuid_text(const Uuid& id) {
  std::string text = to_hex(as_bytes(id.bytes));
  for (const std::size_t at : {8U, 13U, 18U, 23U}) text.insert(at, 1, '-');
  return text;
}

Result<Uuid> read_uuid(std::string_view text) {
  std::string digits;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool dash_place = i == 8 || i == 13 || i == 18 || i == 23;
    if (!dash_place || text[i] != '-') digits += text[i];
  }
  const auto bytes = from_hex(digits);
  if (text.size() != 36 || digits.size() != 32 || !bytes) {
    return fail(ErrorCode::not_understood, "this is not an id such as 017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
  }
  Uuid id;
  std::copy(bytes->begin(), bytes->end(), id.bytes.begin());
  return id;
}

UuidMaker::UuidMaker(std::function<std::int64_t()> clock, std::function<UuidRandom()> random)
    : clock_(std::move(clock)), random_(std::move(random)) {}

Uuid UuidMaker::next() {
  const Uuid fresh = uuid_v7(clock_(), random_());
  last_ = fresh > last_ ? fresh : successor(last_);
  return last_;
}

}  // namespace fogwright
