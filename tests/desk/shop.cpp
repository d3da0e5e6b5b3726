// SPDX-License-Identifier: Apache-2.0
#include "shop.hpp"

#include <fstream>
#include <sstream>

#include "fogwright/book/encoding.hpp"
#include "fogwright/book/sha256.hpp"

namespace desk_test {

using nlohmann::json;

std::string profile(const std::string& product) {
  const std::string path = std::string(FOGWRIGHT_SOURCE_DIR) + "/product_profiles_demo/" + product + ".toml";
  std::ifstream file(path);
  INFO(path);
  REQUIRE(file.good());
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

namespace {

std::string digest_of(const std::string& text) {
  const Hash hash = sha256(text);
  return to_hex({reinterpret_cast<const char*>(hash.data()), hash.size()});
}

}  // namespace

Shop Shop::open() {
  Shop shop;
  shop.done(enrol_person(shop.context(), {"ash", {Role::owner, Role::safety_officer}, {}}));
  shop.done(enrol_person(shop.context(), {"rowan", {Role::technician}, {}}));
  shop.done(add_place(shop.context(), "shop", "shop"));
  for (const char* van : {"heron", "plover"}) shop.done(add_place(shop.context(), van, "van"));
  for (const char* product : {"fenmist-rtu", "brackwater-20", "palelight-hp"}) {
    const std::string text = profile(product);
    shop.done(adopt_label(shop.context(), {product, text, product, digest_of(text)}));
  }
  REQUIRE(shop.departures().empty());
  return shop;
}

DeskContext Shop::context() const {
  return {documents_, actor_, "test", now_ms_, {}, [this] {
            return uuid_v7(now_ms_,
                           UuidRandom{0, 0, 0, 0, 0, 0, 0, 0, static_cast<std::uint8_t>(id_number_ >> 8),
                                      static_cast<std::uint8_t>(id_number_++)});
          }};
}

void Shop::put(const NewEntry& entry) {
  Entry stored;
  stored.seq = static_cast<std::int64_t>(entries_.size());
  stored.id = entry.id;
  stored.happened_ms = entry.happened_ms;
  stored.received_ms = now_ms_;
  stored.actor = entry.actor;
  stored.device = entry.device;
  stored.kind = entry.kind;
  stored.body = entry.body;
  stored.corrects = entry.corrects;
  stored.reason = entry.reason;
  // The record would refuse what the format does not allow.
  const auto bytes = leaf_bytes(stored, "books.example/test");
  INFO((bytes ? "" : bytes.error().message));
  REQUIRE(bytes);
  fold(stored, documents_);
  entries_.push_back(std::move(stored));
}

void Shop::done(const Result<Drafts>& drafts) {
  INFO((drafts ? "" : drafts.error().message));
  REQUIRE(drafts.has_value());
  for (const NewEntry& entry : *drafts) put(entry);
}

Error Shop::refused(const Result<Drafts>& drafts) {
  REQUIRE_FALSE(drafts.has_value());
  CHECK_FALSE(drafts.error().hint.empty());
  return drafts.error();
}

void Shop::write(const std::string& kind, const json& body) { put(draft(context(), kind, body)); }

void Shop::receive(const std::string& id, const std::string& product, std::int64_t ul,
                   const std::string& expires, const std::string& place, std::optional<std::int64_t> cents,
                   const std::string& part) {
  Delivery delivery;
  delivery.container = id;
  delivery.product = product;
  delivery.part = part;
  delivery.lot = "lot of " + id;
  delivery.size_ul = ul;
  delivery.expires = expires;
  delivery.place = place;
  delivery.cost_cents = cents;
  done(fogwright::receive(context(), delivery));
}

void Shop::draw(const std::string& from, std::int64_t ul, const std::string& job, const std::string& reason) {
  done(draw_from(context(), {from, ul, job, reason}));
}

json Shop::document(const std::string& kind, const std::string& key) const {
  const auto body = documents_.get(kind, key);
  INFO(kind << " " << key);
  REQUIRE(body.has_value());
  return *body;
}

std::int64_t Shop::remaining(const std::string& vessel) const {
  const auto view = vessel_view(documents_, vessel, now_ms_);
  INFO(vessel);
  REQUIRE(view.has_value());
  return view->remaining_ul;
}

std::vector<std::string> Shop::departures() const {
  std::vector<std::string> rules;
  documents_.each("departure", false,
                  [&](const std::string&, const json& body) { rules.push_back(body.at("rule")); });
  return rules;
}

}  // namespace desk_test
