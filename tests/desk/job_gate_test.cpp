// SPDX-License-Identifier: Apache-2.0
// The gate: what stands between a job and its start.
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>

#include "job_world.hpp"

using namespace desk_test;
using nlohmann::json;

namespace {

std::vector<std::string> open_items(const JobWorld& world) {
  std::vector<std::string> ids;
  for (const Missing& missing :
       missing_for_start(world.shop.book(), world.job(), world.shop.now(), chicago("", world.shop.now())))
    ids.push_back(missing.requirement);
  return ids;
}

bool is_open(const JobWorld& world, const std::string& item) {
  const auto open = open_items(world);
  return std::find(open.begin(), open.end(), item) != open.end();
}

std::string why_open(const JobWorld& world, const std::string& item) {
  for (const Missing& missing :
       missing_for_start(world.shop.book(), world.job(), world.shop.now(), chicago("", world.shop.now())))
    if (missing.requirement == item) return missing.why;
  return "it is met";
}

Error answer_refused(const JobWorld& world, const std::string& item, const std::string& answer) {
  return Shop::refused(meet_requirement(world.context(), "J1", item, answer, chicago));
}

Error start_refused(JobWorld& world) {
  const auto decision = start_job(world.context(), "J1", chicago);
  world.write(decision);
  REQUIRE(decision->refusal);
  return *decision->refusal;
}

}  // namespace

TEST_CASE("A refused start names every open item, is written down, and starts nothing") {
  JobWorld world("brackwater-20");
  const Error refusal = start_refused(world);
  CHECK(refusal.code == ErrorCode::gate_closed);
  for (const std::string& item : world.items_before_start()) {
    INFO(item);
    CHECK(refusal.message.find(item) != std::string::npos);
  }
  const Entry& written = world.shop.entries().back();
  CHECK(written.kind == "start-refused");
  CHECK(written.body.at("missing").size() == world.items_before_start().size());
  CHECK(world.state() == JobState::planned);
  CHECK(world.job().at("starts_refused") == 1);
}

TEST_CASE("A high-strength job starts when, and only when, every item is met") {
  JobWorld world("brackwater-20");
  world.meet_before_start();
  CHECK(open_items(world).empty());
  world.start();
  CHECK(world.state() == JobState::fogging);
  CHECK(world.shop.departures().empty());
}

TEST_CASE("Whatever subset of the items is met, fog starts only with all of them") {
  const JobWorld fresh("brackwater-20");
  const auto items = fresh.items_before_start();
  CHECK(rc::check("no start with an open item", [&] {
    JobWorld world("brackwater-20");
    world.mix();
    // Mostly met, so that single gaps come up often.
    std::size_t left_out = 0;
    for (const std::string& item : items) {
      if (*rc::gen::inRange(0, 12) == 0) {
        ++left_out;
        continue;
      }
      // Items that stand on another one cannot be met without it: they stay open too.
      const auto drafts = meet_requirement(world.context(), "J1", item, world.answer_of(item), chicago);
      if (drafts)
        world.shop.done(drafts);
      else
        ++left_out;
    }
    const auto decision = start_job(world.context(), "J1", chicago);
    RC_ASSERT(decision.has_value());
    RC_ASSERT(decision->refusal.has_value() == (left_out > 0));
    const bool starts = std::any_of(decision->drafts.begin(), decision->drafts.end(),
                                    [](const NewEntry& entry) { return entry.kind == "fog-started"; });
    RC_ASSERT(starts == (left_out == 0));
  }));
}

TEST_CASE("Each single item that is left open keeps the gate shut, for every strength") {
  for (const char* product : {"fenmist-rtu", "brackwater-20"}) {
    JobWorld world(product);
    world.meet_before_start();
    const auto items = world.items_before_start();
    CHECK(items.size() > 20);
    for (const std::string& item : items) {
      INFO(product << " " << item);
      world.shop.done(lapse_requirement(world.context(), "J1", item, "test"));
      const auto decision = start_job(world.context(), "J1", chicago);
      REQUIRE(decision.has_value());
      REQUIRE(decision->refusal);
      CHECK(decision->refusal->message.find(item) != std::string::npos);
      world.met(item, world.answer_of(item));
    }
    world.start();
  }
}

