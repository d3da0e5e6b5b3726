// SPDX-License-Identifier: Apache-2.0
#include "shop.hpp"

using namespace desk_test;

namespace {

Credential fit_test(const std::string& issued, const std::string& expires = {}) {
  Credential c;
  c.handle = "rowan";
  c.issued = issued;
  c.expires = expires;
  c.facepiece = Facepiece::full_facepiece;
  c.facepiece_model = "FF-1";
  c.facepiece_size = "M";
  return c;
}

Result<Drafts> enrol(const Shop& shop, const std::string& handle, std::vector<Role> roles) {
  return enrol_person(shop.context(), {handle, std::move(roles), {}});
}

}  // namespace

TEST_CASE("the first person of a book enrols as its owner", "[crew]") {
  Shop shop;
  CHECK(Shop::refused(enrol(shop, "ash", {Role::technician})).code == ErrorCode::wrong_state);
  shop.done(enrol(shop, "ash", {Role::owner}));
  CHECK(shop.document("person", "ash").at("roles") == nlohmann::json{"owner"});
}

TEST_CASE("only an owner enrols others, and each handle once", "[crew]") {
  Shop shop = Shop::open();
  CHECK(Shop::refused(enrol(shop, "rowan", {Role::technician})).code == ErrorCode::already_exists);
  CHECK(Shop::refused(enrol(shop, "bad/name", {Role::technician})).code == ErrorCode::not_understood);
  CHECK(Shop::refused(enrol(shop, "hazel", {})).code == ErrorCode::missing_value);
  shop.by("rowan");
  CHECK(Shop::refused(enrol(shop, "hazel", {Role::technician})).code == ErrorCode::not_permitted);
  shop.by("nobody");
  CHECK(Shop::refused(enrol(shop, "hazel", {Role::technician})).code == ErrorCode::not_found);
}

TEST_CASE("a book is never left without an owner", "[crew]") {
  Shop shop = Shop::open();
  CHECK(Shop::refused(retire_person(shop.context(), "ash", "leaves")).code == ErrorCode::wrong_state);
  CHECK(Shop::refused(change_roles(shop.context(), "ash", {Role::technician}, "wants to fog")).code ==
        ErrorCode::wrong_state);
  shop.done(change_roles(shop.context(), "rowan", {Role::owner, Role::technician}, "takes over"));
  shop.done(retire_person(shop.context(), "ash", "leaves"));
  CHECK_FALSE(shop.document("person", "ash").at("active").get<bool>());
  CHECK(Shop::refused(retire_person(shop.context(), "rowan", "too")).code ==
        ErrorCode::not_found);  // ash is gone
}

TEST_CASE("somebody who comes back keeps the credentials of before", "[crew]") {
  Shop shop = Shop::open();
  shop.done(add_credential(shop.context(), fit_test("2026-01-10")));
  shop.done(retire_person(shop.context(), "rowan", "season is over"));
  CHECK(Shop::refused(add_credential(shop.context(), fit_test("2026-01-11"))).code == ErrorCode::wrong_state);
  shop.done(enrol(shop, "rowan", {Role::technician}));
  CHECK(shop.document("person", "rowan").at("credentials").size() == 1);
}

// 29 CFR 1910.134(f)(2): fit tested before first use, whenever another facepiece is used, and at least
// annually.
TEST_CASE("a fit test is good for one year at most", "[crew]") {
  Shop shop = Shop::open();
  CHECK(Shop::refused(add_credential(shop.context(), fit_test("2026-01-10", "2027-01-11"))).code ==
        ErrorCode::out_of_range);
  shop.done(add_credential(shop.context(), fit_test("2026-01-10", "2027-01-10")));
  shop.done(add_credential(shop.context(), fit_test("2024-02-29")));
  const auto held = shop.document("person", "rowan").at("credentials");
  CHECK(held[0].at("expires") == "2027-01-10");
  CHECK(held[1].at("expires") == "2025-02-28");
  CHECK(held[0].at("facepiece") == "full-facepiece");
}

TEST_CASE("a fit test names its facepiece", "[crew]") {
  Shop shop = Shop::open();
  Credential c = fit_test("2026-01-10");
  c.facepiece_size.clear();
  CHECK(Shop::refused(add_credential(shop.context(), c)).code == ErrorCode::missing_value);
}

TEST_CASE("dates of a credential are dates, in their order, and not in the future", "[crew]") {
  Shop shop = Shop::open();
  const auto refused = [&](const std::string& issued, const std::string& expires) {
    Credential c = fit_test(issued, expires);
    c.what = CredentialKind::medical_clearance;
    return Shop::refused(add_credential(shop.context(), c)).code;
  };
  CHECK(refused("2026-02-30", "2026-12-01") == ErrorCode::not_understood);
  CHECK(refused("2026-01-10", "soon") == ErrorCode::not_understood);
  CHECK(refused("2026-01-10", "") == ErrorCode::missing_value);
  CHECK(refused("2026-01-10", "2026-01-09") == ErrorCode::out_of_range);
  CHECK(refused("2026-03-04", "2026-12-01") == ErrorCode::out_of_range);
}

TEST_CASE("a credential is withdrawn by the id of its entry, once", "[crew]") {
  Shop shop = Shop::open();
  shop.done(add_credential(shop.context(), fit_test("2026-01-10")));
  const std::string id = uuid_text(shop.entries().back().id);
  shop.done(withdraw_credential(shop.context(), id, "lost weight"));
  CHECK(shop.document("person", "rowan").at("credentials")[0].at("withdrawn") == "lost weight");
  CHECK(Shop::refused(withdraw_credential(shop.context(), id, "again")).code == ErrorCode::wrong_state);
  CHECK(Shop::refused(withdraw_credential(shop.context(), "no-id", "why")).code == ErrorCode::not_found);
}

TEST_CASE("an entry about nobody is raised and changes nothing", "[crew]") {
  Shop shop = Shop::open();
  shop.write("person-retired", {{"handle", "willow"}, {"why", "left"}});
  CHECK(shop.departures() == std::vector<std::string>{"unknown-name"});
  CHECK_FALSE(shop.book().get("person", "willow"));
}
