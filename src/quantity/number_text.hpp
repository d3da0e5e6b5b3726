// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

namespace fogwright::text {

/// Why a text was not understood; becomes the end of an Error's message and its hint.
struct Refusal {
  std::string reason;
  std::string hint;  ///< empty: the accepted forms say enough
};

template <class T>
using Read = tl::expected<T, Refusal>;

[[nodiscard]] inline tl::unexpected<Refusal> refuse(std::string reason, std::string hint = {}) {
  return tl::make_unexpected(Refusal{std::move(reason), std::move(hint)});
}

struct Number {
  double value = 0.0;
  bool whole = false;      ///< written without a fraction or decimals
  std::size_t length = 0;  ///< characters taken from the front of the text
};

/// The number that an ASCII text starts with: "2,400", "0.5", ".5", "1/3", "1 1/2", "1-1/2". No sign, no
/// exponent, no locale.
[[nodiscard]] Read<Number> read_leading_number(std::string_view s);

}  // namespace fogwright::text
