// SPDX-License-Identifier: Apache-2.0
#include "rule_pairs.hpp"

using namespace desk_test;

namespace audit_test {
namespace {

Shop with_one(const std::string& expires = "2027-01-31") {
  Shop shop = Shop::open();
  shop.receive("c", "fenmist-rtu", litre, expires);
  return shop;
}

Book received_again(const std::string& id) {
  Shop shop = with_one();
  nlohmann::json body = shop.entries().back().body;
  body["container"] = id;
  shop.write("container-received", body);
  return shop;
}

Book drew(std::int64_t ul) {
  Shop shop = with_one();
  shop.draw("c", ul);
  return shop;
}

Book drew_of_two(const std::string& from) {
  Shop shop = with_one("2026-12-31");
  shop.receive("late", "fenmist-rtu", litre, "2027-01-31");
  shop.draw(from, 1'000, {}, "it stood in front");
  return shop;
}

/// The last day of c ends 34 hours after the shop opens.
Book drew_after(std::int64_t ms) {
  Shop shop = with_one("2026-03-03");
  shop.wait(ms);
  shop.draw("c", 1'000);
  return shop;
}

Book drew_after_disposal(std::optional<std::int64_t> disposed_ul) {
  Shop shop = with_one();
  shop.done(dispose(shop.context(), "c", disposed_ul, "as its label says"));
  shop.draw("c", 1);
  return shop;
}

Book drew_after_retiring(const std::string& product) {
  Shop shop = with_one();
  shop.done(retire_label(shop.context(), product, {}, "withdrawn"));
  shop.draw("c", 1);
  return shop;
}

Book received_by_label(bool known) {
  Shop shop = with_one();
  nlohmann::json body = shop.entries().back().body;
  body["container"] = "d";
  if (!known) body["label_digest"] = "0";
  shop.write("container-received", body);
  return shop;
}

MixRequest one_litre_mix(std::optional<std::int64_t> a = {}) {
  MixRequest request;
  request.batch = "mix";
  request.product = "brackwater-20";
  request.made_ul = litre;
  request.parts = {{"A", a}, {"B", {}}};
  request.place = "heron";
  request.respirator_worn = true;
  return request;
}

Shop mixed(const MixRequest& request) {
  Shop shop = Shop::open();
  shop.receive("A", "brackwater-20", litre, "2026-12-31", "heron", {}, "Part A concentrate");
  shop.receive("B", "brackwater-20", litre, "2026-12-31", "heron", {}, "Part B activator (citric acid)");
  shop.by("rowan");
  shop.done(mix_batch(shop.context(), request));
  return shop;
}

Book mixed_in(bool respirator) {
  MixRequest request = one_litre_mix();
  request.respirator_worn = respirator;
  return mixed(request);
}

/// The label's table asks for 11.7 mL of part A in a litre.
Book mixed_with(std::int64_t a_ul) { return mixed(one_litre_mix(a_ul)); }

/// The mix may be used for 24 hours.
Book drew_mix_after(std::int64_t ms) {
  Shop shop = mixed(one_litre_mix());
  shop.wait(ms);
  shop.draw("mix", 1'000);
  return shop;
}

Book returned(std::int64_t ul) {
  Shop shop = with_one();
  shop.draw("c", 1'000);
  shop.write("returned", {{"to", "c"}, {"ul", ul}});
  return shop;
}

Book counted(std::int64_t found_ul) {
  Shop shop = with_one();
  shop.done(count_vessel(shop.context(), "c", found_ul));
  return shop;
}

/// The label of Fenmist RTU allows up to 77 °F at least; that of Brackwater 20 no more.
Book read_at(double fahrenheit) {
  Shop shop = Shop::open();
  shop.receive("A", "brackwater-20", litre, "2026-12-31", "heron", {}, "Part A concentrate");
  shop.done(read_storage(shop.context(), "heron", Temperature::fahrenheit(fahrenheit), "as typed"));
  return shop;
}

}  // namespace

std::vector<RulePair> stock_pairs() {
  return {
      {"name-taken", [] { return received_again("c"); }, [] { return received_again("d"); }},
      {"over-draw", [] { return drew(litre + 1); }, [] { return drew(litre); }},
      {"out-of-turn", [] { return drew_of_two("late"); }, [] { return drew_of_two("c"); }},
      {"expired-used", [] { return drew_after(34 * hour_ms); }, [] { return drew_after(34 * hour_ms - 1); }},
      {"batch-over-age", [] { return drew_mix_after(24 * hour_ms); },
       [] { return drew_mix_after(24 * hour_ms - 1); }},
      {"disposed-used", [] { return drew_after_disposal({}); }, [] { return drew_after_disposal(litre - 1); }},
      {"retired-label", [] { return drew_after_retiring("fenmist-rtu"); },
       [] { return drew_after_retiring("palelight-hp"); }},
      {"unknown-label", [] { return received_by_label(false); }, [] { return received_by_label(true); }},
      {"mixed-without-respirator", [] { return mixed_in(false); }, [] { return mixed_in(true); }},
      {"mixed-off-label", [] { return mixed_with(12'100); }, [] { return mixed_with(11'900); }},
      {"over-full", [] { return returned(1'001); }, [] { return returned(1'000); }},
      {"count-variance", [] { return counted(949'999); }, [] { return counted(950'000); }},
      {"storage-range", [] { return read_at(77.1); }, [] { return read_at(77); }},
  };
}

}  // namespace audit_test
