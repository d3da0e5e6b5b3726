// SPDX-License-Identifier: Apache-2.0
/// Gives one text to every reader. A reader may refuse; it may not crash, give a value that is negative or not
/// finite, or refuse without saying why and what to write.

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "readers_by_name.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view typed(reinterpret_cast<const char*>(data), size);
  for (const auto& [name, read] : fogwright::testing::readers_by_name()) {
    const auto value = read(typed, "fuzz");
    if (value && !(std::isfinite(*value) && *value >= 0.0)) std::abort();
    if (!value && (value.error().message.empty() || value.error().hint.empty())) std::abort();
  }
  return 0;
}
