// SPDX-License-Identifier: Apache-2.0
// A device that starts from the server's documents answers as the server does, and what it decided by itself is
// taken in.
#include <catch2/catch.hpp>

#include "asking/beside.hpp"
#include "browser/device_desk.hpp"
#include "fogwright/book/encoding.hpp"
#include "fogwright/stock.hpp"
#include "office.hpp"

using namespace fogwright;
using fogwright::test::Office;
using nlohmann::json;

namespace {

/// Rowan's phone, which starts from the documents of the office.
class Phone {
 public:
  explicit Phone(Office& office) : office_(office) {
    const json start = office.done("rowan", "GET", "/api/v1/documents");
    REQUIRE(desk.restore(start["documents"], start["size"]));
  }

  json ask(const std::string& method, const std::string& path, const json& body = json::object(),
           const std::string& id = {}, const json& query = json::object()) {
    const BootClock clock = office_.world.boot_clock();
    json answer = desk.ask({{"method", method},
                            {"path", path},
                            {"query", query},
                            {"body", body},
                            {"actor", "rowan"},
                            {"device", "phone"},
                            {"now_ms", office_.now_ms},
                            {"boot", clock.boot},
                            {"uptime_ms", clock.uptime_ms},
                            {"first_id", id.empty() ? office_.new_id() : id},
                            {"salt", "000102030405060708090a0b0c0d0e0f"}});
    for (const json& entry : answer["entries"]) outbox.push_back(entry);
    return answer;
  }

  json sync() {
    json answer =
        office_.done("rowan", "POST", "/api/v1/sync", {{"device_now_ms", office_.now_ms}, {"entries", outbox}});
    outbox.clear();
    return answer;
  }
  void fetch() {
    const json news =
        office_.done("rowan", "GET", "/api/v1/book/entries?limit=1000&from=" + std::to_string(desk.size()));
    for (const json& entry : news["items"]) REQUIRE(desk.fold(entry));
    CHECK(desk.size() == news["size"]);
  }

  DeviceDesk desk;
  std::vector<json> outbox;

 private:
  Office& office_;
};

json new_job(const json& system = {{"area", "2400 sq ft"}, {"returns", 3}}) {
  return {{"product", "fenmist-rtu"},
          {"technician", "rowan"},
          {"zone", "America/Chicago"},
          {"fogger", "gust"},
          {"customer", "Wren"},
          {"address", "4 Fen Lane"},
          {"site", {{"system", {system}}}}};
}

std::string rules_of(const json& result) {
  std::string rules;
  for (const json& departure : result.value("departures", json::array()))
    rules += departure["rule"].get<std::string>() + " ";
  return rules;
}

}  // namespace

TEST_CASE("a device reads what the server reads") {
  Office office;
  office.open_shop();
  Phone phone(office);
  for (const char* path : {"/api/v1/jobs", "/api/v1/jobs/J1", "/api/v1/stock", "/api/v1/vessels",
                           "/api/v1/vessels/C1", "/api/v1/crew", "/api/v1/foggers/gust", "/api/v1/products",
                           "/api/v1/places", "/api/v1/cartridges", "/api/v1/jobs/J9", "/api/v1/departures"}) {
    INFO(path);
    const server::HttpResponse there = office.ask("rowan", "GET", path);
    const json here = phone.ask("GET", path);
    CHECK(here["status"] == there.status);
    CHECK(here["body"] == json::parse(there.body));
  }
}

