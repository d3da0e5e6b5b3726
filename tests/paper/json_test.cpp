// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "demo_papers.hpp"

using namespace fogwright;

TEST_CASE("every paper comes back from JSON as it was") {
  for (const auto& [name, paper] : test::all_papers(paper::Language::es, paper::PageSize::a4)) {
    INFO(name);
    const auto again = paper::paper_from_json(paper::json_of(paper));
    REQUIRE(again.has_value());
    CHECK(*again == paper);
  }
}

TEST_CASE("JSON that describes no paper is refused with what is off") {
  CHECK_FALSE(paper::paper_from_json("{").has_value());
  CHECK_FALSE(paper::paper_from_json("{}").has_value());
  const auto unknown = paper::paper_from_json(
      R"({"title":"","author":"","language":"en","size":"A4","made":"","footer":"","blocks":[{"kind":"poem"}]})");
  REQUIRE_FALSE(unknown.has_value());
  CHECK(unknown.error().code == ErrorCode::not_understood);
  CHECK(unknown.error().message.find("poem") != std::string::npos);
}
