// SPDX-License-Identifier: Apache-2.0
#include "shop.hpp"

using namespace desk_test;

namespace {

/// Three runs of a minute that catch so many millilitres each.
std::vector<CatchTest> caught(double ml) {
  return std::vector<CatchTest>(3, {LiquidVolume(ml, unit::millilitre), FogTime(60, unit::second)});
}

Shop with_fogger() {
  Shop shop = Shop::open();
  shop.done(add_fogger(shop.context(), {"gust", LiquidVolume(3, unit::litre), {}, {}}));
  return shop;
}

NewCartridge yellow() {
  return {"y1", "OV/AG-60", {"organic vapor/acid gas", "P100"}, 480, "maker's programme of 2026-01"};
}

/// The profile with a comment more: another text of the same label.
LabelAdoption changed_label(const std::string& digest_of_a) {
  return {"fenmist-rtu", profile("fenmist-rtu") + "# second printing\n", "fenmist", digest_of_a};
}

}  // namespace

TEST_CASE("the last catch test is the current one, in whole microlitres a minute", "[equipment]") {
  Shop shop = with_fogger();
  shop.done(record_catch_test(shop.context(), "gust", caught(180)));
  const auto test = shop.document("fogger", "gust").at("tests").back();
  CHECK(test.at("flow_ul_min") == 180'000);
  CHECK(test.at("runs") == 3);
  CHECK(test.at("on") == "2026-03-02");
  CHECK_FALSE(test.contains("drift_ppm"));
}

TEST_CASE("a drift of more than a tenth between two tests is raised", "[equipment]") {
  Shop shop = with_fogger();
  shop.done(record_catch_test(shop.context(), "gust", caught(200)));
  shop.done(record_catch_test(shop.context(), "gust", caught(180)));  // exactly a tenth
  CHECK(shop.departures().empty());
  shop.done(record_catch_test(shop.context(), "gust", caught(160)));
  CHECK(shop.departures() == std::vector<std::string>{"fogger-drift"});
  CHECK(shop.document("fogger", "gust").at("tests").back().at("drift_ppm") == -111'111);
}

TEST_CASE("a catch test needs runs, a fogger in use and a day that has come", "[equipment]") {
  Shop shop = with_fogger();
  CHECK(Shop::refused(record_catch_test(shop.context(), "gust", {})).code == ErrorCode::missing_value);
  CHECK(Shop::refused(record_catch_test(shop.context(), "gale", caught(1))).code == ErrorCode::not_found);
  CHECK(Shop::refused(record_catch_test(shop.context(), "gust", caught(180), "2026-03-09")).code ==
        ErrorCode::out_of_range);
  shop.done(retire_fogger(shop.context(), "gust", "pump is worn"));
  CHECK(Shop::refused(record_catch_test(shop.context(), "gust", caught(180))).code == ErrorCode::wrong_state);
}

TEST_CASE("a fogger is added once", "[equipment]") {
  Shop shop = with_fogger();
  CHECK(shop.document("fogger", "gust").at("tank_ul") == 3 * litre);
  CHECK(Shop::refused(add_fogger(shop.context(), {"gust", {}, {}, {}})).code == ErrorCode::already_exists);
}

TEST_CASE("the safety officer registers cartridges, with the maker's schedule and its source", "[equipment]") {
  Shop shop = Shop::open();
  NewCartridge no_basis = yellow();
  no_basis.basis.clear();
  CHECK(Shop::refused(register_cartridge(shop.context(), no_basis)).code == ErrorCode::missing_value);
  NewCartridge no_words = yellow();
  no_words.words.clear();
  CHECK(Shop::refused(register_cartridge(shop.context(), no_words)).code == ErrorCode::missing_value);
  NewCartridge no_time = yellow();
  no_time.schedule_minutes = 0;
  CHECK(Shop::refused(register_cartridge(shop.context(), no_time)).code == ErrorCode::out_of_range);
  shop.by("rowan");
  CHECK(Shop::refused(register_cartridge(shop.context(), yellow())).code == ErrorCode::not_permitted);
}

TEST_CASE("hours on a cartridge add up, and beyond its schedule they are raised", "[equipment]") {
  Shop shop = Shop::open();
  shop.done(register_cartridge(shop.context(), yellow()));
  shop.done(use_cartridge(shop.context(), "y1", 300, "J1", "rowan"));
  shop.done(use_cartridge(shop.context(), "y1", 180, "J2", "rowan"));
  CHECK(shop.document("cartridge", "y1").at("used_minutes") == 480);
  CHECK(shop.departures().empty());
  shop.done(use_cartridge(shop.context(), "y1", 1, "J3", "rowan"));
  CHECK(shop.departures() == std::vector<std::string>{"cartridge-overrun"});
}

TEST_CASE("wearing a retired cartridge is recorded and raised", "[equipment]") {
  Shop shop = Shop::open();
  shop.done(register_cartridge(shop.context(), yellow()));
  shop.done(retire_cartridge(shop.context(), "y1", "smelled product"));
  shop.done(use_cartridge(shop.context(), "y1", 10, {}, "rowan"));
  CHECK(shop.departures() == std::vector<std::string>{"retired-cartridge-used"});
  CHECK(Shop::refused(retire_cartridge(shop.context(), "y1", "again")).code == ErrorCode::wrong_state);
}

TEST_CASE("a label replaces the one before it; both texts stay", "[equipment]") {
  Shop shop = Shop::open();
  const std::string before = shop.document("product", "fenmist-rtu").at("current");
  const std::string after(64, 'a');
  shop.done(adopt_label(shop.context(), changed_label(after)));
  const auto product = shop.document("product", "fenmist-rtu");
  CHECK(product.at("current") == after);
  CHECK(product.at("versions").size() == 2);
  CHECK(shop.document("label", before).at("text") == profile("fenmist-rtu"));
  CHECK(shop.entries().back().body.at("replaces") == before);
}

TEST_CASE("when the current label is retired the one before it holds again", "[equipment]") {
  Shop shop = Shop::open();
  const std::string before = shop.document("product", "fenmist-rtu").at("current");
  shop.done(adopt_label(shop.context(), changed_label(std::string(64, 'a'))));
  shop.done(retire_label(shop.context(), "fenmist-rtu", {}, "printed wrong"));
  CHECK(shop.document("product", "fenmist-rtu").at("current") == before);
  shop.done(retire_label(shop.context(), "fenmist-rtu", {}, "product is withdrawn"));
  CHECK(shop.document("product", "fenmist-rtu").at("current") == "");
  CHECK(Shop::refused(retire_label(shop.context(), "fenmist-rtu", {}, "again")).code == ErrorCode::not_found);
}

TEST_CASE("a label with a fault, too long or adopted before is refused", "[equipment]") {
  Shop shop = Shop::open();
  const std::string digest(64, 'b');
  CHECK(Shop::refused(adopt_label(shop.context(), {"x", "format = 1\nname = 7\n", "x.toml", digest})).code ==
        ErrorCode::bad_label);
  const std::string padding(largest_label_text, '#');
  CHECK(Shop::refused(adopt_label(shop.context(), {"x", profile("fenmist-rtu") + padding, "x", digest})).code ==
        ErrorCode::out_of_range);
  const std::string current = shop.document("product", "fenmist-rtu").at("current");
  CHECK(
      Shop::refused(adopt_label(shop.context(), {"fenmist-rtu", profile("fenmist-rtu"), "x", current})).code ==
      ErrorCode::already_exists);
  CHECK(Shop::refused(adopt_label(shop.context(), {"other", profile("fenmist-rtu"), "x", current})).code ==
        ErrorCode::already_exists);
}

TEST_CASE("a label at the size limit fits the record with all its escapes", "[equipment]") {
  Shop shop = Shop::open();
  std::string text = profile("fenmist-rtu");
  // A line break takes two bytes in JSON; this is the usual mix of lines.
  while (text.size() + 40 < largest_label_text) text += "# a note of forty bytes or nearly so ..\n";
  shop.done(adopt_label(shop.context(), {"fenmist-rtu", text, "x", std::string(64, 'c')}));
}

TEST_CASE("the label's facts of stock are kept beside its text", "[equipment]") {
  Shop shop = Shop::open();
  const std::string digest = shop.document("product", "brackwater-20").at("current");
  const auto facts = shop.document("label-facts", digest);
  CHECK(facts.at("strength") == "high-strength-oxidiser");
  CHECK(facts.at("mixed_ms") == 24 * hour_ms);
  CHECK(facts.at("opened_ms") == 90 * day_ms);
  CHECK(facts.at("low_mk") == 277'595);   // 40 F is 277.594 K; inwards
  CHECK(facts.at("high_mk") == 298'150);  // 77 F is 25 C
  CHECK(facts.at("hazard_class") == "8");
  CHECK(facts.at("mixing_respirator") == true);
  CHECK(facts.at("ingredients").size() == 2);
  CHECK(facts.at("ingredients")[0].at("density_ug_ml") == 1'170'000);
}

TEST_CASE("the key of a product comes from the name on its label", "[equipment]") {
  CHECK(product_key("Fenmist RTU") == "fenmist-rtu");
  CHECK(product_key("  Brackwater (20 %) ") == "brackwater-20");
}
