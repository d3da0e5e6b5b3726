// SPDX-License-Identifier: Apache-2.0
// What puts an earlier entry right, and notes.
#include <catch2/catch.hpp>

#include "office.hpp"

using fogwright::test::Office;
using nlohmann::json;

namespace {

/// The entry of this number as the API lists it.
json entry_at(Office& office, std::int64_t seq) {
  const json listed =
      office.done("fen", "GET", "/api/v1/book/entries?limit=1&from=" + std::to_string(seq))["items"];
  REQUIRE(listed.size() == 1);
  return listed.front();
}

/// The last entry of a kind.
json last_entry_of(Office& office, const std::string& kind) {
  json last;
  const json all = office.done("fen", "GET", "/api/v1/book/entries?limit=1000");
  for (const json& entry : all["items"])
    if (entry["kind"] == kind) last = entry;
  REQUIRE(last.is_object());
  return last;
}

std::string corrections_of_entry(const json& entry) {
  return "/api/v1/book/entries/" + entry["id"].get<std::string>() + "/corrections";
}

const json seal_words = {{"text", "the seal was broken"}, {"why", "seen late"}};

}  // namespace

TEST_CASE("an entry is put right by another; both show, and the departure names both") {
  Office office;
  office.open_shop();
  const json receipt = last_entry_of(office, "container-received");
  const std::string id = office.new_id();
  const json written = office.done("rowan", "POST", corrections_of_entry(receipt), seal_words, {.id = id});
  const std::int64_t seq = written["entries"][0]["seq"];
  const json departure = written["departures"].at(0);
  CHECK(departure["rule"] == "correction");
  CHECK(departure["what"] ==
        "corrects entry " + std::to_string(receipt["seq"].get<int>()) + " (container-received): seen late");
  CHECK(departure["shown_by"] == json::array({receipt["seq"]}));
  const json note = entry_at(office, seq);
  CHECK(note["kind"] == "note");
  CHECK(note["corrects"] == receipt["id"]);
  CHECK(note["reason"] == "seen late");
  CHECK_FALSE(note.contains("corrected_by"));
  json expected = receipt;
  expected["corrected_by"] = {seq};
  CHECK(entry_at(office, receipt["seq"]) == expected);

  SECTION("sent twice under one id it is one entry") {
    const auto again = office.ask("rowan", "POST", corrections_of_entry(receipt), seal_words, {.id = id});
    CHECK(again.status == 200);
    CHECK(json::parse(again.body)["entries"] == written["entries"]);
    CHECK(office.entries() == seq + 1);
  }
  SECTION("the same id for another entry's correction is refused") {
    const json other = entry_at(office, receipt["seq"].get<std::int64_t>() + 1);
    CHECK(office.ask("rowan", "POST", corrections_of_entry(other), seal_words, {.id = id}).status == 422);
  }
}

TEST_CASE("an entry that is not there, or that takes another role, is not put right") {
  Office office;
  office.open_shop();
  const std::int64_t size = office.entries();
  const json nowhere = office.json_of(
      "rowan", "POST", "/api/v1/book/entries/019a4c2e-5c00-7a31-8f00-0000000000a1/corrections", seal_words);
  CHECK(nowhere["code"] == "not-found");
  CHECK(office.ask("rowan", "POST", "/api/v1/book/entries/7/corrections", seal_words).status == 400);
  const json place = last_entry_of(office, "place-added");
  CHECK(office.ask("rowan", "POST", corrections_of_entry(place), seal_words).status == 403);
  CHECK(office.ask("rowan", "POST", corrections_of_entry(place), {{"text", "x"}}).status == 400);
  CHECK(office.entries() == size);
  office.done("ash", "POST", corrections_of_entry(place), seal_words);
}

TEST_CASE("a container's label is put right; the book goes on by it") {
  Office office;
  office.open_shop();
  const json receipt = last_entry_of(office, "container-received");
  const json written = office.done(
      "rowan", "POST", "/api/v1/vessels/C1/corrections",
      {{"lot", "A71"}, {"expires", "2026-03-01"}, {"cost", "84.50"}, {"why", "two digits were swapped"}});
  CHECK(written["entries"][0]["body"]["cost_cents"] == 8'450);
  CHECK(written["departures"][0]["shown_by"] == json::array({receipt["seq"]}));
  const json shown = office.done("rowan", "GET", "/api/v1/vessels/C1");
  CHECK(shown["lot"] == "A71");
  CHECK(shown["earlier_lots"] == json{"A17"});
  CHECK(shown["usable"] == false);
  const auto code = [&](const json& body) {
    return office.json_of("rowan", "POST", "/api/v1/vessels/C1/corrections", body)["code"];
  };
  CHECK(code({{"lot", "A71"}, {"why", "again"}}) == "wrong-state");
  CHECK(code({{"why", "again"}}) == "missing-value");
  CHECK(code({{"lot", "A72"}}) == "missing-value");
  CHECK(code({{"cost", "dear"}, {"why", "again"}}) == "not-understood");
}

TEST_CASE("a note is written about what the book knows") {
  Office office;
  office.open_shop();
  office.done("rowan", "POST", "/api/v1/notes", {{"about", "J1"}, {"text", "the cellar door sticks"}});
  CHECK(last_entry_of(office, "note")["body"] ==
        json{{"about", "J1"}, {"job", "J1"}, {"text", "the cellar door sticks"}});
  CHECK(office.ask("rowan", "POST", "/api/v1/notes", {{"about", "J9"}, {"text", "x"}}).status == 404);
}
