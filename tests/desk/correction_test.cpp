// SPDX-License-Identifier: Apache-2.0
#include "fogwright/desk/correction.hpp"

#include "fogwright/book/uuid.hpp"
#include "fogwright/desk/due.hpp"
#include "job_world.hpp"

using namespace desk_test;
using nlohmann::json;

namespace {

/// C1 was received as entry `seq`; what was typed is the lot and the last day of another.
struct Received {
  Shop shop = Shop::open();
  std::int64_t seq = 0;

  Received() {
    seq = static_cast<std::int64_t>(shop.entries().size());
    shop.receive("C1", "fenmist-rtu", 4 * litre, "2026-09-30", "heron", 8'000);
  }
  [[nodiscard]] const Entry& receipt() const { return shop.entries().at(static_cast<std::size_t>(seq)); }
};

ContainerCorrection to_lot(const std::string& lot) {
  ContainerCorrection correction;
  correction.container = "C1";
  correction.lot = lot;
  correction.why = "two digits were swapped";
  return correction;
}

ContainerCorrection to_day(const std::string& expires) {
  ContainerCorrection correction = to_lot({});
  correction.lot.reset();
  correction.expires = expires;
  return correction;
}

Error refused(const Shop& shop, const ContainerCorrection& correction) {
  return Shop::refused(correct_container(shop.context(), correction));
}

json last_departure(const Shop& shop) {
  json last;
  shop.book().each("departure", false, [&](const std::string&, const json& body) { last = body; });
  return last;
}

std::vector<std::int64_t> corrections_of(const Documents& documents, const Uuid& id) {
  return corrections_in(documents)[uuid_text(id)];
}

}  // namespace

TEST_CASE("words put an entry right; both stay, each shows the other", "[correction]") {
  Received world;
  Shop& shop = world.shop;
  shop.by("rowan");
  shop.done(correct_entry(shop.context(), world.receipt(), "the seal was broken", "not seen at first"));
  const Entry& note = shop.entries().back();
  CHECK(note.kind == "note");
  CHECK(note.corrects == world.receipt().id);
  CHECK(note.reason == "not seen at first");
  CHECK(note.body == json{{"about", uuid_text(world.receipt().id)},
                          {"text", "the seal was broken"},
                          {"container", "C1"},
                          {"corrected", {{"seq", world.seq}, {"kind", "container-received"}}}});
  CHECK(corrections_of(shop.book(), world.receipt().id) == std::vector{note.seq});
  CHECK(corrections_of(shop.book(), note.id).empty());
  const json departure = last_departure(shop);
  CHECK(departure.at("rule") == "correction");
  CHECK(departure.at("what") ==
        "corrects entry " + std::to_string(world.seq) + " (container-received): not seen at first");
  CHECK(departure.at("corrects") == uuid_text(world.receipt().id));
  CHECK(departure.at("seq") == note.seq);
  CHECK(departure.at("shown_by") == json{world.seq});

  SECTION("a correction may be put right as well") {
    shop.done(correct_entry(shop.context(), note, "it was whole after all", "looked again"));
    CHECK(corrections_of(shop.book(), note.id) == std::vector{note.seq + 1});
    CHECK(last_departure(shop).at("shown_by") == json{note.seq});
  }
  SECTION("an entry may be put right more than once") {
    shop.done(correct_entry(shop.context(), world.receipt(), "the cap was loose", "looked again"));
    CHECK(corrections_of(shop.book(), world.receipt().id) == std::vector{note.seq, note.seq + 1});
  }
}

TEST_CASE("what is said about an entry of a job is a departure of that job", "[correction]") {
  Received world;
  world.shop.draw("C1", litre, "J7");
  world.shop.done(
      correct_entry(world.shop.context(), world.shop.entries().back(), "it was less", "read again"));
  CHECK(world.shop.entries().back().body.at("job") == "J7");
  CHECK(last_departure(world.shop).at("job") == "J7");
}

TEST_CASE("a correction needs words, a reason, and a role that may write such an entry", "[correction]") {
  Received world;
  Shop& shop = world.shop;
  const auto code = [&](const Entry& entry, const std::string& text, const std::string& why) {
    return Shop::refused(correct_entry(shop.context(), entry, text, why)).code;
  };
  CHECK(code(world.receipt(), " ", "why") == ErrorCode::missing_value);
  CHECK(code(world.receipt(), "text", "") == ErrorCode::missing_value);
  CHECK(code(world.receipt(), std::string(1'025, 'x'), "why") == ErrorCode::out_of_range);
  CHECK(code(world.receipt(), "text", std::string(1'025, 'x')) == ErrorCode::out_of_range);
  shop.done(correct_entry(shop.context(), world.receipt(), std::string(1'024, 'x'), std::string(1'024, 'x')));
  shop.by("rowan");
  CHECK(code(shop.entries().front(), "text", "why") == ErrorCode::not_permitted);  // who enrolled: the owner
  shop.by("nobody");
  CHECK(code(world.receipt(), "text", "why") == ErrorCode::not_found);
}

TEST_CASE("an entry of another program's kind is put right by anyone of the crew", "[correction]") {
  Received world;
  world.shop.write("weather-seen", {{"sky", "grey"}});
  world.shop.by("rowan");
  world.shop.done(correct_entry(world.shop.context(), world.shop.entries().back(), "blue", "looked again"));
  CHECK(last_departure(world.shop).at("rule") == "correction");
}

TEST_CASE("a correction that does not tell a number before its own shows itself alone", "[correction]") {
  Received world;
  Shop& shop = world.shop;
  for (const json& told :
       {json(), json(7), json{{"seq", world.seq}}, json{{"seq", "1"}, {"kind", "note"}},
        json{{"seq", -1}, {"kind", "note"}}, json{{"seq", shop.entries().size() + 10}, {"kind", "note"}}}) {
    NewEntry entry = draft(shop.context(), "note", {{"about", "C1"}, {"text", "x"}});
    if (!told.is_null()) entry.body["corrected"] = told;
    entry.corrects = world.receipt().id;
    entry.reason = "wrong";
    shop.done(Drafts{entry});
    INFO(told.dump());
    CHECK(last_departure(shop).at("seq") == shop.entries().back().seq);
    CHECK(last_departure(shop).at("what") == "corrects an earlier entry: wrong");
    CHECK_FALSE(last_departure(shop).contains("shown_by"));
  }
}

TEST_CASE("a note is about something that the book knows by name", "[correction]") {
  Received world;
  Shop& shop = world.shop;
  for (const char* about : {"C1", "ash", "heron", "fenmist-rtu"}) {
    shop.done(write_note(shop.context(), about, "seen"));
    CHECK(shop.entries().back().kind == "note");
    CHECK(shop.entries().back().body == json{{"about", about}, {"text", "seen"}});
  }
  CHECK(Shop::refused(write_note(shop.context(), "C9", "seen")).code == ErrorCode::not_found);
  CHECK(Shop::refused(write_note(shop.context(), "C1", " ")).code == ErrorCode::missing_value);
  CHECK(shop.departures().empty());
}

TEST_CASE("a note about a job is found with the job", "[correction]") {
  JobWorld world("fenmist-rtu");
  world.shop.done(write_note(world.context(), "J1", "the cellar door sticks"));
  CHECK(world.shop.entries().back().body.at("job") == "J1");
}

TEST_CASE("what was typed wrongly off a label is put right, and the receipt stays", "[correction][stock]") {
  Received world;
  Shop& shop = world.shop;
  shop.draw("C1", litre);
  json before = shop.document("container", "C1");
  shop.by("rowan");
  ContainerCorrection all = to_lot("A71");
  all.expires = "2026-08-31";
  all.supplier = "Wren Supply";
  all.cost_cents = 9'000;
  shop.done(correct_container(shop.context(), all));
  const Entry& correction = shop.entries().back();
  CHECK(correction.kind == "container-corrected");
  CHECK(correction.corrects == world.receipt().id);
  CHECK(correction.reason == "two digits were swapped");
  before.update({{"lot", "A71"},
                 {"expires", "2026-08-31"},
                 {"supplier", "Wren Supply"},
                 {"cost_cents", 9'000},
                 {"earlier_lots", {"lot of C1"}}});
  CHECK(shop.document("container", "C1") == before);
  const json departure = last_departure(shop);
  CHECK(departure.at("what") ==
        "corrects entry " + std::to_string(world.seq) + " (container-received): two digits were swapped");
  CHECK(departure.at("shown_by") == json{world.seq});
  CHECK(departure.at("container") == "C1");
  CHECK(departure.at("product") == "fenmist-rtu");
  CHECK(world.receipt().body.at("lot") == "lot of C1");
  CHECK(shop.document("movements", "C1").at("rows").back() == json{{"seq", correction.seq},
                                                                   {"at_ms", shop.now()},
                                                                   {"actor", "rowan"},
                                                                   {"what", "container-corrected"},
                                                                   {"ul", 0},
                                                                   {"note", "two digits were swapped"}});

  SECTION("what is right a second time keeps each lot, once") {
    shop.done(correct_container(shop.context(), to_lot("A17")));
    shop.done(correct_container(shop.context(), to_lot("A71")));
    shop.done(correct_container(shop.context(), to_lot("A17")));
    CHECK(shop.document("container", "C1").at("earlier_lots") == json{"lot of C1", "A71", "A17"});
    CHECK(corrections_of(shop.book(), world.receipt().id).size() == 4);
  }
}

TEST_CASE("only what differs is written; nothing else is asked for", "[correction][stock]") {
  Received world;
  ContainerCorrection same = to_day("2026-09-30");
  CHECK(refused(world.shop, same).code == ErrorCode::wrong_state);
  same.cost_cents = 7'000;
  world.shop.done(correct_container(world.shop.context(), same));
  CHECK(world.shop.entries().back().body ==
        json{{"container", "C1"},
             {"cost_cents", 7'000},
             {"corrected", {{"seq", world.seq}, {"kind", "container-received"}}}});
  CHECK_FALSE(world.shop.document("container", "C1").contains("earlier_lots"));
}

TEST_CASE("a correction of what can't be so is refused", "[correction][stock]") {
  Received world;
  Shop& shop = world.shop;
  ContainerCorrection nothing = to_lot("A71");
  nothing.lot.reset();
  CHECK(refused(shop, nothing).code == ErrorCode::missing_value);
  CHECK(refused(shop, to_lot("")).code == ErrorCode::missing_value);
  CHECK(refused(shop, to_day("2026-02-30")).code == ErrorCode::not_understood);
  ContainerCorrection without_reason = to_lot("A71");
  without_reason.why = "";
  CHECK(refused(shop, without_reason).code == ErrorCode::missing_value);
  ContainerCorrection dear = to_lot("A71");
  dear.cost_cents = -1;
  CHECK(refused(shop, dear).code == ErrorCode::out_of_range);
  ContainerCorrection other = to_lot("A71");
  other.container = "C9";
  CHECK(refused(shop, other).code == ErrorCode::not_found);
  shop.by("nobody");
  CHECK(refused(shop, to_lot("A71")).code == ErrorCode::not_found);
}

TEST_CASE("a batch was mixed, not received; its lots are those of its containers as put right",
          "[correction][stock]") {
  Shop shop = Shop::open();
  shop.receive("C1", "brackwater-20", litre, "2027-01-31", "heron", {}, "Part A concentrate");
  shop.receive("C2", "brackwater-20", litre, "2027-01-31", "heron", {}, "Part B activator (citric acid)");
  shop.by("rowan");
  MixRequest request;
  request.batch = "B1";
  request.product = "brackwater-20";
  request.made_ul = 2 * litre;
  request.parts = {{"C1", {}}, {"C2", {}}};
  request.place = "heron";
  request.respirator_worn = true;
  shop.done(mix_batch(shop.context(), request));
  ContainerCorrection batch = to_lot("A71");
  batch.container = "B1";
  const Error error = refused(shop, batch);
  CHECK(error.code == ErrorCode::wrong_state);
  CHECK(error.hint.find("containers that it was mixed from") != std::string::npos);
  shop.done(correct_container(shop.context(), to_lot("A71")));
  CHECK(vessel_view(shop.book(), "B1", shop.now())->lot == "A71, lot of C2");
}

TEST_CASE("the turn and what falls due follow the day that was put right", "[correction][stock]") {
  Received world;
  Shop& shop = world.shop;
  const auto due = [&] {
    std::vector<std::string> days;
    for (const Due& one : due_within(shop.book(), {shop.now(), {}}, 365))
      if (one.kind == DueKind::container && one.key.find("C1") != std::string::npos) days.push_back(one.day);
    return days;
  };
  CHECK(due() == std::vector<std::string>{"2026-09-30"});
  shop.receive("C2", "fenmist-rtu", 4 * litre, "2026-10-31");
  CHECK(Shop::refused(draw_from(shop.context(), {"C2", litre, {}, {}})).message.find("C1") !=
        std::string::npos);
  shop.done(correct_container(shop.context(), to_day("2026-11-30")));
  CHECK(due() == std::vector<std::string>{"2026-11-30"});
  shop.draw("C2", litre);
  CHECK(Shop::refused(draw_from(shop.context(), {"C1", litre, {}, {}})).message.find("C2") !=
        std::string::npos);
  CHECK(shop.departures() == std::vector<std::string>{"correction"});
}

TEST_CASE("a draw is judged by what the book said when it was made", "[correction][stock]") {
  Received world;
  Shop& shop = world.shop;
  shop.draw("C1", litre, "J1");
  shop.done(correct_container(shop.context(), to_day("2026-03-01")));
  CHECK(shop.departures() == std::vector<std::string>{"correction"});
  CHECK_FALSE(vessel_view(shop.book(), "C1", shop.now())->usable);
  CHECK(on_hand(shop.book(), "fenmist-rtu", "heron", shop.now()).usable_ul == 0);
  shop.draw("C1", litre, "J1", "nothing else is there");
  CHECK(shop.departures().back() == "expired-used");
  CHECK(shop.departures().size() == 2);
}

TEST_CASE("what a job drew keeps its cost and tells the lot that was put right", "[correction][stock]") {
  Received world;
  Shop& shop = world.shop;
  shop.draw("C1", litre, "J1");
  ContainerCorrection correction = to_lot("A71");
  correction.cost_cents = 16'000;
  shop.done(correct_container(shop.context(), correction));
  shop.draw("C1", litre, "J1");
  const JobCost cost = job_cost(shop.book(), "J1");
  REQUIRE(cost.lines.size() == 2);
  CHECK(cost.lines[0].cents == 2'000);
  CHECK(cost.lines[1].cents == 4'000);
  CHECK(cost.lines[0].lot == "A71");
}

TEST_CASE("a correction of a container that nobody received is shown as a departure", "[correction][stock]") {
  Received world;
  world.shop.write("container-corrected", {{"container", "C9"}, {"lot", "A71"}});
  CHECK(world.shop.departures() == std::vector<std::string>{"unknown-name"});
  world.shop.write("container-corrected", {{"container", "C1"}, {"lot", 7}, {"expires", "2027-01-01"}});
  CHECK(world.shop.departures().back() == "unreadable-body");
  CHECK(world.shop.document("container", "C1").at("expires") == "2026-09-30");
}
