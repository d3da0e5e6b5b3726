// SPDX-License-Identifier: Apache-2.0
// The audit at the command line: what it lists, its exit status, its actions.
#include <algorithm>
#include <catch2/catch.hpp>
#include <utility>

#include "fogwright/desk/fold.hpp"
#include "fogwright/store.hpp"
#include "stock_world.hpp"
#include "store/sqlite.hpp"

using namespace fogwright;
using namespace fogwright::test;
using nlohmann::json;

namespace {

/// A book in which product was used after its last day (major) and more was taken than there was (minor).
class Audited {
 public:
  Audited() {
    desk.set_up();
    desk.receive("C1", "2026-01-05");
    desk.machine().pass(10 * 86'400'000LL);
    desk.done({"stock", "draw", "C1", "--volume", "2 gal"});
  }
  json departures(std::vector<std::string> more = {}) {
    more.insert(more.begin(), {"audit", "--json"});
    return desk.done(std::move(more)).json().at("departures");
  }
  BookDesk desk;
};

std::size_t widest_line(const std::string& text) {
  std::size_t widest = 0, width = 0;
  for (const char c : text) {
    if (c == '\n')
      widest = std::max(widest, std::exchange(width, 0));
    else if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U)
      ++width;
  }
  return widest;
}

}  // namespace

TEST_CASE("An audit that finds something ends with 0 and lists the gravest first") {
  Audited world;
  const json found = world.departures();
  REQUIRE(found.size() == 2);
  CHECK(found[0].at("rule") == "expired-used");
  CHECK(found[0].at("citation") == "label");
  CHECK(found[1].at("rule") == "over-draw");
  CHECK(world.departures({"--severity", "major"}).size() == 1);
  CHECK(world.departures({"--rule", "over-draw"}).size() == 1);
  CHECK(world.departures({"--from", "2026-01-11", "--to", "2026-01-11"}).size() == 2);
  CHECK(world.departures({"--to", "2026-01-10"}).empty());
  CHECK(world.departures({"--person", "rowan"}).empty());
  CHECK(world.departures({"--van", "heron", "--product", "fenmist-rtu"}).size() == 2);
}

TEST_CASE("The text of an audit keeps to the width of the page and says what to do") {
  Audited world;
  for (const char* width : {"80", "40"}) {
    const std::string text = world.desk.done({"audit", "--width", width}).out;
    CAPTURE(text);
    CHECK(widest_line(text) <= static_cast<std::size_t>(std::stoi(width)));
    CHECK(text.find("C1 was used after it had expired") != std::string::npos);
    CHECK(text.find("expired-used") != std::string::npos);
    CHECK(text.find("Dispose of what is left") != std::string::npos);
  }
}

TEST_CASE("An audit prints its departures as rows") {
  Audited world;
  const std::string csv = world.desk.done({"audit", "--format", "csv"}).out;
  CHECK(csv.starts_with("severity,rule,at_ms,job,person,what,entries"));
  CHECK(csv.find("major,expired-used,") != std::string::npos);
}

TEST_CASE("A record that was changed ends the audit with 3, after the list") {
  Audited world;
  sqlite::Connection(world.desk.file("book.db"), sqlite::Access::read_write, "", 0)
      .execute("DROP TRIGGER entry_stays; UPDATE entry SET leaf = CAST(leaf || ' ' AS BLOB) WHERE seq = 6");
  const Ran ran = world.desk.run({"audit", "--json"});
  CHECK(ran.status == 3);
  CHECK(ran.json().at("departures").at(0).at("rule") == "record-changed");
  CHECK(ran.json().at("departures").at(0).at("severity") == "grave");
  CHECK(world.desk.run({"audit", "--no-verify"}).status == 0);
  CHECK(world.desk.run({"audit", "--no-verify", "--json"}).json().at("record").at("verified") == false);
}

