// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "office.hpp"

using fogwright::test::Office;
using nlohmann::json;

namespace {

/// An entry that a phone made by itself.
json made(Office& office, const std::string& kind, json body, std::int64_t minutes_ago = 10) {
  return {{"id", office.new_id()},
          {"kind", kind},
          {"happened_ms", office.now_ms - minutes_ago * 60'000},
          {"body", std::move(body)}};
}

json draw(Office& office, std::int64_t ul, std::int64_t minutes_ago = 10) {
  return made(office, "drawn", {{"from", "C1"}, {"ul", ul}, {"job", "J1"}}, minutes_ago);
}

json send(Office& office, const std::string& who, const std::vector<json>& entries,
          std::int64_t clock_off_ms = 0) {
  return office.done(who, "POST", "/api/v1/sync",
                     {{"device_now_ms", office.now_ms + clock_off_ms}, {"entries", entries}});
}

std::int64_t left_in_c1(Office& office) {
  return office.done("fen", "GET", "/api/v1/vessels/C1")["remaining_ul"];
}

bool raised(const json& result, const std::string& rule) {
  for (const json& departure : result.value("departures", json::array()))
    if (departure["rule"] == rule) return true;
  return false;
}

}  // namespace

TEST_CASE("entries made offline are taken in with their own times") {
  Office office;
  office.open_shop();
  const json entry = draw(office, 300'000, 45);
  const json answer = send(office, "rowan", {entry});
  CHECK(answer["results"][0]["result"] == "accepted");
  CHECK(answer["clock_off_ms"] == 0);
  const auto stored = office.books->reader()->entry(answer["results"][0]["seq"]);
  CHECK(stored->happened_ms == entry["happened_ms"]);
  CHECK(stored->received_ms == office.now_ms);
  CHECK(stored->actor == "rowan");
}

TEST_CASE("a batch that is cut off and sent again loses nothing and doubles nothing") {
  Office office;
  office.open_shop();
  const std::int64_t before = left_in_c1(office);
  std::vector<json> batch;
  for (int i = 0; i < 6; ++i) batch.push_back(draw(office, 10'000));
  for (std::size_t cut = 0; cut <= batch.size(); ++cut) {
    const std::vector<json> part(batch.begin(), batch.begin() + static_cast<std::ptrdiff_t>(cut));
    const json answer = send(office, "rowan", part);
    for (std::size_t i = 0; i < cut; ++i)
      CHECK(answer["results"][i]["result"] == (i + 1 == cut ? "accepted" : "already-there"));
  }
  CHECK(left_in_c1(office) == before - 60'000);
}

TEST_CASE("two phones that both took the last of a container: both are written, and the excess is raised") {
  Office office;
  office.open_shop();
  const std::int64_t all = left_in_c1(office);
  const json first = draw(office, all), second = draw(office, all);
  CHECK(send(office, "rowan", {first})["results"][0]["result"] == "accepted");
  const json answer = send(office, "fen", {second});
  CHECK(answer["results"][0]["result"] == "accepted-with-departures");
  CHECK(raised(answer["results"][0], "over-draw"));
  CHECK(left_in_c1(office) == 0);
}

TEST_CASE("a start that the gate would have refused is written as what happened, and raised") {
  Office office;
  office.open_shop();
  const json entry = made(office, "fog-started", {{"job", "J1"}, {"clock", {{"boot", "b"}, {"uptime_ms", 5}}}});
  const json answer = send(office, "rowan", {entry});
  CHECK(answer["results"][0]["result"] == "accepted-with-departures");
  CHECK(raised(answer["results"][0], "start-without-item"));
  CHECK(office.done("fen", "GET", "/api/v1/jobs/J1")["state"] == "fogging");
}

TEST_CASE("two phones on one job: the second start is out of order, and both stand in the record") {
  Office office;
  office.open_shop();
  const json body = {{"job", "J1"}, {"clock", {{"boot", "b"}, {"uptime_ms", 5}}}};
  send(office, "rowan", {made(office, "fog-started", body)});
  const json answer = send(office, "rowan", {made(office, "fog-started", body)});
  CHECK(raised(answer["results"][0], "out-of-order"));
}

TEST_CASE("a clock that is an hour ahead is raised, and said once for the batch") {
  Office office;
  office.open_shop();
  constexpr std::int64_t hour = 60 * 60'000;
  const std::vector<json> batch = {draw(office, 10'000, -60), draw(office, 10'000, -61)};
  const json answer = send(office, "rowan", batch, hour);
  CHECK(answer["clock_off_ms"] == hour);
  CHECK(raised(answer["results"][0], "clock-ahead"));
  const std::int64_t size = office.entries();
  CHECK(office.books->reader()->entry(size - 1)->kind == "note");
  send(office, "rowan", batch, hour);
  CHECK(office.entries() == size);
}

TEST_CASE("what a device may not send is refused by itself, and the rest is taken in") {
  Office office;
  office.open_shop();
  json stranger = draw(office, 10'000);
  stranger["id"] = "no id";
  const json person = made(office, "person-enrolled", {{"handle", "teal"}, {"roles", {"owner"}}});
  const json of_another = made(
      office, "requirement-met",
      {{"job", "J1"}, {"requirement", "x"}, {"by", "ash"}, {"evidence", {{"confirmed", true}}}, {"at_ms", 1}});
  const json fine = draw(office, 10'000);
  const json results = send(office, "rowan", {stranger, person, of_another, fine})["results"];
  CHECK(results[0]["result"] == "refused");
  CHECK(results[1]["code"] == "not-permitted");
  CHECK(results[2]["code"] == "not-permitted");
  CHECK(results[3]["result"] == "accepted");
}

TEST_CASE("an id with another body is refused, not mistaken for the entry that is there") {
  Office office;
  office.open_shop();
  json entry = draw(office, 10'000);
  send(office, "rowan", {entry});
  entry["body"]["ul"] = 20'000;
  CHECK(send(office, "rowan", {entry})["results"][0]["code"] == "bad-entry");
}

TEST_CASE("a body that no program of ours wrote is kept and raised, and stops nothing") {
  Office office;
  office.open_shop();
  const json answer = send(office, "rowan", {made(office, "drawn", {{"from", 7}}), draw(office, 10'000)});
  CHECK(raised(answer["results"][0], "unreadable-body"));
  CHECK(answer["results"][1]["result"] == "accepted");
}

TEST_CASE(
    "the end of a fog that a slow phone dated too early counts from the server's time, and is said once") {
  constexpr std::int64_t hour = 3'600'000;
  for (const std::int64_t off : {-4 * hour, std::int64_t{-60'000}}) {
    Office office;
    office.open_shop();
    office.now_ms += 5 * hour;
    // The phone stamps them by its own clock; it sends them as they happen.
    const auto by_phone = [&](const std::string& kind, json body) {
      json entry = made(office, kind, std::move(body), 0);
      entry["happened_ms"] = office.now_ms + off;
      return entry;
    };
    const json clock = {{"boot", "page"}, {"uptime_ms", 1'000}};
    const std::vector<json> batch = {
        by_phone("fog-started", {{"job", "J1"}, {"clock", clock}}),
        by_phone("fog-ended",
                 {{"job", "J1"}, {"clock", clock}, {"used_ul", 300'000}, {"measured", "by-time"}})};
    const json answer = send(office, "rowan", batch, off);
    const bool slow = off < -120'000;
    CHECK(raised(answer["results"][1], "clock-set-in-hold") == slow);
    const json job = office.done("rowan", "GET", "/api/v1/jobs/J1");
    CHECK(job["fog_ended"]["ms"] == office.now_ms + off);
    CHECK(job["fog_ended"].value("office_ms", json()) == (slow ? json(office.now_ms) : json()));
    const std::int64_t size = office.entries();
    send(office, "rowan", batch, off);
    CHECK(office.entries() == size);
    office.now_ms += 3 * hour;  // of 184 min
    CHECK(office.ask("rowan", "POST", "/api/v1/jobs/J1/release").status >= 400);
  }
}
