// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/entry.hpp"

#include <rapidcheck.h>

#include <catch2/catch.hpp>
#include <limits>

#include "book/json_generator.hpp"
#include "book/sample_book.hpp"
#include "fogwright/book/canonical_json.hpp"

using namespace fogwright;
using nlohmann::json;

namespace {

// Leaf bytes with one member of the envelope set to something else, or taken out.
std::string with(const char* member, const json& value) {
  json object = json::parse(leaf_bytes(sample::correction(6, 5), sample::origin).value());
  object[member] = value;
  return canonical_json(object).value();
}

std::string without(const char* member) {
  json object = json::parse(leaf_bytes(sample::correction(6, 5), sample::origin).value());
  object.erase(member);
  return canonical_json(object).value();
}

}  // namespace

TEST_CASE("An entry has exactly these bytes", "[entry]") {
  Entry entry;
  entry.seq = 3;
  entry.id = read_uuid("017f22e2-79b0-7cc3-98c4-dc0c0c07398f").value();
  entry.happened_ms = 1645557742000;
  entry.received_ms = 1645557742100;
  entry.actor = "ada";
  entry.device = "van-2";
  entry.kind = "stock-received";
  entry.body = {{"volume_ml", 3785}, {"container", "C-1"}};
  CHECK(
      leaf_bytes(entry, "books.example/north") ==
      R"({"actor":"ada","body":{"container":"C-1","volume_ml":3785},"book":"books.example/north","device":"van-2",)"
      R"("happened":1645557742000,"id":"017f22e2-79b0-7cc3-98c4-dc0c0c07398f","kind":"stock-received",)"
      R"("received":1645557742100,"seq":3,"v":1})");
  const std::string bytes = leaf_bytes(entry, "books.example/north").value();
  CHECK(claims_seq(bytes, 3));
  CHECK_FALSE(claims_seq(bytes, 13));
  CHECK_FALSE(claims_seq(bytes, 0));
  CHECK_FALSE(claims_seq(bytes.substr(1 + bytes.find(",\"seq")), 3));
  CHECK_FALSE(claims_seq("", 3));
}

TEST_CASE("An entry reads back as it was written", "[entry]") {
  for (const Entry& entry : {sample::entry(0), sample::entry(123456), sample::correction(6, 5)}) {
    const std::string bytes = leaf_bytes(entry, sample::origin).value();
    CHECK(read_entry(bytes, sample::origin) == entry);
    CHECK_FALSE(read_entry(bytes, "example.com/another"));
  }
}

TEST_CASE("No byte of an entry can be left out or added", "[entry]") {
  const std::string bytes = leaf_bytes(sample::correction(6, 5), sample::origin).value();
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    CHECK_FALSE(read_entry(bytes.substr(0, i), sample::origin));
    CHECK_FALSE(read_entry(bytes.substr(0, i) + " " + bytes.substr(i), sample::origin) ==
                read_entry(bytes, sample::origin));
  }
  CHECK_FALSE(read_entry(bytes + "\n", sample::origin));
  CHECK_FALSE(read_entry(" " + bytes, sample::origin));
}

TEST_CASE("An envelope with a wrong, missing or unknown member is refused and the member is named", "[entry]") {
  CHECK(read_entry(with("seq", 6), sample::origin));
  for (const char* member :
       {"actor", "body", "book", "device", "happened", "id", "kind", "received", "seq", "v"}) {
    CAPTURE(member);
    CHECK(read_entry(without(member), sample::origin).error().where == member);
    CHECK(read_entry(with(member, nullptr), sample::origin).error().where == member);
  }
  CHECK(read_entry(without("reason"), sample::origin).error().where == "reason");
  CHECK_FALSE(read_entry(without("corrects"), sample::origin));
  CHECK_FALSE(read_entry(with("extra", 1), sample::origin));
  CHECK(read_entry(with("v", 2), sample::origin).error().code == ErrorCode::newer_book);
  CHECK(read_entry(with("v", 0), sample::origin).error().code == ErrorCode::bad_entry);
  CHECK_FALSE(read_entry(with("id", "017F22E2-79B0-7CC3-98C4-DC0C0C07398F"), sample::origin));
  CHECK_FALSE(read_entry("[]", sample::origin));
  CHECK_FALSE(read_entry("17", sample::origin));
}