TEST_CASE("A lesser facepiece, or another size than was tested, is refused") {
  JobWorld world("brackwater-20");
  CHECK(answer_refused(world, "respirator-facepiece", "half-mask, Saltwing 20, M").code ==
        ErrorCode::gate_closed);
  world.met("respirator-facepiece", "full-facepiece, Saltwing 40, L");
  CHECK(answer_refused(world, "fit-test", "yes").message.find("size L") != std::string::npos);
  world.met("respirator-facepiece", "full-facepiece, saltwing 40, m");
  world.met("fit-test", "yes");
}

TEST_CASE("Papers are looked up on the day of the start, not on the day they were shown") {
  JobWorld world("brackwater-20");
  world.meet_before_start();
  world.by("ash");
  const json person = world.shop.document("person", "rowan");
  for (const json& held : person.at("credentials"))
    if (held.at("what") == "medical-clearance")
      world.shop.done(withdraw_credential(world.context(), held.at("entry"), "ill"));
  world.by("rowan");
  CHECK(open_items(world) == std::vector<std::string>{"medical-clearance"});
}

TEST_CASE("A fit test is good to its last day") {
  JobWorld world("fenmist-rtu");
  world.met("respirator-facepiece", "full-facepiece, Saltwing 40, M");
  world.met("fit-test", "yes");
  // Issued on 5 January 2026: the last day is 5 January 2027, until midnight in Chicago (06:00 UTC).
  const std::int64_t last_midnight = 1'799'215'200'000;
  const auto open_at = [&](std::int64_t ms) {
    std::string why;
    // Met again on that day, as the lapse asks.
    json job = world.job();
    for (auto& met : job["met"]) met["at_ms"] = ms;
    for (const Missing& missing : missing_for_start(world.shop.book(), job, ms, chicago("", ms)))
      if (missing.requirement == "fit-test") why = missing.why;
    return why;
  };
  CHECK(open_at(last_midnight - 1) == "");
  CHECK(open_at(last_midnight).find("no fit test") != std::string::npos);
}

TEST_CASE("A cartridge must name what the plan asks for, be active, and have its hours left") {
  JobWorld world("brackwater-20");
  world.by("ash");
  world.shop.done(register_cartridge(world.context(), {"K2", "Reedmoor 3", {"organic vapor"}, 480, "maker"}));
  world.shop.done(register_cartridge(world.context(),
                                     {"K3", "Reedmoor 7", {"Organic Vapour / Acid Gas", "HEPA"}, 60, "maker"}));
  world.by("rowan");
  CHECK(answer_refused(world, "cartridge-words", "K2").message.find("organic vapor/acid gas") !=
        std::string::npos);
  CHECK(answer_refused(world, "cartridge-words", "K9").code == ErrorCode::not_found);
  world.met("cartridge-words", "K3");
  world.met("cartridge-hours", "60 min");
  CHECK(answer_refused(world, "cartridge-hours", "61 min").code == ErrorCode::gate_closed);
  CHECK(answer_refused(world, "cartridge-hours", "2 min").message.find("takes 3 min") != std::string::npos);
  // Worn elsewhere in between: the hours are counted again at the start.
  world.shop.done(use_cartridge(world.context(), "K3", 30, {}, "rowan"));
  CHECK(is_open(world, "cartridge-hours"));
  // Another cartridge than the one whose hours were checked.
  world.met("cartridge-words", "K1");
  CHECK(why_open(world, "cartridge-hours").find("not the one") != std::string::npos);
}

TEST_CASE("A batch that was mixed without a respirator does not start, with no way around") {
  JobWorld world("brackwater-20");
  world.meet_all(Stage::before_mixing);
  world.mix("M0", false);
  CHECK(answer_refused(world, "mix-time", "M0").message.find("without a respirator") != std::string::npos);
  // Neither does evidence that another program wrote.
  world.shop.write("requirement-met", {{"job", "J1"},
                                       {"requirement", "mix-time"},
                                       {"by", "rowan"},
                                       {"at_ms", world.shop.now()},
                                       {"evidence", {{"from", "M0"}, {"ms", 1}}}});
  CHECK(why_open(world, "mix-time").find("M0 was mixed without a respirator") != std::string::npos);
}

