// SPDX-License-Identifier: Apache-2.0
#include "rule_pairs.hpp"

using namespace desk_test;
using nlohmann::json;

namespace audit_test {
namespace {

Book found_in_record(bool anything) {
  Book book(Shop::open());
  book.record.done = true;
  if (anything) book.record.findings = {{3, "entry 3 is not what the tree says"}};
  return book;
}

Book wrote(const std::string& kind) {
  Shop shop = Shop::open();
  shop.write(kind, {{"about", "shop"}, {"text", "fair wind"}});
  return shop;
}

/// After every sort of movement; then somebody changes what is left by so much.
Book moved_and_off_by(std::int64_t ul) {
  Shop shop = Shop::open();
  shop.receive("c", "fenmist-rtu", litre, "2027-01-31");
  shop.draw("c", 300'000, "J1");
  shop.done(return_to(shop.context(), "c", 100'000, "J1"));
  shop.done(record_spill(shop.context(), "c", 1'000, "wiped up"));
  shop.done(count_vessel(shop.context(), "c", 790'000));
  shop.done(move_vessel(shop.context(), "c", "shop"));
  shop.draw("c", litre);  // more than there is
  Book book(shop);
  json container = shop.document("container", "c");
  container["remaining_ul"] = container["remaining_ul"].get<std::int64_t>() + ul;
  book.documents.put("container", "c", container, true);
  return book;
}

Book kept_for(std::int64_t ms) {
  Shop shop = Shop::open();
  shop.receive("c", "fenmist-rtu", litre, "2026-03-03");
  shop.wait(ms);
  return shop;
}

Book not_read_for(std::int64_t ms) {
  Shop shop = Shop::open();
  shop.receive("A", "brackwater-20", litre, "2026-12-31", "heron", {}, "Part A concentrate");
  shop.done(read_storage(shop.context(), "heron", Temperature::fahrenheit(60), "60 F"));
  shop.wait(ms);
  return shop;
}

/// Twenty jobs of one technician, off by 1 % to either side in turn, and one by so much.
Book used_off_by(std::int64_t percent) {
  Book book(Shop::open());
  for (int i = 0; i <= 20; ++i) {
    const std::int64_t off = i == 20 ? percent : i % 2 == 0 ? 1 : -1;
    book.documents.put("job-use", std::to_string(100 + i),
                       {{"seq", 100 + i},
                        {"at_ms", start_ms + i * day_ms},
                        {"job", "J" + std::to_string(i)},
                        {"technician", "rowan"},
                        {"product", "fenmist-rtu"},
                        {"planned_ul", 400'000},
                        {"used_ul", 400'000 + off * 4'000}},
                       true);
  }
  return book;
}

/// Twenty counts that are off by a thousandth of the vessel to either side in turn, and one by so much.
Book counted_off_by(std::int64_t ul) {
  Shop shop = Shop::open();
  shop.receive("c", "fenmist-rtu", litre, "2027-01-31");
  std::int64_t is = 500'000;
  shop.draw("c", litre - is);
  for (int i = 0; i <= 20; ++i) {
    is += i == 20 ? ul : i % 2 == 0 ? 1'000 : -1'000;
    shop.done(count_vessel(shop.context(), "c", is));
  }
  return shop;
}

Book left_in_hold(std::int64_t ms) {
  JobWorld world = holding();
  world.wait(ms);
  return world;
}

Book left_released(std::int64_t ms) {
  JobWorld world = holding();
  release(world);
  world.wait(ms);
  return world;
}

Book left_planned(std::int64_t ms) {
  JobWorld world("fenmist-rtu");
  world.wait(ms);
  return world;
}

/// A job's customer is erased: of one that was fogged, or of one that was given up before.
Book erased_after(bool fog) {
  JobWorld world = fog ? holding() : JobWorld("fenmist-rtu");
  if (!fog) world.shop.done(stop_job(world.context(), "J1", "called off"));
  world.shop.write("private-erased", {{"of", "job"}, {"key", "J1"}, {"hash", ""}, {"why", "asked for"}});
  return world;
}

}  // namespace

std::vector<RulePair> book_pairs() {
  return {
      {"record-changed", [] { return found_in_record(true); }, [] { return found_in_record(false); }},
      {"unknown-kind", [] { return wrote("balloon-flown"); }, [] { return wrote("note"); }},
      {"erased-too-early", [] { return erased_after(true); }, [] { return erased_after(false); }},
      {"stock-does-not-add-up", [] { return moved_and_off_by(1); }, [] { return moved_and_off_by(0); }},
      {"expired-on-hand", [] { return kept_for(34 * hour_ms); }, [] { return kept_for(34 * hour_ms - 1); }},
      {"storage-not-read", [] { return not_read_for(31 * day_ms + 1); },
       [] { return not_read_for(31 * day_ms); }},
      // Mean moving range of twenty steps of 2 % and one of 1 + x: limits of 0.2 ± 3 (39 + x) / 20 / 1.128.
      {"use-beyond-limits", [] { return used_off_by(8); }, [] { return used_off_by(5); }},
      {"count-beyond-limits", [] { return counted_off_by(-20'000); }, [] { return counted_off_by(-4'000); }},
      {"release-left-open", [] { return left_in_hold(day_ms + 1); }, [] { return left_in_hold(day_ms); }},
      {"job-left-open", [] { return left_released(2 * day_ms + 1); }, [] { return left_released(2 * day_ms); }},
      {"plan-left-open", [] { return left_planned(30 * day_ms + 1); },
       [] { return left_planned(30 * day_ms); }},
  };
}

}  // namespace audit_test
