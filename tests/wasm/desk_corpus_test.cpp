// SPDX-License-Identifier: Apache-2.0
// Whole jobs on a device's desk: what a phone decides with no signal. The calls and their answers are kept
// (desk_corpus.json); this program plays them natively, desk_engine_test.js under node through WebAssembly.
// FOGWRIGHT_APPROVE=1 plays the scripts below anew and writes the file; read the difference before it goes in.
#include <catch2/catch.hpp>
#include <fstream>
#include <utility>

#include "asking/device_documents.hpp"
#include "browser/calls.hpp"
#include "desk/job_world.hpp"
#include "difference.hpp"
#include "golden.hpp"

namespace {

using namespace fogwright;
using desk_test::hour_ms;
using desk_test::JobWorld;
using nlohmann::json;

const auto corpus_file = fogwright::test::root / "tests/wasm/desk_corpus.json";

/// A phone that a script plays on; keeps every call with its answer.
class Phone {
 public:
  Phone(const JobWorld& world, json& corpus) : now_ms_(world.shop.now()), corpus_(corpus) {
    call({{"call", "restore"},
          {"documents", device_documents(world.shop.book(), now_ms_)},
          {"size", world.shop.entries().size()}});
  }

  json call(const json& one) {
    json answer = json::parse(desk_call(desk_, one.dump()));
    corpus_.push_back({{"call", one}, {"answer", answer}});
    return answer.value("value", answer);
  }

  json ask(int status, const char* method, const std::string& path, const json& body = json::object(),
           const json& more = json::object()) {
    json request = {{"method", method},     {"path", path},      {"body", body},     {"actor", actor},
                    {"device", "phone"},    {"now_ms", now_ms_}, {"boot", "page-1"}, {"uptime_ms", uptime_ms_},
                    {"first_id", next_id()}};
    request.update(more);
    json answer = call({{"call", "ask"}, {"request", request}});
    INFO(method << " " << path << ": " << answer.dump());
    CHECK(answer["status"] == status);
    return answer;
  }
  json post(const std::string& path, const json& body = json::object()) { return ask(201, "POST", path, body); }

  void wait(std::int64_t ms) {
    now_ms_ += ms;
    uptime_ms_ += ms;
  }

  /// Meets what is open at a stage, as a technician answers.
  void meet(const JobWorld& world, const std::string& job, const std::string& stage) {
    const json shown = ask(200, "GET", "/api/v1/jobs/" + job)["body"];
    for (const json& one : shown["missing"])
      if (one["stage"] == stage) {
        const std::string item = one["requirement"];
        post("/api/v1/jobs/" + job + "/checks/" + item, {{"answer", world.answer_of(item)}});
      }
  }

  std::string actor = "rowan";

 private:
  std::string next_id() {
    ++ids_;
    return uuid_text(uuid_v7(now_ms_, {7, 0, 0, 0, 0, 0, 0, 0, static_cast<std::uint8_t>(ids_ >> 8U),
                                       static_cast<std::uint8_t>(ids_)}));
  }

