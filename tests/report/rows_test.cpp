// SPDX-License-Identifier: Apache-2.0
#include "report/rows.hpp"

#include <catch2/catch.hpp>

using namespace fogwright;
using nlohmann::json;

TEST_CASE("named columns come first and always, the others by name", "[exchange]") {
  const json rows = json::parse(R"([{"z": 1, "a": 2, "id": "C1"}, {"id": "C2", "b": 3}])");
  CHECK(rows_csv(rows, {"id", "place"}) == "id,place,a,b,z\r\nC1,,2,,1\r\nC2,,,3,\r\n");
  CHECK(rows_csv(json::array(), {"id", "place"}) == "id,place\r\n");
}

TEST_CASE("objects become dotted columns, lists one field", "[exchange]") {
  const json rows = json::parse(
      R"([{"id": "J1", "fog": {"clock": {"boot": "b"}, "by": "ash"}, "roles": ["owner", "technician"],
           "parts": [{"ul": 1}], "odd": ["a;b"], "none": null, "on": true, "empty": {}}])");
  CHECK(rows_csv(rows, {"id"}) ==
        "id,fog.by,fog.clock.boot,none,odd,on,parts,roles\r\n"
        "J1,ash,b,,\"[\"\"a;b\"\"]\",true,\"[{\"\"ul\"\":1}]\",owner; technician\r\n");
}

TEST_CASE("a moment is told as date and time of UTC, a duration stays a number", "[exchange]") {
  // 2 March 2026, 14:00 UTC, as in tests/desk/shop.hpp.
  const json rows = json::parse(
      R"([{"at_ms": 1772460000000, "actual_ms": 42000, "fog": {"ms": 1772460001999, "uptime_ms": 5}, "opened_ms": null}])");
  CHECK(rows_csv(rows, {}) ==
        "actual_ms,at_utc,fog.uptime_ms,fog.utc,opened_utc\r\n"
        "42000,2026-03-02 14:00:00,5,2026-03-02 14:00:01,\r\n");
}

TEST_CASE("a name that is a formula is guarded, a negative number is not", "[exchange]") {
  CHECK(rows_csv(json::parse(R"([{"name": "=1+1", "ul": -12, "x": ["@a"]}])"), {}) ==
        "name,ul,x\r\n'=1+1,-12,'@a\r\n");
}

TEST_CASE("rows of rows carry the single values of what they stand in", "[exchange]") {
  const json shown = json::parse(
      R"({"vans": [{"van": "heron", "packages": [{"id": "C1"}, {"id": "C2"}], "findings": []},
                   {"van": "plover", "packages": []}], "words": "two vans"})");
  CHECK(rows_at(shown, "vans.packages") ==
        json::parse(R"([{"id": "C1", "van": "heron"}, {"id": "C2", "van": "heron"}])"));
  CHECK(rows_at(shown, "vans").size() == 2);
  CHECK(rows_at(shown, ".") == json::array({shown}));
}

TEST_CASE("JSON Lines hold a row a line, whole", "[exchange]") {
  const json rows = json::parse(R"([{"a": "x\ny"}, {"b": [1, {"c": -1}]}])");
  const std::string text = rows_json_lines(rows);
  CHECK(text == "{\"a\":\"x\\ny\"}\n{\"b\":[1,{\"c\":-1}]}\n");
}
