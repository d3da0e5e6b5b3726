// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "office.hpp"

using fogwright::test::header_of;
using fogwright::test::Office;
using nlohmann::json;

TEST_CASE("a job is planned with what the book knows of the fogger and the label") {
  Office office;
  office.open_shop();
  const json job = office.done("rowan", "GET", "/api/v1/jobs/J1");
  CHECK(job["state"] == "planned");
  CHECK(job["technician"] == "rowan");
  CHECK(job["plan"]["flow_ul_min"] == 180'000);
  CHECK(job["plan"]["systems"][0]["target_s"] == 126);
  CHECK_FALSE(job["missing"].empty());
  CHECK(office.done("fen", "GET", "/api/v1/jobs")["items"][0]["job"] == "J1");
}

TEST_CASE("what may have to be erased lives beside the record") {
  Office office;
  office.open_shop();
  const auto reader = office.books->reader();
  const std::int64_t size = reader->head().size;
  reader->each_leaf(
      0, size, [](std::int64_t, std::string_view leaf) { CHECK(leaf.find("Wren") == std::string_view::npos); });
  std::string hash;
  reader->read([&](const fogwright::Documents& now, const fogwright::Head&) {
    hash = now.get("job", "J1")->at("site");
  });
  CHECK(reader->private_bytes(hash)->find("Wren") != std::string::npos);
}

TEST_CASE("the same entry twice is one entry, and the second answer says what the first did") {
  Office office;
  office.open_shop();
  const std::string id = office.new_id();
  const json draw = {{"volume", "10 fl oz"}, {"job", "J1"}};
  const json first = office.done("rowan", "POST", "/api/v1/vessels/C1/draws", draw, {.id = id});
  const std::int64_t size = office.entries();
  office.now_ms += 60'000;
  const auto again = office.ask("rowan", "POST", "/api/v1/vessels/C1/draws", draw, {.id = id});
  CHECK(again.status == 200);
  CHECK(json::parse(again.body)["entries"] == first["entries"]);
  CHECK(json::parse(again.body)["already_there"] == true);
  CHECK(office.entries() == size);
}

TEST_CASE("an id that belongs to another entry is refused") {
  Office office;
  office.open_shop();
  const std::string id = office.new_id();
  office.done("rowan", "POST", "/api/v1/vessels/C1/draws", {{"volume", "10 fl oz"}}, {.id = id});
  CHECK(office.ask("rowan", "POST", "/api/v1/vessels/C1/counts", {{"found", "1 qt"}}, {.id = id}).status ==
        422);
  CHECK(office.ask("fen", "POST", "/api/v1/vessels/C1/draws", {{"volume", "10 fl oz"}}, {.id = id}).status ==
        422);
}

TEST_CASE("a write without an id, or with another kind of id, is refused and writes nothing") {
  Office office;
  office.open_shop();
  const std::int64_t size = office.entries();
  const auto none = office.json_of("rowan", "POST", "/api/v1/vessels/C1/open", nullptr, {.id = "none"});
  CHECK(none["code"] == "missing-value");
  CHECK(office
            .ask("rowan", "POST", "/api/v1/vessels/C1/open", nullptr,
                 {.id = "8e03978e-40d5-43e8-bc93-6894a57f9324"})
            .status == 400);
  CHECK(office.entries() == size);
}

TEST_CASE("a start that the gate refuses is written down, once, and the answer says why") {
  Office office;
  office.open_shop();
  const std::string id = office.new_id();
  const auto refused = office.ask("rowan", "POST", "/api/v1/jobs/J1/start", nullptr, {.id = id});
  CHECK(refused.status == 409);
  const json problem = json::parse(refused.body);
  CHECK(problem["code"] == "gate-closed");
  CHECK(problem["entries"][0]["kind"] == "start-refused");
  const std::int64_t size = office.entries();
  CHECK(office.ask("rowan", "POST", "/api/v1/jobs/J1/start", nullptr, {.id = id}).status == 409);
  CHECK(office.entries() == size);
}

TEST_CASE("who signs is who is signed in, whatever the request says") {
  Office office;
  office.open_shop();
  const json written = office.done("rowan", "POST", "/api/v1/vessels/C1/open");
  const auto entry = office.books->reader()->entry(written["entries"][0]["seq"]);
  CHECK(entry->actor == "rowan");
  CHECK(entry->device == "phone");
  const json problem =
      office.json_of("rowan", "POST", "/api/v1/vessels/C1/moves", {{"to", "heron"}, {"by", "ash"}});
  CHECK(problem["code"] == "not-understood");
  CHECK(problem["where"] == "by");
}

TEST_CASE("every fault of a body is told with its place") {
  Office office;
  const json problem = office.json_of("rowan", "POST", "/api/v1/containers", {{"lot", 7}, {"colour", "red"}});
  CHECK(problem["status"] == 400);
  CHECK(problem["faults"].size() == 6);  // colour, lot, and four that are missing
}

TEST_CASE("every fault of a label is told with its line, and nothing is adopted") {
  Office office;
  const std::string profile = "format = 1\nname = 7\nsignal_word = \"loud\"\n";
  const json problem = office.json_of("ash", "POST", "/api/v1/products", {{"text", profile}});
  std::set<std::string> places;
  for (const json& fault : problem["faults"]) places.insert(fault["where"]);
  CHECK(places.size() > 2);
  CHECK(std::any_of(places.begin(), places.end(),
                    [](const std::string& one) { return one.rfind("text:2", 0) == 0; }));
  CHECK(std::any_of(places.begin(), places.end(),
                    [](const std::string& one) { return one.rfind("text:3", 0) == 0; }));
  CHECK(office.entries() == Office().entries());
}

TEST_CASE("bodies that are no JSON object, or nested too deeply, are refused") {
  Office office;
  for (const std::string& body :
       {std::string("{"), std::string("[]"), std::string("{\"a\":1,\"a\":2}"), std::string(100'000, '[')})
    CHECK(office.ask("ash", "POST", "/api/v1/places", nullptr, {.raw_body = body}).status == 400);
  CHECK(office
            .ask("ash", "POST", "/api/v1/places", nullptr,
                 {.headers = {{"content-type", "text/plain"}}, .raw_body = "{}"})
            .status == 415);
}

TEST_CASE("a reader who has the newest answer is told so and sent nothing") {
  Office office;
  office.open_shop();
  const auto first = office.ask("rowan", "GET", "/api/v1/crew");
  const std::string etag = header_of(first, "ETag");
  REQUIRE_FALSE(etag.empty());
  const auto again =
      office.ask("rowan", "GET", "/api/v1/crew", nullptr, {.headers = {{"if-none-match", etag}}});
  CHECK(again.status == 304);
  CHECK(again.body.empty());
  office.done("ash", "POST", "/api/v1/crew", {{"handle", "teal"}, {"roles", {"technician"}}});
  CHECK(office.ask("rowan", "GET", "/api/v1/crew", nullptr, {.headers = {{"if-none-match", etag}}}).status ==
        200);
}

TEST_CASE("pages follow one another without a gap or a repetition") {
  Office office;
  for (int i = 0; i < 7; ++i)
    office.done("ash", "POST", "/api/v1/places", {{"place", "van" + std::to_string(i)}, {"type", "van"}});
  std::vector<std::string> seen;
  std::string target = "/api/v1/places?limit=3";
  for (;;) {
    const json page = office.done("rowan", "GET", target);
    for (const json& item : page["items"]) seen.push_back(item["place"]);
    if (!page.contains("next")) break;
    target = "/api/v1/places?limit=3&after=" + page["next"].get<std::string>();
  }
  CHECK(seen == std::vector<std::string>{"van0", "van1", "van2", "van3", "van4", "van5", "van6"});
  CHECK(office.ask("rowan", "GET", "/api/v1/places?limit=0").status == 400);
  CHECK(office.ask("rowan", "GET", "/api/v1/places?page=2").status == 400);
}

TEST_CASE("pages of what is on hand follow the order of expiry") {
  Office office;
  office.open_shop();
  const auto receive = [&](const std::string& id, const std::string& expires) {
    office.done("rowan", "POST", "/api/v1/containers",
                {{"container", id},
                 {"product", "fenmist-rtu"},
                 {"lot", "L1"},
                 {"place", "heron"},
                 {"size", "1 gal"},
                 {"expires", expires}});
  };
  receive("Z1", "2027-02-01");
  receive("A1", "2027-03-31");
  receive("M1", "2027-02-28");
  const auto page = [&](const std::string& query) {
    return office.done("rowan", "GET", "/api/v1/vessels?item=fenmist-rtu&place=heron" + query);
  };
  const auto ids = [](const json& list) {
    std::vector<std::string> all;
    for (const json& one : list.at("items")) all.push_back(one.at("id"));
    return all;
  };
  const std::vector<std::string> whole = ids(page(""));
  std::vector<std::string> seen = ids(page("&limit=2"));
  CHECK(page("&limit=2")["next"] == whole.at(1));
  for (const std::string& id : ids(page("&limit=500&after=" + seen.back()))) seen.push_back(id);
  CHECK(seen == whole);
  CHECK(std::vector<std::string>(whole.end() - 3, whole.end()) == std::vector<std::string>{"Z1", "M1", "A1"});
  CHECK_FALSE(page("&after=" + whole.back()).contains("next"));
  CHECK(office.ask("rowan", "GET", "/api/v1/vessels?after=gone").status == 404);
  CHECK(office.done("rowan", "GET", "/api/v1/stock?limit=1")["items"].size() == 1);
}

TEST_CASE("a reader of entries goes on where it stopped") {
  Office office;
  office.open_shop();
  const json first = office.done("rowan", "GET", "/api/v1/book/entries?limit=4");
  CHECK(first["items"].size() == 4);
  CHECK(first["next"] == 4);
  const json rest = office.done("rowan", "GET", "/api/v1/book/entries?from=4");
  CHECK(rest["items"].front()["seq"] == 4);
  CHECK(rest["next"] == office.entries());
  const json none =
      office.done("rowan", "GET", "/api/v1/book/entries?from=" + std::to_string(office.entries()));
  CHECK(none["items"].empty());
}

TEST_CASE("addresses that are not there, and methods that are not taken, are said to be so") {
  Office office;
  CHECK(office.ask("rowan", "GET", "/api/v1/nothing").status == 404);
  const auto refused = office.ask("rowan", "DELETE", "/api/v1/crew");
  CHECK(refused.status == 405);
  CHECK(header_of(refused, "Allow") == "GET, POST");
  for (const char* bad :
       {"jobs", "/api/v1/../v1/jobs", "/api/%zz", "/api/v1/jobs?x=%0a", "/api/v1/jobs?all=1&all=2"})
    CHECK(office.ask("rowan", "GET", bad).status == 400);
}