TEST_CASE("What the format does not allow cannot be written", "[entry]") {
  const auto refused_at = [](auto change) {
    Entry entry = sample::correction(6, 5);
    change(entry);
    const auto bytes = leaf_bytes(entry, sample::origin);
    return bytes ? std::string("accepted") : bytes.error().where;
  };
  CHECK(refused_at([](Entry& e) { e.seq = -1; }) == "seq");
  CHECK(refused_at([](Entry& e) { e.seq = std::numeric_limits<std::int64_t>::max(); }) == "seq");
  CHECK(refused_at([](Entry& e) { e.happened_ms = -1; }) == "happened");
  CHECK(refused_at([](Entry& e) { e.received_ms = latest_time_ms + 1; }) == "received");
  CHECK(refused_at([](Entry& e) { e.received_ms = latest_time_ms; }) == "accepted");
  CHECK(refused_at([](Entry& e) { e.actor.clear(); }) == "actor");
  CHECK(refused_at([](Entry& e) { e.actor = "\xFF"; }) == "");
  CHECK(refused_at([](Entry& e) { e.device = std::string(129, 'd'); }) == "device");
  CHECK(refused_at([](Entry& e) { e.id = {}; }) == "id");
  CHECK(refused_at([](Entry& e) { e.body = json::array(); }) == "body");
  CHECK(refused_at([](Entry& e) { e.body["litres"] = 3.785; }) == "/body/litres");
  CHECK(refused_at([](Entry& e) { e.body["volume_ml"] = 9007199254740992; }) == "/body/volume_ml");
  CHECK(refused_at([](Entry& e) { e.body["\xC3\xA4"] = 1; }) == "/body/\xC3\xA4");
  CHECK(refused_at([](Entry& e) { e.corrects = e.id; }) == "corrects");
  CHECK(refused_at([](Entry& e) { e.corrects = Uuid{}; }) == "corrects");
  CHECK(refused_at([](Entry& e) { e.reason.clear(); }) == "reason");
  CHECK(refused_at([](Entry& e) { e.corrects.reset(); }) == "reason");
  for (const char* kind :
       {"", "Stock", "stock_received", "-stock", "stock-", "stock--received", "7stock", "stock received"}) {
    CHECK(refused_at([&](Entry& e) { e.kind = kind; }) == "kind");
  }
  CHECK(refused_at([](Entry& e) { e.kind = "job-2-closed"; }) == "accepted");
}

TEST_CASE("An entry has at most 65,535 bytes", "[entry]") {
  Entry entry = sample::entry(0);
  entry.body = {{"text", ""}};
  const std::size_t rest = leaf_bytes(entry, sample::origin).value().size();
  entry.body["text"] = std::string(most_leaf_bytes - rest, 'x');
  const std::string longest = leaf_bytes(entry, sample::origin).value();
  CHECK(longest.size() == most_leaf_bytes);
  CHECK(read_entry(longest, sample::origin) == entry);
  entry.body["text"] = std::string(most_leaf_bytes - rest + 1, 'x');
  CHECK(leaf_bytes(entry, sample::origin).error().where == "body");
  CHECK_FALSE(read_entry(longest + std::string(1, 'x'), sample::origin));
}

TEST_CASE("Any entry survives writing and reading", "[entry][property]") {
  CHECK(rc::check("write, read", [] {
    Entry entry = sample::entry(*rc::gen::inRange<std::int64_t>(0, 1'000'000'000));
    entry.happened_ms = *rc::gen::inRange<std::int64_t>(0, latest_time_ms + 1);
    entry.actor = "a" + *rc::gen::container<std::string>(rc::gen::inRange('a', 'z'));
    RC_PRE(entry.actor.size() <= 128);
    entry.body = {{"value", *json_value(0)}, {"text", *unicode_text()}};
    const std::string bytes = leaf_bytes(entry, sample::origin).value();
    RC_ASSERT(read_entry(bytes, sample::origin).value() == entry);
    RC_ASSERT(claims_seq(bytes, static_cast<std::uint64_t>(entry.seq)));
  }));
}
