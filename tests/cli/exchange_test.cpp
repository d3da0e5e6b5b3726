// SPDX-License-Identifier: Apache-2.0
#include <sstream>

#include "desk/csv.hpp"
#include "stock_world.hpp"

using namespace fogwright;
using namespace fogwright::test;
using nlohmann::json;

namespace {

using Words = std::vector<std::string>;

Words with(Words words, const std::string& format) {
  words.insert(words.end(), {"--format", format});
  return words;
}

std::vector<CsvRecord> table(const Ran& ran) {
  const auto records = read_csv(ran.out, "out");
  REQUIRE(records.has_value());
  REQUIRE_FALSE(records->empty());
  return *records;
}

std::vector<json> lines(const Ran& ran) {
  std::vector<json> rows;
  std::istringstream in(ran.out);
  for (std::string line; std::getline(in, line);) rows.push_back(json::parse(line));
  return rows;
}

/// A book with something in every list.
void fill(BookDesk& desk) {
  desk.set_up();
  desk.done({"fogger", "add", "gust", "--tank", "1/2 gal"});
  desk.done({"cartridge", "register", "y1", "--model", "OV-60", "--words", "P100", "--schedule", "8 h",
             "--basis", "the maker's table"});
  desk.receive("C1", "2026-01-20");
  desk.done({"stock", "draw", "C1", "--volume", "12 fl oz", "--job", "J1"});
  desk.done({"job", "plan", "--product", "fenmist-rtu", "--area", "2400", "--returns", "3", "--technician",
             "rowan", "--zone", "America/Chicago"});
}

std::string error_of(const Ran& ran) { return ran.error().at("message").get<std::string>(); }

std::vector<std::string> places_of(const Ran& ran) {
  std::vector<std::string> where;
  const json error = json::parse(ran.err);
  for (const json& fault : error.contains("faults") ? error["faults"] : json::array({error.at("error")}))
    where.push_back(fault.at("where"));
  return where;
}

std::size_t entries(BookDesk& desk) {
  return lines(desk.done({"book", "entries", "--all", "--format", "jsonl"})).size();
}

}  // namespace

TEST_CASE("every list comes as CSV and as JSON Lines, a row a line", "[cli][exchange]") {
  BookDesk desk;
  fill(desk);
  for (const Words& words : std::vector<Words>{{"crew", "list"},
                                               {"fogger", "list"},
                                               {"cartridge", "list"},
                                               {"product", "list"},
                                               {"place", "list"},
                                               {"stock", "list"},
                                               {"stock", "list", "--items"},
                                               {"stock", "show", "C1"},
                                               {"stock", "cost", "J1"},
                                               {"stock", "van-check"},
                                               {"job", "list"},
                                               {"job", "show", "J1"},
                                               {"book", "entries"},
                                               {"calendar"},
                                               {"label", "list", demo_labels},
                                               {"label", "check", fenmist}}) {
    INFO(words[0] << " " << (words.size() > 1 ? words[1] : ""));
    const auto records = table(desk.done(with(words, "csv")));
    CHECK(records.size() >= 2);
    for (const CsvRecord& record : records) CHECK(record.fields.size() == records.front().fields.size());
    CHECK(lines(desk.done(with(words, "jsonl"))).size() == records.size() - 1);
  }
}

TEST_CASE("the entries of a book are one JSON value, as other lists are", "[cli][exchange]") {
  BookDesk desk;
  CHECK(desk.done({"book", "entries", "--json"}).json() == json{{"entries", json::array()}});
  fill(desk);
  const json all = desk.done({"book", "entries", "--all", "--json"}).json().at("entries");
  CHECK(all.size() > 8);
  CHECK(all == json(lines(desk.done({"book", "entries", "--all", "--format", "jsonl"}))));
  CHECK(desk.done({"book", "entries", "--last", "2", "--format", "json"}).json().at("entries").size() == 2);
}

TEST_CASE("an empty list is a header alone", "[cli][exchange]") {
  BookDesk desk;
  desk.set_up();
  CHECK(table(desk.done({"fogger", "list", "--format", "csv"})).size() == 1);
  CHECK(desk.done({"job", "list", "--format", "csv"}).out == "job,state,product,technician,planned_utc\r\n");
  CHECK(desk.done({"job", "list", "--format", "jsonl"}).out.empty());
}