TEST_CASE("a device tells what to measure out for a mix, and writes it down, as the server does") {
  Office office;
  office.open_shop();
  office.adopt("brackwater-20");
  for (const auto& [id, part] :
       {std::pair{"A1", "Part A concentrate"}, {"B1", "Part B activator (citric acid)"}})
    office.done("rowan", "POST", "/api/v1/containers",
                {{"product", "brackwater-20"},
                 {"container", id},
                 {"part", part},
                 {"lot", "BW-1"},
                 {"size", "1 qt"},
                 {"expires", "2027-01-31"},
                 {"place", "heron"}});
  Phone phone(office);
  const json sheet = phone.ask("GET", "/api/v1/products/brackwater-20/mixing", json::object(), {},
                               {{"make", "1/2 gal"}})["body"];
  CHECK(sheet == office.done("rowan", "GET", "/api/v1/products/brackwater-20/mixing?make=1/2%20gal"));
  // Half of the label's 125, 1.5 and 1.5 fl oz of 29.5735 mL each: water up, what is strong down, to tenths.
  CHECK(sheet["lines"][0]["amount_ml"].get<double>() == Approx(1848.4));
  CHECK(sheet["lines"][0]["from_container"] == false);
  CHECK(sheet["lines"][1]["amount_ml"].get<double>() == Approx(22.1));
  CHECK(sheet["lines"][1]["from_container"] == true);
  CHECK(sheet["lines"][2]["wait_minutes"] == 10);
  CHECK(sheet["respirator"] == true);
  const json whole = phone.ask("GET", "/api/v1/products/brackwater-20/mixing")["body"];
  CHECK(whole["makes_ml"].get<double>() == Approx(3785.411784));
  CHECK(phone.ask("GET", "/api/v1/products/fenmist-rtu/mixing")["status"] == 409);  // ready to use
  CHECK(phone.ask("GET", "/api/v1/products/brackwater-20/mixing", json::object(), {},
                  {{"make", "much"}})["status"] == 400);

  const json mixed = phone.ask("POST", "/api/v1/batches",
                               {{"product", "brackwater-20"},
                                {"make", "1/2 gal"},
                                {"parts", {"A1", "B1"}},
                                {"place", "heron"},
                                {"respirator_worn", true}});
  CHECK(mixed["status"] == 201);
  CHECK(phone.sync()["results"][0]["result"] == "accepted");
  CHECK(office.done("rowan", "GET", "/api/v1/vessels/A1")["remaining_ul"] == 946'352 - 22'100);
}

TEST_CASE("a device decides what the server decides, under the same ids") {
  Office office;
  office.open_shop();
  struct Write {
    const char* path;
    json body;
  };
  for (const Write& write : {Write{"/api/v1/jobs/J1/start", json::object()},
                             {"/api/v1/jobs/J1/checks/animals-out", {{"answer", "1"}}},
                             {"/api/v1/jobs/J1/checks/animals-out", {{"answer", "many"}}},
                             {"/api/v1/vessels/C1/draws", {{"volume", "12 fl oz"}, {"job", "J1"}}},
                             {"/api/v1/vessels/C1/draws", {{"volume", "a lot"}}},
                             {"/api/v1/vessels/C1/draws", json::object()},
                             {"/api/v1/jobs/J1/release", json::object()},
                             {"/api/v1/jobs/J1/stop", {{"why", "rain"}}}}) {
    INFO(write.path << " " << write.body.dump());
    Phone phone(office);
    const std::string id = office.new_id();
    const json here = phone.ask("POST", write.path, write.body, id);
    json body = write.body;
    if (std::string(write.path).ends_with("release")) continue;  // there the password is asked for again
    const server::HttpResponse there = office.ask("rowan", "POST", write.path, body, {.id = id});
    CHECK(here["status"] == there.status);
    CHECK(here["body"] == json::parse(there.body));
  }
}

TEST_CASE("a job that was planned with no signal is taken in, with its customer beside the record") {
  Office office;
  office.open_shop();
  Phone phone(office);
  const json answer = phone.ask("POST", "/api/v1/jobs", new_job());
  REQUIRE(answer["status"] == 201);
  const std::string job = answer["entries"][0]["body"]["job"];
  CHECK(job.starts_with("J2-"));  // others may plan a J2 meanwhile
  CHECK(phone.ask("POST", "/api/v1/jobs/" + job + "/checks/animals-out", {{"answer", "1"}})["status"] == 201);
  const json sent = phone.outbox;
  const json synced = phone.sync();
  for (const json& result : synced["results"]) CHECK(result["result"] == "accepted");
  const json there = office.done("rowan", "GET", "/api/v1/jobs/" + job);
  const auto kept = office.books->reader()->private_bytes(there["site"].get<std::string>());
  CHECK(kept.value_or("") == R"({"address":"4 Fen Lane","customer":"Wren"})");
  phone.outbox = sent.get<std::vector<json>>();
  const json again = phone.sync();
  for (const json& result : again["results"]) CHECK(result["result"] == "already-there");
  phone.fetch();
  CHECK(phone.ask("GET", "/api/v1/jobs/" + job)["body"] == there);
}

