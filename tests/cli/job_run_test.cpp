// SPDX-License-Identifier: Apache-2.0
// A technician walks through a job at the terminal; it is broken off wherever it can be.
#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

#include "job_house.hpp"

using namespace fogwright::test;
using nlohmann::json;

namespace {

/// What must be the same whenever the walk was broken off.
json facts_of(JobHouse& house) {
  const json job = house.job();
  json facts = {{"state", job.at("state")},
                {"used_ul", job.at("used_ul")},
                {"measured", job.at("measured")},
                {"not_done", job.at("not_done")},
                {"starts_refused", job.at("starts_refused")},
                {"releases_refused", job.at("releases_refused")}};
  for (const auto& [item, met] : job.at("met").items()) facts["met"][item] = met.at("evidence");
  std::map<std::string, std::int64_t> fogged;
  for (const json& one : job.at("returns")) fogged[one.at("return")] += one.at("actual_ms").get<std::int64_t>();
  facts["fogged"] = fogged;
  return facts;
}

void check_hold_kept(JobHouse& house) {
  const json job = house.job();
  const auto held =
      job.at("released").at("ms").get<std::int64_t>() - job.at("fog_ended").at("ms").get<std::int64_t>();
  CHECK(held >= job.at("plan").at("hold_minutes").at("total").get<std::int64_t>() * 60'000);
}

std::size_t count(const std::string& text, const std::string& words) {
  std::size_t found = 0;
  for (auto at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) ++found;
  return found;
}

std::vector<std::int64_t> stretches_of(JobHouse& house) {
  std::vector<std::int64_t> all;
  const json job = house.job();
  for (const json& one : job.at("returns")) all.push_back(one.at("actual_ms"));
  return all;
}

/// A house where the power failed 25 s into the first return, and where the stretch was kept.
struct DarkHouse : JobHouse {
  explicit DarkHouse(const JobHouse& fresh) : JobHouse(fresh), running(give_home()) {
    power_fails_at = 100;
    CHECK_THROWS_AS(walk(), PowerLost);
    power_fails_at = -1;
    opened_ms = machine.now_ms - 25'000;
    REQUIRE(kept() == 1);
    REQUIRE(job().at("returns").empty());
  }
  /// `job run` with these answers, then nobody answers any more.
  Ran answered(std::vector<std::string> answers) {
    machine.lines = std::move(answers);
    machine.on_line = {};
    return done({"job", "run", "J1"});
  }
  [[nodiscard]] std::ptrdiff_t kept() const {
    return std::distance(std::filesystem::directory_iterator(running), {});
  }

  std::string running;
  std::int64_t opened_ms = 0;
};

constexpr const char* taken_up = "was being timed when the tool ended";

}  // namespace

TEST_CASE("A technician is walked from the gate to the close, in both strengths") {
  for (const char* product : {"fenmist-rtu", "brackwater-20"}) {
    INFO(product);
    JobHouse house(product);
    const Ran ran = house.walk();
    INFO(ran.out << ran.err);
    REQUIRE(ran.status == 0);
    CHECK(house.job().at("state") == "closed");
    CHECK(facts_of(house).at("fogged") == json({{"return 1", 63'000}, {"return 2", 63'000}}));
    check_hold_kept(house);
    // One signal a mark and return, each with a bell; the high mark (72 s) was not reached.
    CHECK(count(ran.out, "\a") == 4);
    CHECK(count(ran.out, "LOW MARK") == 2);
    CHECK(count(ran.out, "TARGET") == 2);
    CHECK(ran.out.find("FIFRA") != std::string::npos);
  }
}

TEST_CASE("Broken off at any answer and taken up again, a job ends with the same facts and a hold in full") {
  const JobHouse fresh("fenmist-rtu");
  JobHouse whole(fresh);
  REQUIRE(whole.walk().status == 0);
  const json facts = facts_of(whole);
  bool closed = false;
  for (int cut = 0; !closed; ++cut) {
    INFO("broken off after " << cut << " answers");
    REQUIRE(cut < 200);
    JobHouse house(fresh);
    REQUIRE(house.walk(cut).status == 0);
    closed = house.job().at("state") == "closed";
    house.machine.clock = {"boot-2", 5'000};  // the device was off in between
    const Ran again = house.walk();
    INFO(again.err);
    REQUIRE(again.status == 0);
    CHECK(facts_of(house) == facts);
    check_hold_kept(house);
  }
}

TEST_CASE("Power lost in the fog: what was not written is asked for, and the return is not lost") {
  JobHouse house("fenmist-rtu");  // without a home folder nothing is known of the stretch
  house.power_fails_at = 100;     // 25 s into the first return
  CHECK_THROWS_AS(house.walk(), PowerLost);
  CHECK(house.job().at("state") == "fogging");
  CHECK(house.job().at("returns").empty());
  house.power_fails_at = -1;
  house.machine.clock = {"boot-2", 5'000};
  const Ran ran = house.walk();
  REQUIRE(ran.status == 0);
  CHECK(ran.out.find("seconds if it was open already") != std::string::npos);
  CHECK(house.job().at("state") == "closed");
  check_hold_kept(house);
}

TEST_CASE("A stretch that was being timed when the power failed is asked for, and all of it is recorded") {
  const JobHouse fresh("fenmist-rtu");
  for (const bool rebooted : {false, true}) {
    INFO(rebooted);
    DarkHouse house(fresh);
    house.machine.pass(10'000);                                                   // the valve stays open
    const std::int64_t open_ms = house.machine.now_ms + 1'000 - house.opened_ms;  // a call takes a second
    if (rebooted)
      house.machine.clock = {"boot-2", 5'000};
    else
      house.machine.now_ms += 24 * 3'600'000LL;  // within one boot no clock that is set bends it
    const Ran ran = house.walk();
    INFO(ran.out << ran.err);
    REQUIRE(ran.status == 0);
    CHECK(count(ran.out, taken_up) == 1);
    CHECK(stretches_of(house) == std::vector<std::int64_t>{open_ms, 63'000, 63'000});
    CHECK(facts_of(house).at("fogged") == json({{"return 1", open_ms + 63'000}, {"return 2", 63'000}}));
    CHECK(house.job().at("state") == "closed");
    CHECK(house.kept() == 0);
    check_hold_kept(house);
  }
}

TEST_CASE("Power lost at any time of the fog: nothing is left behind, and no return is short") {
  const JobHouse fresh("fenmist-rtu");
  for (const int waits : {0, 1, 100, 251, 252, 253, 400, 503}) {
    INFO(waits);
    JobHouse house(fresh);
    const std::string running = house.give_home();
    house.power_fails_at = waits;
    CHECK_THROWS_AS(house.walk(), PowerLost);
    house.power_fails_at = -1;
    house.machine.clock = {"boot-2", 5'000};
    const Ran ran = house.walk();
    INFO(ran.out << ran.err);
    REQUIRE(ran.status == 0);
    CHECK(count(ran.out, taken_up) == 1);
    CHECK(house.job().at("state") == "closed");
    CHECK(std::filesystem::is_empty(running));
    const json facts = facts_of(house);
    for (const json& ms : facts.at("fogged")) CHECK(ms >= 54'000);  // the low mark
  }
}

TEST_CASE("How long the valve was open is told in seconds; the rest of the return follows") {
  const JobHouse fresh("fenmist-rtu");
  {
    DarkHouse house(fresh);
    const Ran ran = house.answered({"soon", "20"});
    CHECK(count(ran.out, "Seconds that the valve was open") == 2);  // what cannot be read is asked again
    CHECK(ran.out.find("20.0 s so far") != std::string::npos);
    CHECK(stretches_of(house) == std::vector<std::int64_t>{20'000});
    CHECK(house.kept() == 0);
  }
  {
    DarkHouse house(fresh);
    const Ran ran = house.answered({"60"});  // in the band: the next one
    CHECK(count(ran.out, "so far") == 1);
    CHECK(ran.out.find("return 2: ") != std::string::npos);
    CHECK(stretches_of(house) == std::vector<std::int64_t>{60'000});
  }
  {
    DarkHouse house(fresh);
    (void)house.answered({"0"});
    CHECK(stretches_of(house).empty());
    CHECK(house.kept() == 0);
    CHECK(count(house.answered({}).out, taken_up) == 0);
  }
  {
    DarkHouse house(fresh);
    (void)house.answered({});  // left without an answer: asked again
    CHECK(house.kept() == 1);
    CHECK(count(house.answered({}).out, taken_up) == 1);
    CHECK(stretches_of(house).empty());
  }
}

TEST_CASE("What the clocks cannot tell of a stretch is not made up") {
  const JobHouse fresh("fenmist-rtu");
  {
    DarkHouse house(fresh);
    house.machine.clock = {"boot-2", 5'000};
    house.machine.pass(20 * 3'600'000LL);
    (void)house.answered({""});
    CHECK(stretches_of(house) == std::vector<std::int64_t>{6 * 3'600'000LL});  // as much as one record takes
  }
  {
    DarkHouse house(fresh);
    house.machine.clock = {"boot-2", 5'000};
    house.machine.now_ms = house.opened_ms - 3'600'000;  // the clock was set back
    const Ran ran = house.answered({"", "33"});
    CHECK(ran.out.find("(0: it was never opened)") != std::string::npos);
    CHECK(stretches_of(house) == std::vector<std::int64_t>{33'000});
  }
}

TEST_CASE(
    "Where the book got more of a return since, it is asked whether this stretch is among it; Enter is no "
    "answer") {
  const JobHouse fresh("fenmist-rtu");
  for (const auto& [typed, so_far] :
       std::vector<std::pair<std::string, std::string>>{{"0", "30.0 s so far"}, {"12", "42.0 s so far"}}) {
    DarkHouse house(fresh);
    house.done({"job", "fogged", "J1", "return 1", "--time", "30 s"});
    const Ran ran = house.answered({"", typed});
    CHECK(count(ran.out, taken_up) == 1);
    CHECK(ran.out.find("The book got 30.0 s of it since") != std::string::npos);
    CHECK(ran.out.find(so_far) != std::string::npos);
    CHECK(house.kept() == 0);
  }
}

TEST_CASE("A stretch that cannot be kept, or not be read again, does not stop the work") {
  const JobHouse fresh("fenmist-rtu");
  {
    JobHouse house(fresh);
    house.machine.environment["XDG_DATA_HOME"] = house.machine.environment["FOGWRIGHT_BOOK"];  // no folder
    REQUIRE(house.walk().status == 0);
    CHECK(house.job().at("state") == "closed");
  }
  for (const char* damaged : {"", "{", "[]", "{\"book\":1}"}) {
    INFO(damaged);
    DarkHouse house(fresh);
    std::ofstream(std::filesystem::directory_iterator(house.running)->path()) << damaged;
    const Ran ran = house.walk();
    REQUIRE(ran.status == 0);
    CHECK(count(ran.out, taken_up) == 0);
    CHECK(house.job().at("state") == "closed");
    CHECK(house.kept() == 0);
  }
}

TEST_CASE("Power lost anywhere in the hold does not shorten it, nor does a clock set forward") {
  const JobHouse fresh("fenmist-rtu");
  for (const int waits : {510, 560, 620, 680}) {  // 2 returns take 504 waits; the rest are minutes of the hold
    INFO(waits);
    JobHouse house(fresh);
    house.power_fails_at = waits;
    CHECK_THROWS_AS(house.walk(), PowerLost);
    CHECK(house.job().at("state") == "holding");
    house.power_fails_at = -1;
    house.machine.now_ms += 24 * 3'600'000LL;  // same boot, clock set forward by a day
    const std::int64_t before = house.machine.clock.uptime_ms;
    const std::int64_t off = house.job().at("fog_ended").at("clock").at("uptime_ms");
    REQUIRE(house.walk().status == 0);
    CHECK(house.job().at("state") == "closed");
    CHECK(house.machine.clock.uptime_ms - off >= 182 * 60'000);
    CHECK(house.machine.clock.uptime_ms > before);
  }
}

TEST_CASE("No, and nothing, leave an item open; the start is refused and says which") {
  JobHouse house("fenmist-rtu");
  house.machine.on_line = [](const std::string& shown) -> std::optional<std::string> {
    if (shown.ends_with("Type start > ")) return "start";
    return shown.find("Take the filter out") == std::string::npos ? "no" : "";
  };
  const Ran ran = house.call({"job", "run", "J1"});
  CHECK(ran.status == 1);
  CHECK(ran.err.find("filter-out") != std::string::npos);
  CHECK(house.job().at("starts_refused") == 1);
  CHECK(house.job().at("met").empty());
}

TEST_CASE("A pause counts nothing; the stretches add up") {
  JobHouse house("fenmist-rtu");
  house.meet("before mixing or filling");
  house.meet("before fogging");
  house.done({"job", "start", "J1"});
  int waits = 0;
  int lines = 0;
  house.machine.on_line = [&](const std::string&) -> std::optional<std::string> {
    return lines++ == 0 ? std::optional<std::string>("") : std::nullopt;
  };
  house.machine.on_key = [&](std::int64_t timeout_ms) -> std::optional<char> {
    house.machine.pass(timeout_ms);
    ++waits;
    if (waits == 80) return 'p';   // 20 s
    if (waits == 100) return 'p';  // 20 s of pause
    if (waits == 272) return 'n';  // 43 s more
    return std::nullopt;
  };
  REQUIRE(house.call({"job", "run", "J1"}).status == 0);
  const json returns = house.job().at("returns");
  REQUIRE(returns.size() == 2);
  CHECK(returns[0].at("actual_ms") == 20'000);
  CHECK(returns[1].at("actual_ms") == 43'000);
}

TEST_CASE("Nobody at the keyboard: the clock stops after the high mark and asks") {
  JobHouse house("fenmist-rtu");
  house.meet("before mixing or filling");
  house.meet("before fogging");
  house.done({"job", "start", "J1"});
  int lines = 0;
  house.machine.on_line = [&](const std::string& shown) -> std::optional<std::string> {
    ++lines;
    if (lines == 1) return "";
    if (lines > 2) return std::nullopt;
    CHECK(shown.find("HIGH MARK") != std::string::npos);
    return "70";
  };
  REQUIRE(house.call({"job", "run", "J1"}).status == 0);
  CHECK(house.job().at("returns").at(0).at("actual_ms") == 70'000);
}

TEST_CASE("Seconds short of the low mark: the same return is asked for again") {
  JobHouse house("fenmist-rtu");
  house.meet("before mixing or filling");
  house.meet("before fogging");
  house.done({"job", "start", "J1"});
  house.machine.lines = {"20", "0", "35"};
  const Ran ran = house.call({"job", "run", "J1"});
  REQUIRE(ran.status == 0);
  CHECK(count(ran.out, "return 1: ") == 3);
  CHECK(count(ran.out, "20.0 s so far") == 2);
  CHECK(count(ran.out, "return 2: ") == 1);
  CHECK(stretches_of(house) == std::vector<std::int64_t>{20'000, 35'000});
}

TEST_CASE("An input that has ended is noticed in a countdown") {
  JobHouse house("fenmist-rtu");
  house.meet("before mixing or filling");
  house.meet("before fogging");
  house.done({"job", "start", "J1"});
  house.done({"job", "fog-off", "J1"});
  house.machine.on_key = [](std::int64_t) { return std::nullopt; };
  const Ran ran = house.call({"job", "run", "J1"});
  CHECK(ran.status == 0);
  CHECK(ran.out.find("goes on from this point") != std::string::npos);
  CHECK(house.job().at("state") == "holding");
}