TEST_CASE("--format json is --json, and what has no table refuses csv before it does anything",
          "[cli][exchange]") {
  BookDesk desk;
  desk.set_up();
  CHECK(desk.done({"crew", "list", "--format", "json"}).out == desk.done({"crew", "list", "--json"}).out);
  const std::size_t before = entries(desk);
  const Ran refused = desk.run({"place", "add", "plover", "--type", "van", "--format", "csv"});
  CHECK(refused.status == 2);
  CHECK(refused.err.find("no table") != std::string::npos);
  CHECK(entries(desk) == before);
  CHECK(desk.run({"crew", "list", "--format", "xml"}).status == 2);
  CHECK(desk.run({"crew", "list", "--json", "--format", "csv"}).status == 2);
  CHECK(error_of(desk.run({"crew", "show", "nobody", "--format=jsonl"})) == "nobody is called \"nobody\"");
}

TEST_CASE("a name that a spreadsheet would reckon with is guarded on its way out", "[cli][exchange]") {
  BookDesk desk;
  desk.set_up();
  desk.done({"stock", "receive", "fenmist-rtu", "--id", "C1", "--lot", "=1+1", "--size", "1 gal", "--expires",
             "2027-01-31", "--place", "heron"});
  const auto records = table(desk.done({"stock", "list", "--format", "csv"}));
  CHECK(records[0].fields[2] == "lot");
  CHECK(records[1].fields[2] == "'=1+1");
  CHECK(lines(desk.done({"stock", "list", "--format", "jsonl"}))[0].at("lot") == "=1+1");
}

// --- Imports
// --------------------------------------------------------------------------------------------------

TEST_CASE("a crew comes in whole, people and papers, names beside the record", "[cli][import]") {
  BookDesk desk;
  desk.set_up();
  const TemporaryFile file(
      "handle,roles,name,what,issued,expires,facepiece,model,size\r\n"
      "sedge,technician; safety-officer,\"Sedge, A.\",fit-test,2025-12-01,,half-mask,Saltwing 40,M\r\n"
      "sedge,,,licence,2025-12-01,2026-12-31,,,\r\n"
      "rowan,,,training,2025-12-01,2026-12-31,,,\r\n",
      ".csv");
  const Ran ran = desk.done({"crew", "import", file.path()});
  CHECK(ran.out == "people enrolled: 1; credentials added: 3\n");
  const json sedge = desk.done({"crew", "show", "sedge", "--json"}).json();
  CHECK(sedge.at("roles") == json::array({"technician", "safety-officer"}));
  CHECK(sedge.at("credentials").size() == 2);
  CHECK(sedge.at("kept").at("name") == "Sedge, A.");
}

TEST_CASE("every fault of a crew file is told with its line, and nothing goes in", "[cli][import]") {
  BookDesk desk;
  desk.set_up();
  const TemporaryFile file(
      "handle,roles,what,issued,expires\n"
      "sedge,technician,,,\n"
      "rowan,technician,,,\n"
      "sedge,owner,,,\n"
      "nobody,,licence,2025-12-01,2026-12-31\n"
      "sedge,,licence,2025-12-01,2025-01-01\n",
      ".csv");
  const std::size_t before = entries(desk);
  const Ran ran = desk.run({"crew", "import", file.path(), "--json"});
  CHECK(ran.status == 3);
  CHECK(places_of(ran) == std::vector<std::string>{file.path() + ":3", file.path() + ":4", file.path() + ":5",
                                                   file.path() + ":6"});
  CHECK(entries(desk) == before);
}

TEST_CASE("a dry run tells what would be written and writes nothing", "[cli][import]") {
  BookDesk desk;
  desk.set_up();
  const TemporaryFile crew("handle,roles,name\nsedge,technician,A.\n", ".csv");
  const TemporaryFile stock("product,lot,size,expires,place\nfenmist-rtu,A1,1 gal,2027-01-31,shop\n", ".csv");
  const std::size_t before = entries(desk);
  const json would = desk.done({"crew", "import", crew.path(), "--dry-run", "--json"}).json();
  CHECK(would.at("dry_run") == true);
  CHECK(would.at("entries")[0].at("kind") == "person-enrolled");
  CHECK(desk.done({"stock", "import", stock.path(), "--dry-run"}).out.find("1 containers received") !=
        std::string::npos);
  CHECK(entries(desk) == before);
}

TEST_CASE("who may not make the entries is told so, not line by line", "[cli][import]") {
  BookDesk desk;
  desk.set_up();
  const TemporaryFile crew("handle,roles\nsedge,technician\nteasel,technician\n", ".csv");
  const Ran ran = desk.run({"crew", "import", crew.path(), "--by", "rowan", "--json"});
  CHECK(ran.status == 1);
  CHECK(ran.error().at("code") == "not-permitted");
}

