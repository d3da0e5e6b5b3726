// SPDX-License-Identifier: Apache-2.0
#include "audit/glance.hpp"

#include <rapidcheck.h>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <vector>

using namespace fogwright;
using nlohmann::json;

TEST_CASE("A glance finds the members of an object, whatever stands in the others") {
  const json object = {{"what", "he said \"no\\\" {[\n"},
                       {"seq", 12},
                       {"minus", -7},
                       {"deep", {{"seq", 99}, {"list", {1, "]}"}}}},
                       {"live", true},
                       {"job", "J1"}};
  for (const int indent : {-1, 2}) {
    const std::string text = object.dump(indent);
    const Glance glance(text);
    CHECK(glance.integer("seq") == 12);
    CHECK(glance.integer("minus") == -7);
    CHECK(glance.word("job") == "J1");
    CHECK(glance.text("what") == object["what"].get<std::string>());
    CHECK(json::parse(glance.raw("deep")) == object["deep"]);
    CHECK(glance.raw("live") == "true");
    CHECK(glance.raw("list").empty());
    CHECK_FALSE(glance.integer("job"));
    CHECK(glance.word("seq").empty());
  }
}

TEST_CASE("The elements of an array come one after the other") {
  std::vector<std::string> seen;
  each_element(R"([{"a":[1,2]}, "x,y", -3 ,[]])",
               [&](std::string_view element) { seen.emplace_back(element); });
  CHECK(seen == std::vector<std::string>{R"({"a":[1,2]})", R"("x,y")", "-3", "[]"});
  seen.clear();
  each_element("[]", [&](std::string_view element) { seen.emplace_back(element); });
  CHECK(seen.empty());
}

TEST_CASE("What is no JSON, or was cut anywhere, is read without going past its end") {
  const std::string whole = json{{"a", "x\\\"y"}, {"rows", {{{"ul", 5}}, {{"ul", -5}}}}, {"z", 3}}.dump();
  for (std::size_t length = 0; length + 2 < whole.size(); ++length) {
    const std::vector<char> cut(whole.begin(),
                                whole.begin() + static_cast<std::ptrdiff_t>(length));  // no slack
    const Glance glance({cut.data(), cut.size()});
    CHECK_FALSE(glance.integer("z") == 3);
    each_element(glance.raw("rows"), [](std::string_view element) { (void)Glance(element).integer("ul"); });
  }
}

TEST_CASE("A glance agrees with a full reading on strings of any sort") {
  CHECK(rc::check([](const std::vector<std::uint8_t>& bytes, std::int64_t number) {
    const json object = {{"a", std::string(bytes.begin(), bytes.end())}, {"n", number}};
    const std::string text = object.dump(-1, ' ', true, json::error_handler_t::replace);
    const Glance glance(text);
    RC_ASSERT(glance.integer("n") == number);
    RC_ASSERT(glance.text("a") == json::parse(text)["a"].get<std::string>());
  }));
}