TEST_CASE("The seal is checked again after mixing") {
  JobWorld world("brackwater-20");
  world.meet_all(Stage::before_mixing);
  world.met("seal-check-fogging", "yes");
  world.met("respirator-fogging", "yes");
  world.wait(60'000);
  world.mix();
  world.met("mix-time", "M1");
  CHECK(why_open(world, "seal-check-fogging").find("after mixing") != std::string::npos);
  CHECK(is_open(world, "respirator-fogging"));
  world.met("seal-check-fogging", "yes");
  CHECK_FALSE(is_open(world, "seal-check-fogging"));
}

TEST_CASE("What was met yesterday is open today, but for what holds for the job") {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  CHECK(open_items(world).empty());
  world.wait(17 * hour_ms);  // 08:00 to 01:00 in Chicago
  for (const std::string& item : world.items_before_start()) {
    INFO(item);
    CHECK(is_open(world, item) == (find_rule(item)->lapse != Lapse::never_for_this_job));
  }
}

TEST_CASE("The day ends at the job's place, not in UTC") {
  JobWorld world("fenmist-rtu");
  world.wait(9 * hour_ms + 50 * 60'000);  // 23:50 UTC, 17:50 in Chicago
  world.met("fogger-checked", "yes");
  world.wait(20 * 60'000);
  CHECK_FALSE(is_open(world, "fogger-checked"));
}

TEST_CASE("Whoever enters opens again what stood on an empty house") {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  world.shop.done(lapse_all(world.context(), "J1", Lapse::when_someone_enters, "the owner fetched a coat"));
  CHECK(open_items(world) == std::vector<std::string>{"animals-out", "everyone-out", "nobody-else-inside"});
  CHECK(start_refused(world).code == ErrorCode::gate_closed);
}

TEST_CASE("An item that was met at a time still to come does not count") {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  world.set_clock(-2 * hour_ms);
  CHECK(why_open(world, "label-read").find("check the clock") != std::string::npos);
}

TEST_CASE("Counts, signs and the person outside are held against the site and the crew") {
  JobWorld world("brackwater-20");
  CHECK(answer_refused(world, "entrances-posted", "1").message.find("1 of 2") != std::string::npos);
  CHECK(answer_refused(world, "everyone-out", "all").code == ErrorCode::not_understood);
  CHECK(answer_refused(world, "everyone-out", "-1").code == ErrorCode::not_understood);
  CHECK(answer_refused(world, "standby-person", "rowan").code == ErrorCode::gate_closed);
  CHECK(answer_refused(world, "standby-person", "nobody").code == ErrorCode::gate_closed);
  CHECK(answer_refused(world, "label-read", "maybe").code == ErrorCode::not_understood);
  CHECK(answer_refused(world, "no-such-item", "yes").code == ErrorCode::not_found);
}

TEST_CASE("The container must hold the product, be in date, and hold enough") {
  JobWorld world("fenmist-rtu");
  world.shop.receive("C2", "fenmist-rtu", 100'000, "2027-01-31");
  world.shop.receive("C3", "palelight-hp", 4 * litre, "2027-01-31");
  world.shop.receive("C4", "fenmist-rtu", 4 * litre, "2026-03-01");
  CHECK(answer_refused(world, "product-right", "DEMO-2").code == ErrorCode::gate_closed);
  CHECK(answer_refused(world, "lot-noted", "C2").message.find("can take") != std::string::npos);
  CHECK(answer_refused(world, "lot-noted", "C3").message.find("palelight-hp") != std::string::npos);
  CHECK(answer_refused(world, "lot-noted", "C9").code == ErrorCode::gate_closed);
  world.met("lot-noted", "C1, C4");
  CHECK(answer_refused(world, "product-in-date", "2026-02-28").message.find("expired") != std::string::npos);
  CHECK(answer_refused(world, "product-in-date", "2027-01-31").message.find("C4") != std::string::npos);
  world.met("lot-noted", "C1");
  world.met("product-in-date", "2027-01-31");
}

TEST_CASE("A label that was replaced after the plan keeps the gate shut") {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  world.by("ash");
  world.shop.done(adopt_label(
      world.context(), {"fenmist-rtu", profile("fenmist-rtu") + "\n# newer\n", "x", std::string(64, 'a')}));
  world.by("rowan");
  CHECK(why_open(world, "label-read").find("another label") != std::string::npos);
}

TEST_CASE("Products that must not meet are refused in one job") {
  JobWorld world("brackwater-20");
  world.meet_before_start();
  world.shop.receive("P1", "palelight-hp", litre, "2027-01-31");
  world.shop.draw("P1", 1'000, "J1");
  const auto ours = read_label(profile("brackwater-20"), "a");
  const auto other = read_label(profile("palelight-hp"), "b");
  REQUIRE_FALSE(may_meet(*ours, *other).has_value());
  CHECK(start_refused(world).code == ErrorCode::incompatible_chemistry);
  CHECK(world.shop.entries().back().kind == "start-refused");
}

TEST_CASE("Only the technician for whom the gate was met starts the job") {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  world.by("ash");
  world.shop.done(enrol_person(world.context(), {"teal", {Role::technician}, {}}));
  for (const char* other : {"ash", "teal", "nobody"}) {
    world.by(other);
    const auto decision = start_job(world.context(), "J1", chicago);
    REQUIRE_FALSE(decision.has_value());
  }
  CHECK(world.state() == JobState::planned);
}

TEST_CASE("What somebody met who has left the crew is open again") {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  world.by("ash");
  world.shop.done(enrol_person(world.context(), {"teal", {Role::technician}, {}}));
  world.by("teal");
  world.met("filter-out", "yes");
  world.by("ash");
  world.shop.done(retire_person(world.context(), "teal", "moved away"));
  CHECK(open_items(world) == std::vector<std::string>{"filter-out"});
}

TEST_CASE("Fog that another program started is recorded, with every item that was open") {
  JobWorld world("brackwater-20");
  world.shop.write("fog-started", {{"job", "J1"}, {"clock", {{"boot", "x"}, {"uptime_ms", 1}}}});
  CHECK(world.state() == JobState::fogging);
  const auto rules = world.shop.departures();
  const auto papers = std::count(rules.begin(), rules.end(), "credential-lapsed");
  const auto items = std::count(rules.begin(), rules.end(), "start-without-item");
  CHECK(papers == 3);
  CHECK(papers + items == static_cast<std::ptrdiff_t>(world.items_before_start().size()));
  CHECK(std::count(rules.begin(), rules.end(), "out-of-order") == 1);
}

TEST_CASE("Minutes that another job lets a cartridge be worn count before they are booked") {
  JobWorld world("brackwater-20");
  world.shop.done(use_cartridge(world.context(), "K1", 400, {}, "rowan"));
  world.meet_before_start();
  world.start();  // 45 of the last 80 minutes
  world.plan();
  const auto answer = [&](const char* item, const char* typed) {
    return meet_requirement(world.context(), "J2", item, typed, chicago);
  };
  world.shop.done(answer("respirator-facepiece", "full-facepiece, Saltwing 40, M"));
  world.shop.done(answer("cartridge-words", "K1"));
  CHECK(Shop::refused(answer("cartridge-hours", "36 min")).message.find("445 min of its 480 min") !=
        std::string::npos);
  world.shop.done(answer("cartridge-hours", "35 min"));
}

TEST_CASE("A job that is given up books its cartridge, and no minute twice") {
  JobWorld world("brackwater-20");
  world.meet_before_start();
  world.start();
  world.shop.done(stop_job(world.context(), "J1", "the hose burst"));
  const auto used = [&] { return world.shop.document("cartridge", "K1").at("used_minutes").get<int>(); };
  CHECK(used() == 45);
  for (const auto& [told, booked] : std::vector<std::pair<std::string, int>>{
           {"40 min", 45}, {"60 min", 60}, {"50 min", 60}, {"61 min", 61}}) {
    world.met("cartridge-hours-added", told);
    CHECK(used() == booked);
  }
  // Given up before the fog: what was worn for mixing is booked when it is told.
  JobWorld early("brackwater-20");
  early.meet_before_start();
  early.shop.done(stop_job(early.context(), "J1", "nobody home"));
  CHECK(early.shop.document("cartridge", "K1").at("used_minutes") == 0);
  early.met("cartridge-hours-added", "12 min");
  CHECK(early.shop.document("cartridge", "K1").at("used_minutes") == 12);
}

TEST_CASE("A container that was emptied into the batch and thrown away keeps no gate shut") {
  JobWorld world("brackwater-20");
  world.meet_before_start();
  world.shop.write("disposed", {{"from", "A1"}, {"ul", world.shop.remaining("A1")}, {"how", "rinsed thrice"}});
  CHECK(open_items(world).empty());
}

TEST_CASE("A job that will draw from another container leaves this one to others") {
  JobWorld world("fenmist-rtu");
  world.shop.receive("C2", "fenmist-rtu", 700'000, "2027-01-31");
  world.meet_all(Stage::before_mixing);
  world.meet_all(Stage::before_fogging);
  world.met("lot-noted", "C1 C2");
  world.start();
  world.plan();
  world.shop.done(meet_requirement(world.context(), "J2", "lot-noted", "C2", chicago));
}

TEST_CASE("A batch that is off its label, or of product that had expired, is refused") {
  JobWorld world("brackwater-20");
  world.meet_all(Stage::before_mixing);
  const auto mixed = [&](const std::string& batch, std::vector<MixPart> parts) {
    MixRequest request;
    request.batch = batch;
    request.product = "brackwater-20";
    request.made_ul = 2 * litre;
    request.parts = std::move(parts);
    request.place = "heron";
    request.respirator_worn = true;
    request.reason = "as the test says";
    world.shop.done(mix_batch(world.context(), request));
    world.wait(60'000);
  };
  mixed("strong", {{"A1", 200'000}, {"B1", {}}});
  CHECK(answer_refused(world, "mix-time", "strong").message.find("otherwise than the label") !=
        std::string::npos);
  world.shop.receive("A9", "brackwater-20", litre, "2026-02-01", "heron", {}, "Part A concentrate");
  mixed("old", {{"A9", {}}, {"B1", {}}});
  CHECK(answer_refused(world, "mix-time", "old").message.find("had expired") != std::string::npos);
  world.shop.receive("A2", "brackwater-20", litre, "2027-01-31", "heron", {}, "Part A concentrate");
  mixed("other", {{"A2", {}}, {"B1", {}}});
  CHECK(answer_refused(world, "mix-time", "other").message.find("mixed out of A2") != std::string::npos);
  mixed("good", {{"A1", {}}, {"B1", {}}});
  world.met("mix-time", "good");
}

TEST_CASE("One batch does not serve two jobs that it is too small for") {
  JobWorld world("brackwater-20");
  world.meet_all(Stage::before_mixing);
  MixRequest request;
  request.batch = "M1";
  request.product = "brackwater-20";
  request.made_ul = 500'000;
  request.parts = {{"A1", {}}, {"B1", {}}};
  request.place = "heron";
  request.respirator_worn = true;
  world.shop.done(mix_batch(world.context(), request));
  world.wait(60'000);
  world.meet_all(Stage::before_fogging);
  world.start();
  world.plan();
  const Error refused = Shop::refused(meet_requirement(world.context(), "J2", "mix-time", "M1", chicago));
  CHECK(refused.message.find("can take") != std::string::npos);
}

TEST_CASE("Product from a place that was last read out of the label's range is refused") {
  JobWorld world("fenmist-rtu");
  world.met("lot-noted", "C1");
  const auto read = [&](double celsius) {
    world.shop.write("storage-read",
                     {{"place", "heron"}, {"temperature_mk", std::llround((celsius + 273.15) * 1e3)}});
  };
  read(49);
  CHECK(answer_refused(world, "storage-kept", "yes").message.find("hotter") != std::string::npos);
  read(20);
  world.met("storage-kept", "yes");
  // What is read after the fog says nothing of what it was before.
  const std::int64_t then = world.shop.now();
  world.wait(hour_ms);
  read(49);
  const auto before = missing_for_start(world.shop.book(), world.job(), then, chicago("", then));
  CHECK(std::none_of(before.begin(), before.end(),
                     [](const Missing& one) { return one.requirement == "storage-kept"; }));
}

TEST_CASE("Answers that are recorded afterwards are read by those before them") {
  JobWorld world("brackwater-20");
  world.mix();
  world.wait(12 * hour_ms);
  LateRecord late = world.done_before(hour_ms);
  late.met = {{"mix-in-life", "yes"},
              {"cartridge-hours-added", "50 min"},
              {"cartridge-hours", "45 min"},
              {"mix-time", "M1"},
              {"cartridge-words", "K1"}};
  world.shop.done(record_job(world.context(), "J1", late, chicago));
  const json met = world.job().at("met");
  CHECK(met.at("cartridge-hours").at("evidence").at("cartridge") == "K1");
  CHECK(met.at("cartridge-hours-added").at("evidence").at("cartridge") == "K1");
  CHECK(met.at("mix-in-life").at("evidence").at("from") == "M1");
}
