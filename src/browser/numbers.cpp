// SPDX-License-Identifier: Apache-2.0
// Numbers for toml++, without streams and locales (before_all.hpp).
#include <fast_float/fast_float.h>
#include <fmt/format.h>

namespace std {

from_chars_result from_chars(const char* first, const char* last, double& value) {
  const auto read = fast_float::from_chars(first, last, value);
  return {read.ptr, read.ec};
}

to_chars_result to_chars(char* first, char* last, double value) {
  const auto written = fmt::format_to_n(first, static_cast<size_t>(last - first), "{}", value);
  return {written.out, written.size > static_cast<size_t>(last - first) ? errc::value_too_large : errc{}};
}

// toml++ names it for output that nothing here asks for.
to_chars_result to_chars(char* first, char* last, double value, chars_format, int) {
  return to_chars(first, last, value);
}

}  // namespace std
