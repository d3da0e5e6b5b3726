// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace fogwright::pq {

/// Marks bytes that are to be sent as bytea; plain text is sent as text.
struct Bytes {
  std::string_view bytes;
};

/// A column of values, sent as an array.
struct Integers {
  std::vector<std::int64_t> values;
};
struct Texts {
  std::vector<std::string_view> values;
};
struct ByteStrings {
  std::vector<std::string_view> values;
};

/// A parameter of a statement in PostgreSQL's binary format.
struct Value {
  Value(std::int64_t integer);        // NOLINT(google-explicit-constructor): a parameter is what it holds
  Value(bool truth);                  // NOLINT(google-explicit-constructor)
  Value(std::string_view text);       // NOLINT(google-explicit-constructor)
  Value(Bytes bytes);                 // NOLINT(google-explicit-constructor)
  Value(const char*) = delete;        // would be taken for a truth
  Value(const Integers& integers);    // NOLINT(google-explicit-constructor)
  Value(const Texts& texts);          // NOLINT(google-explicit-constructor)
  Value(const ByteStrings& strings);  // NOLINT(google-explicit-constructor)

  std::uint32_t type;  ///< PostgreSQL's number of the type
  std::string owned;
  std::string_view borrowed = {};  ///< if not empty, the value: it outlives the call

  [[nodiscard]] std::string_view bytes() const { return borrowed.empty() ? std::string_view(owned) : borrowed; }
};

/// A whole number of 1, 2, 4 or 8 bytes, as an answer holds it.
[[nodiscard]] std::int64_t integer_of(std::string_view bytes);

}  // namespace fogwright::pq
