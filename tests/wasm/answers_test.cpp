// SPDX-License-Identifier: Apache-2.0
// The native engine and the one in the browser are held to one file of answers. Run with FOGWRIGHT_APPROVE=1 to
// write it anew, and read the difference before it goes in.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>

#include "browser/answer.hpp"
#include "difference.hpp"
#include "golden.hpp"

namespace {

using nlohmann::json;

using fogwright::test::difference;
using fogwright::test::read_file;

const auto requests_file = fogwright::test::root / "tests/wasm/requests.json";
const auto expected_file = fogwright::test::root / "tests/wasm/expected.json";

json answer_to(const json& one) {
  const std::string request =
      one.contains("request") ? one["request"].dump() : std::string(one["request_text"]);
  const std::string label =
      one.contains("label")
          ? read_file(fogwright::test::root / "product_profiles_demo" / std::string(one["label"]))
          : std::string(one["label_text"]);
  return json::parse(fogwright::plan_answer(request, label));
}

json all_answers() {
  json answers;
  for (const json& one : json::parse(read_file(requests_file))) {
    const std::string name = one["name"];
    INFO(name);
    REQUIRE(!answers.contains(name));
    answers[name] = answer_to(one);
  }
  return answers;
}

}  // namespace

TEST_CASE("the answers to the pages are those that were approved") {
  const json answers = all_answers();
  if (std::getenv("FOGWRIGHT_APPROVE")) std::ofstream(expected_file) << answers.dump(1) << '\n';
  const json expected = json::parse(read_file(expected_file));
  for (const auto& [name, answer] : answers.items()) {
    INFO("FOGWRIGHT_APPROVE=1 writes the file anew");
    REQUIRE(expected.contains(name));
    CHECK(difference(answer, expected[name], name) == "");
  }
  CHECK(answers.size() == expected.size());
}

TEST_CASE("a difference is found, and named") {
  const json plan = {{"n", 3}, {"x", 2.5}, {"list", {1, "a"}}};
  CHECK(difference(plan, plan, "") == "");
  CHECK(difference(plan, {{"n", 3}, {"x", 2.5 + 1e-14}, {"list", {1, "a"}}}, "") == "");
  CHECK(difference(plan, {{"n", 3}, {"x", 2.5 + 1e-10}, {"list", {1, "a"}}}, "") == "/x");
  CHECK(difference(plan, {{"n", 4}, {"x", 2.5}, {"list", {1, "a"}}}, "") == "/n");
  CHECK(difference(plan, {{"n", 3}, {"x", 2.5}, {"list", {1, "b"}}}, "") == "/list/1");
  CHECK(difference(plan, {{"n", 3}, {"x", nullptr}, {"list", {1, "a"}}}, "") == "/x");
  CHECK(difference(plan, {{"n", 3}, {"y", 2.5}, {"list", {1, "a"}}}, "") == "/x");
}
