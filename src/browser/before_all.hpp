// SPDX-License-Identifier: Apache-2.0
// Given to the compiler before every file of the browser's engine; the headers that most of them include are
// compiled once with it. A guard by name holds across that, #pragma once doesn't.
#ifndef FOGWRIGHT_BROWSER_BEFORE_ALL_HPP
#define FOGWRIGHT_BROWSER_BEFORE_ALL_HPP

#include <array>
#include <charconv>
#include <compare>

// It is built without exceptions. What a JSON value of another type would throw leaves the step it was taken in
// instead (why_unreadable), through JavaScript, which can. What the step had in hand is not given back: some
// hundred bytes for an entry that another program wrote badly.
[[noreturn]] void fogwright_give_up();
#define JSON_THROW_USER(exception) ::fogwright_give_up()
#define JSON_TRY_USER if (true)
#define JSON_CATCH_USER(exception) if (false)

namespace std {

// toml++ reads numbers with these where it is told to; the browser's library declares some and has none, and
// the streams that toml++ would take instead bring the locales of the world along. src/browser/numbers.cpp has
// them.
from_chars_result from_chars(const char* first, const char* last, double& value);
to_chars_result to_chars(char* first, char* last, double value);
to_chars_result to_chars(char* first, char* last, double value, chars_format format, int precision = 6);

// Nor does that library order arrays in three ways yet.
template <class T, size_t N>
constexpr strong_ordering operator<=>(const array<T, N>& a, const array<T, N>& b) {
  for (size_t i = 0; i < N; ++i)
    if (a[i] != b[i]) return a[i] < b[i] ? strong_ordering::less : strong_ordering::greater;
  return strong_ordering::equal;
}

}  // namespace std

#endif
