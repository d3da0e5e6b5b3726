// SPDX-License-Identifier: Apache-2.0
// The binary format of PostgreSQL (its documentation, "Message Formats", and the send functions of its types):
// numbers are big endian; an array is the number of dimensions, a flag, the type of its elements, for each
// dimension its length and first index, then each element behind its length.
#include "store/pq_values.hpp"

namespace fogwright::pq {
namespace {

// Fixed numbers of PostgreSQL's catalog (pg_type.dat).
enum : std::uint32_t {
  type_bool = 16,
  type_bytea = 17,
  type_int8 = 20,
  type_text = 25,
  type_bytea_array = 1001,
  type_text_array = 1009,
  type_int8_array = 1016
};

template <class Unsigned>
void put(std::string& to, Unsigned value) {
  for (int shift = 8 * static_cast<int>(sizeof value) - 8; shift >= 0; shift -= 8)
    to.push_back(static_cast<char>(value >> shift & 0xFF));
}

std::string array_head(std::uint32_t type, std::size_t count) {
  std::string bytes;
  put<std::uint32_t>(bytes, count == 0 ? 0 : 1);
  put<std::uint32_t>(bytes, 0);
  put(bytes, type);
  if (count == 0) return bytes;
  put(bytes, static_cast<std::uint32_t>(count));
  put<std::uint32_t>(bytes, 1);
  return bytes;
}

std::string array_of(std::uint32_t type, const std::vector<std::string_view>& values) {
  std::string bytes = array_head(type, values.size());
  for (const std::string_view value : values) {
    put(bytes, static_cast<std::uint32_t>(value.size()));
    bytes += value;
  }
  return bytes;
}

std::string array_of(const std::vector<std::int64_t>& values) {
  std::string bytes = array_head(type_int8, values.size());
  for (const std::int64_t value : values) {
    put<std::uint32_t>(bytes, sizeof value);
    put(bytes, static_cast<std::uint64_t>(value));
  }
  return bytes;
}

}  // namespace

Value::Value(std::int64_t integer) : type(type_int8) { put(owned, static_cast<std::uint64_t>(integer)); }
Value::Value(bool truth) : type(type_bool), owned(1, truth ? '\1' : '\0') {}
Value::Value(std::string_view text) : type(type_text), borrowed(text) {}
Value::Value(Bytes bytes) : type(type_bytea), borrowed(bytes.bytes) {}
Value::Value(const Integers& integers) : type(type_int8_array), owned(array_of(integers.values)) {}
Value::Value(const Texts& texts) : type(type_text_array), owned(array_of(type_text, texts.values)) {}
Value::Value(const ByteStrings& strings)
    : type(type_bytea_array), owned(array_of(type_bytea, strings.values)) {}

std::int64_t integer_of(std::string_view bytes) {
  if (bytes.empty()) return 0;
  auto value = static_cast<std::uint64_t>(static_cast<std::int64_t>(static_cast<signed char>(bytes.front())));
  for (const char byte : bytes.substr(1)) value = value << 8 | static_cast<unsigned char>(byte);
  return static_cast<std::int64_t>(value);
}

}  // namespace fogwright::pq