  DeviceDesk desk_;
  std::int64_t now_ms_;
  std::int64_t uptime_ms_ = 1'000;
  std::uint32_t ids_ = 0;
  json& corpus_;
};

/// From the start to the close, with a start and a release that are refused.
void whole_job(Phone& phone, const JobWorld& world, const std::string& job, std::int64_t seconds,
               std::int64_t hold_hours) {
  const std::string at = "/api/v1/jobs/" + job;
  CHECK(phone.ask(409, "POST", at + "/start")["entries"][0]["kind"] == "start-refused");
  phone.meet(world, job, "before mixing or filling");
  phone.meet(world, job, "before fogging");
  phone.post(at + "/clearance");
  phone.post(at + "/start");
  for (const char* name : {"hall", "den"}) {
    phone.wait(seconds * 1'000);
    phone.post(at + "/returns", {{"return", name}, {"time", std::to_string(seconds) + " s"}});
  }
  phone.meet(world, job, "while fogging");
  phone.post(at + "/fog-off", {{"left", "207 mL"}});
  CHECK(phone.ask(409, "POST", at + "/release")["entries"][0]["kind"] == "release-refused");
  phone.wait(hold_hours * hour_ms);
  phone.meet(world, job, "before release");
  phone.ask(200, "GET", at);
  phone.post(at + "/release");
  phone.meet(world, job, "before closing");
  phone.post(at + "/close");
  CHECK(phone.ask(200, "GET", at)["body"]["state"] == "closed");
}

void ready_to_use(json& corpus) {
  const JobWorld world("fenmist-rtu");
  Phone phone(world, corpus);
  const json returns = {{{"name", "hall"}}, {{"name", "den"}}};
  const json job = {{"product", "fenmist-rtu"},
                    {"technician", "rowan"},
                    {"zone", "America/Chicago"},
                    {"van", "heron"},
                    {"scheduled", "2026-03-08 02:30"},  // a time that clocks skip
                    {"customer", "Wren"},
                    {"address", "4 Fen Lane"},
                    {"site",
                     {{"site", {{"entrances", 2}}},
                      {"system", {{{"name", "main"}, {"area", "2400 sq ft"}, {"return", returns}}}}}}};
  phone.ask(400, "POST", "/api/v1/jobs", job);  // no salt
  const json planned =
      phone.ask(201, "POST", "/api/v1/jobs", job, {{"salt", "000102030405060708090a0b0c0d0e0f"}})["entries"][0];
  CHECK(planned["beside"]["text"] == R"({"address":"4 Fen Lane","customer":"Wren"})");
  whole_job(phone, world, planned["body"]["job"], 63, 4);
  CHECK(phone.call({{"call", "snapshot"}})["size"] == world.shop.entries().size());
}

void high_strength(json& corpus) {
  JobWorld world("brackwater-20");
  Phone phone(world, corpus);
  phone.meet(world, "J1", "before mixing or filling");
  phone.post("/api/v1/batches", {{"batch", "M1"},
                                 {"product", "brackwater-20"},
                                 {"make", "2 L"},
                                 {"parts", {"A1", "B1"}},
                                 {"place", "heron"},
                                 {"respirator_worn", true}});
  phone.wait(60'000);
  whole_job(phone, world, "J1", 63, 48);
}

void stock(json& corpus) {
  const JobWorld world("fenmist-rtu");
  Phone phone(world, corpus);
  phone.post("/api/v1/vessels/C1/open");
  const json drawn =
      phone.post("/api/v1/vessels/C1/draws", {{"volume", "12 fl oz"}, {"job", "J1"}})["entries"][0];
  phone.post("/api/v1/vessels/C1/returns", {{"volume", "2 fl oz"}, {"job", "J1"}});
  phone.post("/api/v1/vessels/C1/spills", {{"volume", "1 fl oz"}, {"what_was_done", "wiped up"}});
  phone.post("/api/v1/vessels/C1/moves", {{"to", "plover"}});
  phone.post("/api/v1/vessels/C1/counts", {{"found", "3.4 L"}});
  phone.post("/api/v1/containers", {{"product", "fenmist-rtu"},
                                    {"lot", "A18"},
                                    {"size", "1 gal"},
                                    {"expires", "2027-02-28"},
                                    {"place", "plover"}});
  phone.post("/api/v1/vessels/C1/disposals", {{"how", "by the label"}, {"volume", "100 mL"}});
  phone.post("/api/v1/cartridges/K1/uses", {{"time", "40 min"}, {"job", "J1"}});
  phone.ask(400, "POST", "/api/v1/vessels/C1/draws", {{"volume", "12 furlongs"}});
  phone.ask(400, "POST", "/api/v1/vessels/C1/draws", {{"volume", 12}, {"colour", "blue"}});
  phone.ask(404, "POST", "/api/v1/vessels/C9/open");
  phone.ask(404, "POST", "/api/v1/crew", {{"handle", "newt"}, {"roles", {"technician"}}});  // the office's
  phone.ask(404, "GET", "/api/v1/nowhere");
  phone.ask(200, "GET", "/api/v1/vessels");
  phone.ask(200, "GET", "/api/v1/stock", json::object(), {{"query", {{"place", "plover"}}}});
  phone.ask(200, "GET", "/api/v1/crew/rowan");
  phone.ask(200, "POST", "/api/v1/plan",
            {{"product", "palelight-hp"}, {"site", {{"system", {{{"area", "1800 sq ft"}, {"returns", 2}}}}}}});
  // The book takes the draw in: it is counted once, whatever came before it from another phone.
  json taken = drawn;
  taken["seq"] = world.shop.entries().size();
  taken["received_ms"] = drawn["happened_ms"];
  const json before = phone.ask(200, "GET", "/api/v1/vessels/C1")["body"]["remaining_ul"];
  phone.call({{"call", "fold"}, {"entry", taken}});
  phone.call({{"call", "fold"}, {"entry", taken}});
  CHECK(phone.ask(200, "GET", "/api/v1/vessels/C1")["body"]["remaining_ul"] == before);
  CHECK(phone.call({{"call", "size"}}) == world.shop.entries().size() + 1);
  taken["seq"] = 1'000'000;
  CHECK(phone.call({{"call", "fold"}, {"entry", taken}}).contains("error"));
  // A body that another program wrote: raised, and nothing stops.
  taken["seq"] = world.shop.entries().size() + 1;
  taken["id"] = "019cae35-3a00-7000-8000-0000000000aa";
  taken["body"] = {{"from", 7}};
  phone.call({{"call", "fold"}, {"entry", taken}});
  CHECK(phone.call({{"call", "size"}}) == world.shop.entries().size() + 2);
  phone.actor = "nobody";
  phone.ask(403, "GET", "/api/v1/vessels");
}

}  // namespace

TEST_CASE("whole jobs on a device are answered as was approved") {
  if (std::getenv("FOGWRIGHT_APPROVE")) {
    json corpus = json::array();
    ready_to_use(corpus);
    high_strength(corpus);
    stock(corpus);
    std::ofstream file(corpus_file);
    char before = '[';
    for (const json& one : corpus) file << std::exchange(before, ',') << '\n' << one.dump();
    file << "\n]\n";
  }
  DeviceDesk desk;
  std::size_t number = 0;
  for (const json& one : json::parse(fogwright::test::read_file(corpus_file))) {
    INFO(number++ << ": " << one["call"].dump().substr(0, 300) << "\nFOGWRIGHT_APPROVE=1 writes the file anew");
    const json answer = json::parse(desk_call(desk, one["call"].dump()));
    CHECK(fogwright::test::difference(answer, one["answer"], "answer") == "");
  }
  CHECK(number > 100);
}

TEST_CASE("a technician's jobs go from plan to close on the device, and the gate holds there too") {
  json corpus = json::array();
  ready_to_use(corpus);
  high_strength(corpus);
  stock(corpus);
}
