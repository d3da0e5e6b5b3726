// SPDX-License-Identifier: Apache-2.0
// A job through the command line, step by step.
#include <catch2/catch.hpp>

#include "job_house.hpp"

using namespace fogwright::test;
using nlohmann::json;

namespace {

constexpr std::int64_t minute = 60'000;

std::vector<std::string> rules_of(const json& written) {
  std::vector<std::string> rules;
  for (const json& one : written.at("departures")) rules.push_back(one.at("rule"));
  return rules;
}

void fog(JobHouse& house) {
  for (const char* name : {"return 1", "return 2"}) {
    house.machine.pass(63'000);
    house.done({"job", "fogged", "J1", name, "--time", "63 s"});
  }
}

std::int64_t hold_ms(JobHouse& house) { return house.job().at("hold").at("total_ms").get<std::int64_t>(); }

}  // namespace

TEST_CASE("A ready-to-use and a high-strength job go from plan to close, step by step") {
  for (const char* product : {"fenmist-rtu", "brackwater-20"}) {
    INFO(product);
    JobHouse house(product);
    house.meet("before mixing or filling");
    house.meet("before fogging");
    house.done({"job", "clear", "J1"});
    house.done({"job", "start", "J1"});
    fog(house);
    house.meet("while fogging");
    house.done({"job", "fog-off", "J1", "--left", "7 fl oz"});
    house.machine.pass(hold_ms(house));
    house.meet("before release");
    house.done({"job", "release", "J1"});
    house.meet("before closing");
    const Ran closed = house.done({"job", "close", "J1", "--json"});
    CHECK(rules_of(closed.json()).empty());
    const json job = house.job();
    CHECK(job.at("state") == "closed");
    CHECK(job.at("missing").empty());
    CHECK(house.done({"job", "list", "--json"}).json().at("jobs").empty());
    CHECK(house.done({"job", "list", "--all", "--json"}).json().at("jobs").size() == 1);
  }
}

TEST_CASE("A start with open items is refused with status 1, and the refusal stands in the book") {
  JobHouse house("brackwater-20");
  const Ran refused = house.call({"job", "start", "J1", "--json"});
  CHECK(refused.status == 1);
  CHECK(refused.error().at("code") == "gate-closed");
  CHECK(refused.error().at("message").get<std::string>().find("everyone-out") != std::string::npos);
  CHECK(refused.json().at("entries").at(0).at("kind") == "start-refused");
  const json job = house.job();
  CHECK(job.at("state") == "planned");
  CHECK(job.at("starts_refused") == 1);
  // Nothing on the command line or in the environment opens it.
  house.machine.environment["FOGWRIGHT_FORCE"] = "1";
  for (const char* option : {"--force", "--override", "--yes", "--skip-gate"})
    CHECK(house.call({"job", "start", "J1", option}).status == 2);
  CHECK(house.call({"job", "start", "J1"}).status == 1);
}

TEST_CASE("A release in the hold is refused with status 1, and the refusal stands in the book") {
  JobHouse house("fenmist-rtu");
  house.meet("before mixing or filling");
  house.meet("before fogging");
  house.done({"job", "start", "J1"});
  fog(house);
  house.done({"job", "fog-off", "J1"});
  const Ran early = house.call({"job", "check", "J1", "haze-gone", "yes", "--json"});
  CHECK(early.status == 1);
  CHECK(early.error().at("code") == "hold-running");
  const Ran refused = house.call({"job", "release", "J1", "--json"});
  CHECK(refused.status == 1);
  CHECK(refused.error().at("code") == "hold-running");
  CHECK(refused.json().at("entries").at(0).at("kind") == "release-refused");
  house.machine.pass(hold_ms(house) - 5 * minute);
  CHECK(house.call({"job", "release", "J1"}).status == 1);
  house.done({"job", "reading", "J1", "--substance", "10049-04-4", "--value", "0.5 mg/m3"});
  house.machine.pass(5 * minute);
  house.meet("before release");
  // Nothing in this product gives off what was read: its limit is not known, so it speaks against the release.
  CHECK(house.call({"job", "release", "J1"}).status == 1);
  CHECK(house.job().at("releases_refused") == 3);
}

TEST_CASE("An answer that does not show the item is refused and leaves it open") {
  JobHouse house("fenmist-rtu");
  CHECK(house.call({"job", "check", "J1", "entrances-posted", "1"}).status == 1);
  CHECK(house.call({"job", "check", "J1", "everyone-out", "some"}).status == 2);
  CHECK(house.call({"job", "check", "J1", "no-such-item", "yes"}).status == 1);
  CHECK(house.call({"job", "check", "J9", "filter-out", "yes"}).status == 1);
  CHECK(house.call({"job", "check", "J1", "filter-out"}).status == 2);
  house.done({"job", "check", "J1", "filter-out", "yes"});
  house.done({"job", "lapse", "J1", "filter-out", "--why", "put back for the night"});
  bool open = false;
  const json job = house.job();
  for (const auto& one : job.at("missing")) open = open || one.at("requirement") == "filter-out";
  CHECK(open);
}

TEST_CASE("A photo stands in the book by its SHA-256") {
  JobHouse house("fenmist-rtu");
  const TemporaryFile photo("abc", ".jpg");
  house.done({"job", "check", "J1", "product-right", "DEMO-1", "--photo", photo.path()});
  // FIPS 180-4, example of one block.
  CHECK(house.job().at("met").at("product-right").at("evidence").at("photo") ==
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

TEST_CASE("A plan needs an adopted product, a technician and a zone that exists") {
  JobHouse house("fenmist-rtu");
  const std::vector<std::string> plan = {"job", "plan", "--area", "2400", "--returns", "2"};
  const auto with = [&](std::vector<std::string> more) {
    std::vector<std::string> words = plan;
    words.insert(words.end(), more.begin(), more.end());
    return house.call(words).status;
  };
  CHECK(with({"--technician", "rowan"}) == 2);
  CHECK(with({"--product", "fenmist-rtu"}) == 2);
  CHECK(with({"--product", "gorsebane", "--technician", "rowan"}) == 1);
  CHECK(with({"--product", "fenmist-rtu", "--technician", "nobody"}) == 1);
  CHECK(with({"--product", "fenmist-rtu", "--technician", "rowan", "--zone", "Tarn/Vale"}) == 2);
  CHECK(with({"--product", "fenmist-rtu", "--technician", "rowan", "--job", "J1"}) == 1);
  CHECK(with({"--product", "fenmist-rtu", "--technician", "rowan"}) == 0);
}

TEST_CASE("Times are shown at the job's place, across the change to daylight saving") {
  JobHouse house("fenmist-rtu");
  // 8 March 2026, 01:00 CST: clocks go from 02:00 to 03:00 (America/Chicago, IANA time zone database).
  house.machine.pass(1'772'953'200'000 - house.machine.now_ms);
  house.done({"crew", "list"});
  house.meet("before mixing or filling");
  house.meet("before fogging");
  house.done({"job", "start", "J1"});
  fog(house);
  house.done({"job", "fog-off", "J1"});
  const json hold = house.job().at("hold");
  CHECK(hold.at("total_ms") == 182 * minute);
  // 01:0x plus 3 h 02 min is 05:0x by the clock on the wall.
  CHECK(hold.at("words").get<std::string>().find("2026-03-08 05:0") != std::string::npos);
  CHECK(hold.at("words").get<std::string>().find("CDT") != std::string::npos);
  house.machine.pass(178 * minute);
  CHECK(house.call({"job", "release", "J1"}).status == 1);
  house.machine.pass(5 * minute);
  house.meet("before release");
  house.done({"job", "release", "J1"});
}

TEST_CASE("A hold across 29 February is as long as any other") {
  JobHouse house("fenmist-rtu");
  // 29 February 2028, 23:00 in Chicago; papers and product of 2026 have lapsed, so the fog is recorded late.
  house.machine.pass(1'835'499'600'000 - house.machine.now_ms);
  const Ran ran =
      house.done({"job", "record", "J1", "--why", "no phone", "--started", "2028-02-29 22:30", "--ended",
                  "2028-02-29 22:34", "--return", "return 1=63 s", "--return", "return 2=63 s"});
  CHECK(ran.out.find("departure (grave)") != std::string::npos);
  const json hold = house.job().at("hold");
  CHECK(hold.at("words").get<std::string>().find("2028-03-01 01:36 CST") != std::string::npos);
}

TEST_CASE("A job done without the tool is recorded, with what it broke") {
  JobHouse house("fenmist-rtu");
  house.machine.pass(8 * 60 * minute);
  const Ran ran =
      house.done({"job", "record", "J1", "--why", "no phone", "--started", "2026-03-02 09:00", "--ended",
                  "2026-03-02 09:04", "--released", "2026-03-02 10:00", "--return", "return 1=63 s", "--return",
                  "return 2=200 s", "--met", "everyone-out=3", "--json"});
  const auto rules = rules_of(ran.json());
  for (const char* rule :
       {"done-without-tool", "start-without-item", "credential-lapsed", "time-off-band", "hold-not-kept"}) {
    INFO(rule);
    CHECK(std::find(rules.begin(), rules.end(), rule) != rules.end());
  }
  CHECK(house.job().at("state") == "released");
}
