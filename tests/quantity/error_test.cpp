// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "fogwright/error.hpp"

using namespace fogwright;

TEST_CASE("every error code has a name of its own, in kebab case") {
  std::set<std::string_view> names;
  for (ErrorCode code : all_error_codes()) {
    const auto name = code_name(code);
    CAPTURE(name);
    CHECK(names.insert(name).second);
    CHECK(std::all_of(name.begin(), name.end(), [](char c) { return (c >= 'a' && c <= 'z') || c == '-'; }));
  }
}
