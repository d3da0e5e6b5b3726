// SPDX-License-Identifier: Apache-2.0
#include <set>

#include "fogwright/stock.hpp"
#include "stock_world.hpp"

using namespace fogwright;
using namespace fogwright::test;

namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// Words as a shell splits them; single quotes only.
std::vector<std::string> shell_words(const std::string& line) {
  std::vector<std::string> words(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '\'')
      quoted = !quoted;
    else if (c == ' ' && !quoted)
      words.emplace_back();
    else
      words.back() += c;
  }
  return words;
}

}  // namespace

TEST_CASE("the first person is an owner, and the rest is enrolled by one", "[cli][stock]") {
  BookDesk desk;
  CHECK(desk.run({"crew", "list"}).status == 1);
  CHECK(desk.run({"crew", "enrol", "ash", "--role", "technician"}).status == 1);
  desk.done({"crew", "enrol", "ash", "--role", "owner"});
  desk.machine().environment["FOGWRIGHT_BY"] = "rowan";
  const Ran refused = desk.run({"crew", "enrol", "rowan", "--role", "technician", "--json"});
  CHECK(refused.status == 1);
  CHECK(refused.error().at("code") == "not-found");
  desk.done({"crew", "enrol", "rowan", "--role", "technician", "--by", "ash"});
  CHECK(desk.done({"crew", "list", "--json"}).json().at("crew").size() == 2);
}

TEST_CASE("nobody writes without saying who", "[cli][stock]") {
  BookDesk desk;
  desk.machine().environment.erase("FOGWRIGHT_BY");
  const Ran ran = desk.run({"crew", "enrol", "ash", "--role", "owner", "--json"});
  CHECK(ran.status == 2);
  CHECK(ran.error().at("where") == "--by");
}

TEST_CASE("a name is kept beside the record, under its hash", "[cli][stock]") {
  BookDesk desk;
  const Ran enrolled = desk.done({"crew", "enrol", "ash", "--role", "owner", "--name", "Asha Reed", "--json"});
  CHECK_FALSE(has(enrolled.out, "Asha"));
  CHECK(enrolled.json().at("entries")[0].at("body").at("details").get<std::string>().size() == 64);
  CHECK(desk.done({"crew", "show", "ash", "--json"}).json().at("kept").at("name") == "Asha Reed");
  CHECK(has(desk.done({"crew", "show", "ash"}).out, "Asha Reed"));
}

TEST_CASE("credentials are shown with their standing", "[cli][stock]") {
  BookDesk desk;
  desk.set_up();
  desk.done({"crew", "credential", "rowan", "--what", "fit-test", "--issued", "2025-12-01", "--facepiece",
             "full-facepiece", "--model", "FF-1", "--size", "M"});
  desk.done({"crew", "credential", "rowan", "--what", "licence", "--issued", "2024-01-01", "--expires",
             "2025-12-31"});
  const std::string shown = desk.done({"crew", "show", "rowan"}).out;
  CHECK(has(shown, "good through 2026-12-01"));
  CHECK(has(shown, "expired 2025-12-31"));
  const auto person = desk.done({"crew", "show", "rowan", "--json"}).json();
  desk.done({"crew", "withdraw", person.at("credentials")[0].at("entry"), "--why", "new beard"});
  CHECK(has(desk.done({"crew", "show", "rowan"}).out, "withdrawn: new beard"));
  CHECK(desk.run({"crew", "credential", "rowan", "--what", "fitness", "--issued", "2025-12-01"}).status == 2);
}

TEST_CASE("foggers and cartridges are listed with what the plan needs of them", "[cli][stock]") {
  BookDesk desk;
  desk.set_up();
  desk.done({"fogger", "add", "gust", "--tank", "1 gal"});
  desk.done({"fogger", "test", "gust", "--catch", "178 mL in 60 s", "--catch", "182 mL in 60 s", "--catch",
             "180 mL in 60 s"});
  CHECK(has(desk.done({"fogger", "list"}).out, "180 mL/min"));
  const Ran worn = desk.done({"fogger", "test", "gust", "--catch", "150 mL in 60 s", "--catch",
                              "150 mL in 60 s", "--catch", "150 mL in 60 s"});
  CHECK(has(worn.out, "departure (minor)"));
  CHECK(has(worn.out, "16.6 % less"));
  desk.done({"cartridge", "register", "y1", "--model", "OV-60", "--words", "organic vapor/acid gas",
             "--schedule", "8 h", "--basis", "maker table"});
  desk.done({"cartridge", "use", "y1", "--worn", "40 min", "--worn-by", "rowan"});
  CHECK(has(desk.done({"cartridge", "list"}).out, "40 of 480 min"));
}