TEST_CASE("an old job comes in as done without the tool, and what was not shown is a departure",
          "[cli][import]") {
  BookDesk desk;
  desk.set_up();
  const TemporaryFile log(
      "job,product,technician,started,ended,released,area,fogged,used,address,met\n"
      "OLD-1,fenmist-rtu,rowan,2025-11-03 09:00,2025-11-03 09:05,2025-11-03 13:30,2400,hall=63 s; den=63 s,"
      "12.8 fl oz,12 Mill Lane,everyone-out=3\n",
      ".csv");
  desk.done({"job", "import", log.path(), "--zone", "America/Chicago"});
  const json job = desk.done({"job", "show", "OLD-1", "--json"}).json();
  CHECK(job.at("state") == "closed");
  CHECK(job.at("fog_started").at("ms") == 1'762'182'000'000);  // 15:00 UTC
  CHECK(job.at("met").contains("everyone-out"));
  CHECK(job.at("returns").size() == 2);
  const Ran again = desk.run({"job", "import", log.path(), "--zone", "America/Chicago", "--dry-run", "--json"});
  CHECK(again.status == 3);
  CHECK(error_of(again) == "a job is already called \"OLD-1\"");
}

TEST_CASE("faults of a job log come with their lines", "[cli][import]") {
  BookDesk desk;
  desk.set_up();
  const TemporaryFile log(
      "product,technician,started,ended,area,returns,zone\n"
      "fenmist-rtu,rowan,2025-11-03 09:00,2025-11-03 09:05,2400,3,America/Chicago\n"
      "fenmist-rtu,rowan,yesterday,2025-11-03 09:05,2400,3,America/Chicago\n"
      "fenmist-rtu,rowan,2025-11-03 09:00,2025-11-03 09:05,2400,3,\n"
      "moonmist,rowan,2025-11-03 09:00,2025-11-03 09:05,2400,3,America/Chicago\n",
      ".csv");
  const Ran ran = desk.run({"job", "import", log.path(), "--json"});
  CHECK(ran.status == 3);
  CHECK(places_of(ran) == std::vector<std::string>{log.path() + ":3", log.path() + ":4", log.path() + ":5"});
  const TemporaryFile late(
      "product,technician,started,ended,area,returns,zone\n"
      "fenmist-rtu,stranger,2025-11-03 09:00,2025-11-03 09:05,2400,3,America/Chicago\n"
      "fenmist-rtu,rowan,2025-11-03 09:05,2025-11-03 09:00,2400,3,America/Chicago\n",
      ".csv");
  CHECK(places_of(desk.run({"job", "import", late.path(), "--json"})) ==
        std::vector<std::string>{late.path() + ":2", late.path() + ":3"});
  CHECK(json::parse(desk.done({"job", "list", "--json"}).out).at("jobs").empty());
}

// --- The calendar
// -----------------------------------------------------------------------------------------------

TEST_CASE("the calendar holds what falls due, under names that stay", "[cli][calendar]") {
  BookDesk desk;
  fill(desk);
  desk.done({"crew", "credential", "rowan", "--what", "licence", "--issued", "2025-06-01", "--expires",
             "2026-06-01"});
  desk.done({"crew", "credential", "rowan", "--what", "training", "--issued", "2025-06-01", "--expires",
             "2027-06-01"});
  const json events = desk.done({"calendar", "--json"}).json().at("events");
  REQUIRE(events.size() == 2);  // the training ends beyond the year
  CHECK(events[0].at("uid") == "container/C1@books.example/quillfen");
  CHECK(events[0].at("day") == "2026-01-20");
  CHECK(events[1].at("summary") == "rowan: licence ends");
  desk.machine().pass(3'600'000);
  CHECK(desk.done({"calendar", "--json"}).json().at("events")[1].at("uid") == events[1].at("uid"));
  CHECK(desk.done({"calendar", "--days", "30", "--json"}).json().at("events").size() == 1);
}

TEST_CASE("a paper that a later one replaces, or that is withdrawn, falls due no more", "[cli][calendar]") {
  BookDesk desk;
  desk.set_up();
  desk.done({"crew", "credential", "rowan", "--what", "licence", "--issued", "2025-06-01", "--expires",
             "2026-06-01"});
  desk.done({"crew", "credential", "rowan", "--what", "licence", "--issued", "2025-12-01", "--expires",
             "2026-12-01"});
  const json events = desk.done({"calendar", "--json"}).json().at("events");
  REQUIRE(events.size() == 1);
  CHECK(events[0].at("day") == "2026-12-01");
}

TEST_CASE("the calendar goes to a new file and overwrites none", "[cli][calendar]") {
  BookDesk desk;
  fill(desk);
  const std::string path = desk.file("due.ics");
  CHECK(desk.done({"calendar", "--out", path}).out == "events written to " + path + ": 1\n");
  CHECK(desk.run({"calendar", "--out", path}).status == 1);
  CHECK(desk.done({"calendar"}).out.starts_with("BEGIN:VCALENDAR\r\n"));
  CHECK(desk.run({"calendar", "--days", "0"}).status == 2);
}
