// SPDX-License-Identifier: Apache-2.0
#include <cstdio>
#include <cstdlib>

#include "invariants.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto broken = fogwright::test::broken_invariant({reinterpret_cast<const char*>(data), size});
  if (broken.empty()) return 0;
  std::fprintf(stderr, "%s\n", broken.c_str());
  std::abort();
}
