// SPDX-License-Identifier: Apache-2.0
#include "rule_pairs.hpp"

using namespace desk_test;

namespace audit_test {
namespace {

constexpr std::int64_t minute = 60'000;

NewEntry note(const Shop& shop) {
  return draft(shop.context(), "note", {{"about", "J1"}, {"text", "quiet street"}});
}

/// A note that happened so long before (minus: after) the book took it in.
Book noted_after(std::int64_t ms) {
  Shop shop = Shop::open();
  NewEntry entry = note(shop);
  entry.happened_ms -= ms;
  shop.done(Drafts{entry});
  return shop;
}

Book noted_with_clock_moved(std::int64_t ms) {
  Shop shop = Shop::open();
  shop.wait(ms);
  shop.done(Drafts{note(shop)});
  return shop;
}

Book corrected(bool corrects) {
  Shop shop = Shop::open();
  NewEntry entry = note(shop);
  if (corrects) {
    entry.corrects = shop.entries().front().id;
    entry.reason = "wrong name";
  }
  shop.done(Drafts{entry});
  return shop;
}

Book written(const std::string& kind, const nlohmann::json& body) {
  Shop shop = Shop::open();
  shop.receive("c", "fenmist-rtu", litre, "2027-01-31");
  shop.write(kind, body);
  return shop;
}

Book drifted(std::int64_t ppm) {
  Shop shop = Shop::open();
  shop.write("fogger-added", {{"fogger", "gust"}});
  shop.write("fogger-tested", {{"fogger", "gust"},
                               {"on", "2026-03-02"},
                               {"runs", nlohmann::json::array()},
                               {"flow_ul_min", 180'000},
                               {"low_ul_min", 175'000},
                               {"high_ul_min", 185'000},
                               {"spread_ppm", 1'000},
                               {"drift_ppm", ppm}});
  return shop;
}

Shop with_cartridge() {
  Shop shop = Shop::open();
  shop.done(register_cartridge(shop.context(), {"y1", "OV/AG-60", {"P100"}, 480, "the maker's table"}));
  return shop;
}

Book worn(std::int64_t minutes) {
  Shop shop = with_cartridge();
  shop.done(use_cartridge(shop.context(), "y1", minutes, "J1", "rowan"));
  return shop;
}

Book worn_and_retired(bool retired_first) {
  Shop shop = with_cartridge();
  const auto wear = [&] { shop.done(use_cartridge(shop.context(), "y1", 10, "J1", "rowan")); };
  if (!retired_first) wear();
  shop.done(retire_cartridge(shop.context(), "y1", "smelled product"));
  if (retired_first) wear();
  return shop;
}

Book adopted(const std::string& text) {
  Shop shop = Shop::open();
  shop.write("label-adopted", {{"product", "fenmist-rtu"},
                               {"name", "Fenmist RTU"},
                               {"registration", "DEMO-1"},
                               {"digest", "0"},
                               {"text", text},
                               {"label_date", "2026-01-01"}});
  return shop;
}

}  // namespace

std::vector<RulePair> entry_pairs() {
  return {
      {"late-entry", [] { return noted_after(60 * minute + 1); }, [] { return noted_after(60 * minute); }},
      {"clock-ahead", [] { return noted_after(-2 * minute - 1); }, [] { return noted_after(-2 * minute); }},
      {"clock-set-back", [] { return noted_with_clock_moved(-1); }, [] { return noted_with_clock_moved(0); }},
      {"correction", [] { return corrected(true); }, [] { return corrected(false); }},
      {"unreadable-body",
       [] {
         return written("drawn", {{"from", "c"}});
       },
       [] {
         return written("drawn", {{"from", "c"}, {"ul", 0}});
       }},
      {"unknown-name",
       [] {
         return written("drawn", {{"from", "d"}, {"ul", 1}});
       },
       [] {
         return written("drawn", {{"from", "c"}, {"ul", 1}});
       }},
      {"fogger-drift", [] { return drifted(-100'001); }, [] { return drifted(-100'000); }},
      {"cartridge-overrun", [] { return worn(481); }, [] { return worn(480); }},
      {"retired-cartridge-used", [] { return worn_and_retired(true); }, [] { return worn_and_retired(false); }},
      {"unreadable-label", [] { return adopted("name = "); }, [] { return adopted(profile("fenmist-rtu")); }},
  };
}

}  // namespace audit_test