TEST_CASE("a profile with faults is not adopted, and each fault is told", "[cli][stock]") {
  BookDesk desk;
  desk.set_up();
  const TemporaryFile bad("format = 1\nname = 7\nmaker = 8\n");
  const Ran ran = desk.run({"product", "adopt", bad.path()});
  CHECK(ran.status == 3);
  CHECK(has(ran.err, bad.path() + ":2"));
  CHECK(has(ran.err, bad.path() + ":3"));
}

TEST_CASE("a container's life at the command line", "[cli][stock]") {
  BookDesk desk;
  desk.set_up();
  desk.receive("late", "2027-06-30");
  desk.receive("early", "2026-06-30");
  const Ran refused = desk.run({"stock", "draw", "late", "--volume", "12 fl oz", "--job", "J1"});
  CHECK(refused.status == 2);
  CHECK(has(refused.err, "early"));
  const Ran drawn =
      desk.done({"stock", "draw", "late", "--volume", "12 fl oz", "--job", "J1", "--reason", "frozen in"});
  CHECK(has(drawn.out, "departure (note)"));
  desk.done({"stock", "return", "late", "--volume", "2 fl oz", "--job", "J1"});
  desk.done({"stock", "spill", "early", "--volume", "1 fl oz", "--done", "wiped up"});
  desk.done({"stock", "count", "early", "--found", "1 qt"});
  desk.done({"stock", "move", "early", "--to", "shop"});
  desk.done({"stock", "dispose", "early", "--how", "by the label"});
  const auto shown = desk.done({"stock", "show", "early", "--json"}).json();
  CHECK(shown.at("remaining_ul") == 0);
  std::int64_t sum = 0;
  for (const auto& row : shown.at("movements")) sum += row.at("ul").get<std::int64_t>();
  CHECK(sum == 0);
  CHECK(desk.run({"stock", "show", "no"}).status == 1);
}

TEST_CASE("a job's product costs what its lots did", "[cli][stock]") {
  BookDesk desk;
  desk.set_up();
  desk.receive("c", "2027-06-30");
  desk.done({"stock", "draw", "c", "--volume", "64 fl oz", "--job", "J1"});
  const Ran cost = desk.done({"stock", "cost", "J1"});
  CHECK(has(cost.out, "$42.26"));  // half of 84.50, a microlitre and a cent rounded up
  CHECK(desk.run({"stock", "cost", "J2"}).status == 1);
}

TEST_CASE("an over-draw is written and told as a departure", "[cli][stock]") {
  BookDesk desk;
  desk.set_up();
  desk.receive("c", "2027-06-30");
  const Ran ran = desk.done({"stock", "draw", "c", "--volume", "2 gal", "--json"});
  CHECK(ran.json().at("departures")[0].at("rule") == "over-draw");
  CHECK(ran.json().at("entries")[0].at("body").at("over_ul").get<std::int64_t>() > 0);
}

TEST_CASE("an import is all or nothing, each fault with its line", "[cli][stock]") {
  BookDesk desk;
  desk.set_up();
  const std::string header = "product,lot,size,expires,place,cost\n";
  const std::string good = "fenmist-rtu,A1,1 gal,2027-01-31,shop,84.50\n";
  const TemporaryFile bad(
      header + good + "fenmist-rtu,A1,1 gal,2027-01-31,moon,\nother,A1,1 gal,2027-01-31,shop,\n", ".csv");
  const Ran refused = desk.run({"stock", "import", bad.path()});
  CHECK(refused.status == 3);
  CHECK(has(refused.err, bad.path() + ":3"));
  CHECK(has(refused.err, bad.path() + ":4"));
  CHECK(desk.done({"stock", "list", "--json"}).json().at("items").empty());
  const TemporaryFile fine(header + good + good, ".csv");
  CHECK(has(desk.done({"stock", "import", fine.path()}).out, "2 containers received"));
  CHECK(desk.done({"stock", "list", "--json"}).json().at("vessels").size() == 2);
}

TEST_CASE("a batch is mixed by the label and listed with its life", "[cli][stock]") {
  BookDesk desk;
  desk.set_up();
  for (const auto& [id, part] : {std::pair{"a", "Part A concentrate"}, {"b", "Part B activator (citric acid)"}})
    desk.done({"stock", "receive", "brackwater-20", "--id", id, "--part", part, "--lot", "K1", "--size", "1 qt",
               "--expires", "2027-01-31", "--place", "heron"});
  const std::vector<std::string> mix = {"stock",  "mix", "brackwater-20", "--make", "1/2 gal", "--part", "a",
                                        "--part", "b",   "--place",       "heron",  "--by",    "rowan"};
  auto worn = mix;
  worn.push_back("--respirator-worn");
  CHECK(has(desk.done(worn).out, "B1: 64.0 fl oz of brackwater-20 mixed, usable for 24 h"));
  CHECK(has(desk.done(mix).out, "departure (grave)"));
  const std::string list = desk.done({"stock", "list"}).out;
  CHECK(has(list, "127.9 fl oz mixed"));
  CHECK_FALSE(has(list, "expiring"));
}

