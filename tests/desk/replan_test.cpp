// SPDX-License-Identifier: Apache-2.0
#include "fogwright/desk/replan.hpp"

#include "fogwright/desk/job.hpp"
#include "job_world.hpp"

using namespace desk_test;
using nlohmann::json;

namespace {

void catch_tested(Shop& shop, double millilitres) {
  const CatchTest run{LiquidVolume(millilitres, unit::millilitre), FogTime(60, unit::second)};
  shop.done(record_catch_test(shop.context(), "f1", {run, run, run}));
}

json typed() {
  return {{"members", {{"system", {{{"area", "2400"}, {"returns", 3}}}}, {"site", {{"entrances", 2}}}}},
          {"bare_numbers", true}};
}

/// Plans J1 with the adopted label of a product from what was typed, as a command does.
json plan_body(const Shop& shop, json recorded, const std::string& product) {
  recorded["fogger"] = fogger_facts(shop.book(), "f1");
  auto request = read_recorded_request(recorded);
  REQUIRE(request.has_value());
  auto label = read_label(profile(product), product);
  REQUIRE(label.has_value());
  request->label = std::make_shared<const Label>(std::move(*label));
  NewJob job;
  job.zone = "America/Chicago";
  job.product = product;
  job.label_digest = shop.document("product", product).at("current");
  job.technician = "rowan";
  job.request = recorded;
  const auto drafts = plan_job(shop.context(), job, make_plan(*request).value());
  REQUIRE(drafts.has_value());
  return drafts->front().body;
}

Shop shop_with_fogger() {
  Shop shop = Shop::open();
  shop.done(add_fogger(shop.context(), {"f1", LiquidVolume(4, unit::litre), std::nullopt, {}}));
  catch_tested(shop, 180);
  return shop;
}

/// Lets out ten times what J1 was planned with; returns how much, in microlitres.
std::int64_t fog_tenfold(Shop& shop) {
  const json system = shop.document("job", "J1").at("plan").at("systems").at(0);
  const auto seconds = system.at("target_s").get<std::int64_t>();
  const std::int64_t used = 180'000 * 10 * seconds / 60;
  shop.write("fog-started", {{"job", "J1"}});
  shop.write("return-fogged", {{"job", "J1"},
                               {"system", system.at("name")},
                               {"return", system.at("returns").at(0).at("name")},
                               {"actual_ms", 10'000 * seconds}});
  shop.write("fog-ended", {{"job", "J1"}, {"used_ul", used}, {"measured", "by-time"}});
  return used;
}

Error refusal(const Shop& shop) {
  const auto made = replan(shop.book(), "J1");
  REQUIRE_FALSE(made.has_value());
  return made.error().front();
}

}  // namespace

TEST_CASE("a job planned again is the plan that the book recorded, with its air") {
  for (const std::string product : {"fenmist-rtu", "brackwater-20", "palelight-hp"}) {
    Shop shop = shop_with_fogger();
    shop.write("job-planned", plan_body(shop, typed(), product));
    const auto made = replan(shop.book(), "J1");
    REQUIRE(made.has_value());
    CHECK(plan_snapshot(made->plan) == shop.document("job", "J1").at("plan"));
    CHECK(made->differences.empty());
    CHECK(made->hold_minutes == made->plan.hold.total_minutes);
    CHECK(made->plan.air.actives.empty() == (product == "fenmist-rtu"));  // its active stays in the mist
  }
}

TEST_CASE("a job is planned again with the label and the catch test of its time") {
  Shop shop = shop_with_fogger();
  shop.write("job-planned", plan_body(shop, typed(), "fenmist-rtu"));
  catch_tested(shop, 240);
  std::string newer = profile("fenmist-rtu");
  newer += "# printed anew\n";
  shop.done(adopt_label(shop.context(), {"fenmist-rtu", newer, "newer.toml", std::string(64, 'b')}));
  const auto made = replan(shop.book(), "J1");
  REQUIRE(made.has_value());
  CHECK(made->differences.empty());
  CHECK(plan_snapshot(made->plan).at("flow_ul_min") == 180'000);
}

TEST_CASE("limits of one's own that a job was planned with are in the book") {
  Shop shop = shop_with_fogger();
  json recorded = typed();
  recorded["limits"] = {R"([[limit]]
cas = "10049-04-4"
kind = "short-term"
ppm = 0.01
source = "our safety officer"
date = "2026-01-31"
)"};
  shop.write("job-planned", plan_body(shop, recorded, "brackwater-20"));
  const auto made = replan(shop.book(), "J1");
  REQUIRE(made.has_value());
  CHECK(made->request.entered_limits->size() == 1);
  CHECK(made->differences.empty());
}

TEST_CASE("where a plan comes out otherwise the record stands, and of two holds the longer") {
  const std::int64_t recorded = GENERATE(1, 9'999);
  Shop shop = shop_with_fogger();
  json body = plan_body(shop, typed(), "fenmist-rtu");
  const std::int64_t planned = body.at("plan").at("hold_minutes").at("total");
  body["plan"]["hold_minutes"]["total"] = recorded;
  body["plan"]["systems"][0]["returns"][1]["seconds"] = 7;
  shop.write("job-planned", body);
  const auto made = replan(shop.book(), "J1");
  REQUIRE(made.has_value());
  CHECK(made->recorded_hold_minutes == recorded);
  CHECK(made->hold_minutes == std::max(recorded, planned));
  REQUIRE(made->differences.size() == 2);
  CHECK_THAT(made->differences[0], Catch::StartsWith("hold: " + std::to_string(recorded) + " min recorded, " +
                                                     std::to_string(planned) + " min planned again"));
  CHECK(made->differences[1] ==
        "system 1, return 2: 7 s recorded, 42 s planned again; what was recorded stands");
}

TEST_CASE("what a job cannot be planned again without is named") {
  Shop shop = shop_with_fogger();
  CHECK(refusal(shop).code == ErrorCode::not_found);
  json body = plan_body(shop, typed(), "fenmist-rtu");
  SECTION("the text of its label") {
    body["label_digest"] = std::string(64, 'a');
    shop.write("job-planned", body);
    CHECK_THAT(refusal(shop).message, Catch::Contains("text of the label") && Catch::Contains("aaaa"));
  }
  SECTION("what was typed") {
    body["request"] = json::object();
    shop.write("job-planned", body);
    CHECK_THAT(refusal(shop).message, Catch::Contains("does not hold what job J1 was planned from"));
  }
}

TEST_CASE("more fog than planned gives the hold that a plan of that volume has") {
  for (const std::string product : {"brackwater-20", "fenmist-rtu"}) {
    Shop shop = shop_with_fogger();
    shop.write("job-planned", plan_body(shop, typed(), product));
    const json planned = shop.document("job", "J1").at("plan");
    const std::int64_t used = fog_tenfold(shop);
    const json hold = shop.document("job", "J1").at("plan").at("hold_minutes");
    // The same site, out of a fogger whose flow lets the high end of the band be just what was used.
    Shop other = shop_with_fogger();
    const double most = planned.at("volume_ul").at("high").get<double>();
    catch_tested(other, 180.0 * static_cast<double>(used) / most);
    other.write("job-planned", plan_body(other, typed(), product));
    const json expected = other.document("job", "J1").at("plan").at("hold_minutes");
    CHECK(hold.at("total").get<double>() == Approx(expected.at("total").get<double>()).margin(1));
    CHECK(hold.at("floor").get<double>() == Approx(expected.at("floor").get<double>()).margin(1));
    CHECK(hold.at("readings_needed") == expected.at("readings_needed"));
    CHECK(hold.at("total") > planned.at("hold_minutes").at("total"));
    CHECK(shop.departures().back() == "over-fogged");
  }
}

TEST_CASE("more fog counts on airing out only where somebody was told to air out") {
  const auto hold_after = [](const json& recorded, bool told) {
    Shop shop = shop_with_fogger();
    json body = plan_body(shop, recorded, "brackwater-20");
    if (!told)
      std::erase_if(body["plan"]["requirements"].get_ref<json::array_t&>(),
                    [](const json& one) { return one.at("id") == "aired-out-as-planned"; });
    shop.write("job-planned", body);
    (void)fog_tenfold(shop);
    return shop.document("job", "J1").at("plan").at("hold_minutes").at("total").get<std::int64_t>();
  };
  json aired = typed();
  aired["members"]["building"] = {{"purge_air_changes", "5"}};
  CHECK(hold_after(aired, true) < hold_after(aired, false));
  CHECK(hold_after(aired, false) == hold_after(typed(), true));
}
