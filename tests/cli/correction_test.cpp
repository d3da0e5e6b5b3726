// SPDX-License-Identifier: Apache-2.0
#include "stock_world.hpp"

using namespace fogwright;
using namespace fogwright::test;
using nlohmann::json;

namespace {

bool tells(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// Container C1 is received as lot A1, as the last entry.
struct Received : BookDesk {
  Received() {
    set_up();
    receive("C1", "2026-06-30");
    receipt = done({"book", "entries", "--last", "1", "--json"}).json().at("entries").at(0);
    number = std::to_string(receipt.at("seq").get<std::int64_t>());
  }
  json receipt;
  std::string number;
};

}  // namespace

TEST_CASE("an entry is put right by its number or its id, and both show", "[cli][correction]") {
  Received desk;
  const Ran told = desk.done({"book", "correct", desk.number, "the seal was broken", "--why", "seen late"});
  CHECK(tells(told.out, "entry " + desk.number + " (container-received) is put right"));
  CHECK(
      tells(told.out, "departure (note): corrects entry " + desk.number + " (container-received): seen late"));
  desk.done({"book", "correct", desk.receipt.at("id"), "the cap was loose", "--why", "looked again"});
  const json entries = desk.done({"book", "entries", "--last", "3", "--json"}).json().at("entries");
  json receipt = entries[0];
  CHECK(receipt.at("corrected_by") == json{entries[1].at("seq"), entries[2].at("seq")});
  receipt.erase("corrected_by");
  CHECK(receipt == desk.receipt);
  for (const std::size_t at : {std::size_t{1}, std::size_t{2}}) {
    CHECK(entries[at].at("corrects") == desk.receipt.at("id"));
    CHECK(entries[at].at("body").at("about") == desk.receipt.at("id"));
  }
  CHECK(entries[2].at("reason") == "looked again");
  const std::string shown = desk.done({"book", "entries", "--last", "3"}).out;
  CHECK(tells(shown, "; corrected by entry " + std::to_string(entries[1].at("seq").get<int>()) + ", " +
                         std::to_string(entries[2].at("seq").get<int>())));
  CHECK(tells(shown, "; corrects entry " + desk.number + ": looked again"));
  CHECK(tells(desk.done({"book", "entries", "--last", "1", "--format", "csv"}).out, "looked again"));
  CHECK(desk.done({"book", "verify"}).status == 0);
  CHECK(desk.done({"book", "rebuild"}).out == "rebuilt: the documents were as the entries say\n");
}

TEST_CASE("a correction without an entry, words or reason is refused with what to do", "[cli][correction]") {
  Received desk;
  const auto refused = [&](std::vector<std::string> words) {
    words.insert(words.begin(), {"book", "correct"});
    words.emplace_back("--json");
    const Ran ran = desk.run(words);
    CHECK(ran.status != 0);
    CHECK_FALSE(ran.error().at("hint").get<std::string>().empty());
    return ran.error().at("code").get<std::string>();
  };
  CHECK(refused({"99", "text", "--why", "why"}) == "not-found");
  CHECK(refused({"the-first", "text", "--why", "why"}) == "not-found");
  CHECK(refused({"019a4c2e-5c00-7a31-8f00-0000000000a1", "text", "--why", "why"}) == "not-found");
  CHECK(refused({desk.number}) == "missing-value");
  CHECK(refused({desk.number, "text"}) == "missing-value");
  CHECK(refused({desk.number, "", "--why", "why"}) == "missing-value");
  CHECK(refused({desk.number, std::string(1'025, 'x'), "--why", "why"}) == "out-of-range");
  const json entries = desk.done({"book", "entries", "--last", "1", "--json"}).json().at("entries");
  CHECK(entries[0] == desk.receipt);
}

TEST_CASE("a note is about what the book knows", "[cli][correction]") {
  Received desk;
  CHECK(tells(desk.done({"book", "note", "C1", "the handle is cracked"}).out, "noted about C1"));
  CHECK(desk.run({"book", "note", "C9", "the handle is cracked"}).status == 1);
}

TEST_CASE("a container's label is put right, and the recall finds it by both lots", "[cli][correction]") {
  Received desk;
  const Ran told =
      desk.done({"stock", "correct", "C1", "--lot", "A71", "--expires", "2026-05-31", "--cost", "90.00",
                 "--supplier", "Wren Supply", "--why", "two digits were swapped", "--width", "200"});
  CHECK(tells(told.out, "C1 is put right, lot A71, expires 2026-05-31, supplier Wren Supply, cost $90.00"));
  CHECK(tells(told.out, "corrects entry " + desk.number + " (container-received): two digits were swapped"));
  const json shown = desk.done({"stock", "show", "C1", "--json"}).json();
  CHECK(shown.at("lot") == "A71");
  CHECK(shown.at("earlier_lots") == json{"A1"});
  const std::string text = desk.done({"stock", "show", "C1"}).out;
  CHECK(tells(text, "lot A71 (entered as A1)"));
  CHECK(tells(text, "container-corrected by ash, two digits were swapped"));
  for (const char* lot : {"A71", "A1"}) {
    const json answer = desk.done({"ask", "lot", lot, "--json"}).json();
    CHECK(answer.at("rows").at(0).at("id") == "C1");
    CHECK(answer.at("notes").size() == 1);
  }
  CHECK(tells(desk.done({"calendar", "--days", "300"}).out, "20260531"));
  CHECK(desk.run({"stock", "correct", "C1", "--lot", "A71", "--why", "again"}).status == 1);
  CHECK(desk.run({"stock", "correct", "C1", "--why", "again"}).status == 2);
  CHECK(desk.run({"stock", "correct", "C1", "--cost", "dear", "--why", "again"}).status == 2);
  CHECK(desk.done({"book", "rebuild"}).out == "rebuilt: the documents were as the entries say\n");
}