TEST_CASE("the list tells what expires and what to order", "[cli][stock]") {
  BookDesk desk;
  desk.set_up();
  desk.receive("c", "2026-01-20");
  desk.receive("d", "2027-01-20");
  CHECK(has(desk.done({"stock", "list"}).out, "expiring within 30 days: c"));
  CHECK_FALSE(has(desk.done({"stock", "list", "--expiring", "5"}).out, "expiring within"));
  desk.done({"stock", "rule", "fenmist-rtu", "--unit", "1 gal"});
  CHECK(desk.done({"stock", "order", "--json"}).json().at("orders").empty());  // no demand is known yet
  for (int day = 0; day < 8; ++day) {
    desk.done({"stock", "draw", "c", "--volume", "12 fl oz", "--job", "J" + std::to_string(day)});
    desk.machine().pass(day_ms);
  }
  const auto orders = desk.done({"stock", "order", "--json"}).json().at("orders");
  REQUIRE(orders.empty());
  for (int day = 0; day < 2; ++day)
    desk.done({"stock", "draw", "d", "--volume", "1/2 gal", "--reason", "c is behind"});
  CHECK(desk.done({"stock", "order", "--json"}).json().at("orders").size() == 1);
}

TEST_CASE("a van is checked against the materials of trade", "[cli][stock]") {
  BookDesk desk;
  desk.set_up();
  desk.receive("f", "2027-01-31");
  CHECK(has(desk.done({"stock", "van-check"}).out, "not regulated"));
  desk.done({"stock", "receive", "brackwater-20", "--part", "Part A concentrate", "--lot", "K1", "--size",
             "10 gal", "--expires", "2027-01-31", "--place", "heron"});
  const Ran ran = desk.done({"stock", "van-check", "heron"});
  CHECK(has(ran.out, "173.6(a)(1)(ii)"));
  CHECK(desk.run({"stock", "van-check", "moon"}).status == 1);
}

TEST_CASE("storage is read in the units that were typed", "[cli][stock]") {
  BookDesk desk;
  desk.set_up();
  desk.receive("c", "2027-01-31");
  CHECK(has(desk.done({"place", "read", "heron", "104 F"}).out, "departure (major)"));
  CHECK(has(desk.done({"place", "list", "--units", "metric"}).out, "40.0 °C"));
  CHECK(desk.run({"place", "read", "heron", "warm"}).status == 2);
  desk.done({"place", "read", "heron", "-5 C", "--json"});
  CHECK(has(desk.done({"place", "list", "--units", "metric"}).out, "-5.0 °C"));
  desk.done({"place", "read", "--json", "heron", "--", "-6 C"});
  CHECK(has(desk.done({"place", "list", "--units", "metric"}).out, "-6.0 °C"));
}

TEST_CASE("documents derived anew are those that were kept", "[cli][stock]") {
  BookDesk desk;
  desk.set_up();
  desk.receive("c", "2027-01-31");
  desk.done({"stock", "draw", "c", "--volume", "2 gal", "--job", "J1"});
  desk.done({"place", "read", "heron", "104 F"});
  const auto store = open_sqlite_book(desk.file("book.db"), fold, [&desk] { return desk.machine().now_ms; });
  REQUIRE(store.has_value());
  std::vector<std::string> differing;
  CHECK((*store)->rebuild(differing, {}) == 0);
  CHECK(differing.empty());
}

TEST_CASE("the example of every command of the desk is one that it takes", "[cli][stock]") {
  int examples = 0;
  for (const Command& command : commands()) {
    const bool of_desk =
        std::set<std::string_view>{"crew", "fogger", "cartridge", "product", "place", "stock"}.contains(
            command.name);
    if (!of_desk) continue;
    const auto words = shell_words(std::string(command.example));
    INFO(command.example);
    REQUIRE(words.size() >= 3);
    CHECK(words[0] == "fogwright");
    CHECK(words[1] == command.name);
    CHECK(words[2] == command.action);
    const auto options = read_options(command, {words.begin() + 3, words.end()});
    INFO((options ? "" : options.error().message));
    CHECK(options.has_value());
    ++examples;
  }
  CHECK(examples > 0);
}