TEST_CASE("what is sent beside an entry must be what its hash says") {
  Office office;
  office.open_shop();
  Phone phone(office);
  REQUIRE(phone.ask("POST", "/api/v1/jobs", new_job())["status"] == 201);
  const std::int64_t before = office.entries();
  const json good = phone.outbox.front();
  for (const json& beside :
       {json{{"salt", good["beside"]["salt"]}, {"text", "{}"}},
        json{{"salt", "00"}, {"text", good["beside"]["text"]}}, json("Wren"), json::object()}) {
    json bad = good;
    bad["beside"] = beside;
    phone.outbox = {bad};
    INFO(beside.dump());
    CHECK(phone.sync()["results"][0]["code"] == "bad-entry");
  }
  CHECK(office.entries() == before);
  CHECK_FALSE(office.books->reader()->private_bytes(good["body"]["site"].get<std::string>()));
}

TEST_CASE("a plan that the office does not make is written, said, and the more cautious of both stands") {
  Office office;
  office.open_shop();
  Phone phone(office);
  REQUIRE(phone.ask("POST", "/api/v1/jobs", new_job())["status"] == 201);
  json& plan = phone.outbox.front()["body"]["plan"];
  const std::string job = phone.outbox.front()["body"]["job"];
  const json honest = plan;
  plan["hold_minutes"]["total"] = 1;
  plan["hold_minutes"]["floor"] = 1;
  plan["requirements"].erase(0);
  plan["systems"][0]["returns"][0]["seconds"] = 600;
  const json result = phone.sync()["results"][0];
  CHECK(result["result"] == "accepted-with-departures");
  CHECK(rules_of(result) == "plan-differs ");
  const json there = office.done("rowan", "GET", "/api/v1/jobs/" + job)["plan"];
  CHECK(there["hold_minutes"] == honest["hold_minutes"]);
  CHECK(there["requirements"].size() == honest["requirements"].size());
  CHECK(there["systems"] == honest["systems"]);
  phone.fetch();  // and so it stands on the device
  CHECK(phone.ask("GET", "/api/v1/jobs/" + job)["body"]["plan"] == there);
}

TEST_CASE("a plan with a longer hold and a shorter dose than the office's keeps them") {
  Office office;
  office.open_shop();
  Phone phone(office);
  REQUIRE(phone.ask("POST", "/api/v1/jobs", new_job())["status"] == 201);
  json& plan = phone.outbox.front()["body"]["plan"];
  const std::string job = phone.outbox.front()["body"]["job"];
  plan["hold_minutes"]["total"] = plan["hold_minutes"]["total"].get<int>() + 1;
  plan["systems"][0]["returns"][0]["seconds"] = plan["systems"][0]["returns"][0]["seconds"].get<int>() - 1;
  const json longer = plan;
  CHECK(rules_of(phone.sync()["results"][0]) == "plan-differs ");
  const json there = office.done("rowan", "GET", "/api/v1/jobs/" + job)["plan"];
  CHECK(there["hold_minutes"] == longer["hold_minutes"]);
  CHECK(there["systems"][0]["returns"] == longer["systems"][0]["returns"]);
}

TEST_CASE("a plan that cannot be made again is written all the same; a name that is taken is refused") {
  Office office;
  office.open_shop();
  Phone phone(office);
  REQUIRE(phone.ask("POST", "/api/v1/jobs", new_job())["status"] == 201);
  json strange = phone.outbox.front();
  strange["body"]["request"] = 7;
  phone.outbox = {strange};
  CHECK(rules_of(phone.sync()["results"][0]) == "plan-differs ");
  strange["id"] = office.new_id();
  phone.outbox = {strange};
  CHECK(phone.sync()["results"][0]["code"] == "already-exists");
}

TEST_CASE("a device starts with what is open, not with all that ever was") {
  Office office;
  office.open_shop();
  office.done("rowan", "POST", "/api/v1/jobs/J1/stop", {{"why", "rain"}});
  const auto kinds_of = [&] {
    std::map<std::string, int> count;
    const json start = office.done("rowan", "GET", "/api/v1/documents");
    for (const json& row : start["documents"]) ++count[row["kind"].get<std::string>()];
    CHECK(start["size"] == office.entries());
    return count;
  };
  CHECK(kinds_of()["job"] == 1);  // stopped today
  office.now_ms += 40 * fogwright::day_ms;
  auto later = kinds_of();
  CHECK(later["job"] == 0);
  CHECK(later["job-request"] == 0);
  CHECK(later["container"] == 1);
  CHECK(later["label"] == 1);
  CHECK(later["person"] == 4);
  CHECK(office.ask("", "GET", "/api/v1/documents").status == 401);
}