TEST_CASE("audit stands alone and has actions; each has its help") {
  Audited world;
  CHECK(world.desk.done({"audit", "rules", "--json"}).json().at("rules").size() > 45);
  CHECK(world.desk.done({"audit", "rules", "--width", "40"}).out.find("hold-not-kept") != std::string::npos);
  const std::string help = world.desk.done({"audit", "--help"}).out;
  CHECK(help.find("--severity") != std::string::npos);
  CHECK(help.find("audit retention") != std::string::npos);
  CHECK(world.desk.done({"audit", "rules", "--help"}).out.find("--severity") == std::string::npos);
  CHECK(world.desk.run({"audit", "ruels"}).status == 2);
}

TEST_CASE("What an audit cannot look at is refused") {
  Audited world;
  const auto refused = [&](std::vector<std::string> more) {
    more.insert(more.begin(), {"audit", "--json"});
    const Ran ran = world.desk.run(std::move(more));
    CHECK(ran.out.empty());
    return std::pair{ran.status, ran.error().at("code").get<std::string>()};
  };
  CHECK(refused({"--severity", "awful"}) == std::pair{2, std::string("not-understood")});
  CHECK(refused({"--from", "yesterday"}) == std::pair{2, std::string("not-understood")});
  CHECK(refused({"--from", "2026-02-01", "--to", "2026-01-01"}) == std::pair{2, std::string("out-of-range")});
  CHECK(refused({"--rule", "no-such-rule"}) == std::pair{1, std::string("not-found")});
  CHECK(refused({"--limit", "few"}) == std::pair{2, std::string("not-understood")});
}

TEST_CASE("A name that the book does not know is refused; what is retired or stands in a departure is known") {
  Audited world;
  const auto told = [&](std::vector<std::string> more) {
    more.insert(more.begin(), {"audit", "--json"});
    const Ran ran = world.desk.run(std::move(more));
    return std::pair{ran.status,
                     ran.status == 0 ? std::string() : ran.error().at("message").get<std::string>()};
  };
  CHECK(told({"--job", "J99"}) == std::pair{1, std::string("no job is called \"J99\"")});
  CHECK(told({"--person", "nobody"}) == std::pair{1, std::string("no person is called \"nobody\"")});
  CHECK(told({"--van", "hron"}) == std::pair{1, std::string("no place is called \"hron\"")});
  CHECK(told({"--product", "x"}) == std::pair{1, std::string("no product is called \"x\"")});
  const json error = world.desk.run({"audit", "--van", "hron", "--json"}).error();
  CHECK(error.at("where") == "--van");
  CHECK(error.at("hint") == "fogwright place list shows the places");
  world.desk.machine().environment["FOGWRIGHT_ZONE"] = "America/Chicago";
  const Ran paper = world.desk.run({"paper", "audit", "--job", "J99", "--firm", "Quillfen", "--contact",
                                    "Office=555-0100", "--out", world.desk.file("audit.pdf")});
  CHECK(paper.status == 1);
  CHECK(paper.err.find("no job is called") != std::string::npos);

  world.desk.done({"crew", "retire", "rowan", "--why", "left"});
  CHECK(told({"--person", "rowan"}).first == 0);
  world.desk.done({"stock", "draw", "C1", "--volume", "1 gal", "--job", "OLD-7"});
  CHECK(world.departures({"--job", "OLD-7"}).size() >= 1);
  CHECK(told({"--job", "OLD-7", "--rule", "hold-not-kept"}).first == 0);
}

TEST_CASE("Retention tells what must be kept, and what may not be disposed of yet") {
  Audited world;
  const json lines = world.desk.done({"audit", "retention", "--json"}).json().at("records");
  CHECK(lines.size() == 6);
  CHECK(world.desk.done({"audit", "retention"}).out.find("1910.1020") != std::string::npos);
  world.desk.done({"crew", "credential", "rowan", "--what", "medical-clearance", "--issued", "2026-01-05",
                   "--expires", "2026-12-31"});
  const json held = world.desk.done({"audit", "retention", "--person", "rowan", "--json"}).json().at("records");
  REQUIRE(held.size() == 1);
  CHECK(held[0].at("rule").at("id") == "medical");
  CHECK(held[0].at("until_ms").is_null());
  CHECK(world.desk.run({"audit", "retention", "--job", "J9"}).status == 1);
}
