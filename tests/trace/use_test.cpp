// SPDX-License-Identifier: Apache-2.0
#include "season.hpp"

using namespace trace_test;

namespace {

PastJob used(const std::string& id, std::int64_t ul, const std::string& product = "fenmist-rtu") {
  PastJob job;
  job.id = id;
  job.product = product;
  job.used_ul = ul;
  return job;
}

}  // namespace

TEST_CASE("use is told by month and product, with the registration number", "[ask]") {
  Season season;
  season.fog(used("J1", 400'000));
  season.sleep();
  season.fog(used("J2", 300'000));
  season.fog(used("J3", 500'000, "palelight-hp"));
  season.shop.wait(30 * day_ms);
  season.fog(used("J4", 200'000));
  const auto answer = ask_use(season.asked(), {}, {});
  REQUIRE(answer.has_value());
  CHECK(column(*answer, "month") == std::vector<json>{"2026-03", "2026-03", "2026-04"});
  CHECK(column(*answer, "product") == std::vector<json>{"fenmist-rtu", "palelight-hp", "fenmist-rtu"});
  CHECK(column(*answer, "volume_ul") == std::vector<json>{700'000, 500'000, 200'000});
  CHECK(column(*answer, "jobs") == std::vector<json>{2, 1, 1});
  CHECK(answer->rows[0].data.at("registration") == "DEMO-1");
  CHECK(says(answer->sentence, "in 4 jobs, from 2026-03 to 2026-04."));
}

TEST_CASE("both bounds count in, as months or days", "[ask]") {
  Season season;
  season.fog(used("J1", 100'000));
  season.sleep();
  season.fog(used("J2", 10'000));
  season.shop.wait(30 * day_ms);
  season.fog(used("J3", 1'000));
  const auto total = [&](const char* from, const char* to) {
    std::int64_t ul = 0;
    for (const json& one : column(*ask_use(season.asked(), from, to), "volume_ul"))
      ul += one.get<std::int64_t>();
    return ul;
  };
  CHECK(total("", "") == 111'000);
  CHECK(total("2026-03", "2026-03") == 110'000);
  CHECK(total("2026-03-03", "") == 11'000);
  CHECK(total("2026-03-02", "2026-03-02") == 100'000);
  CHECK(total("2026-05", "") == 0);
  CHECK(ask_use(season.asked(), "2026-05", "")->sentence == "Nothing was fogged in that time.");
  for (const char* bad : {"2026", "2026-13", "March"})
    CHECK(ask_use(season.asked(), bad, {}).error().code == ErrorCode::not_understood);
}

TEST_CASE("a month is that of the job's place", "[ask]") {
  Season season;
  season.shop.wait(30 * day_ms - 14 * hour_ms + 3 * hour_ms);  // 1 April, 03:00 UTC: still March in Chicago
  season.fog(used("J1", 1));
  CHECK(column(*ask_use(season.asked(), {}, {}), "month") == std::vector<json>{"2026-03"});
}

TEST_CASE("the mass of an active is volume, density and strength of the label", "[ask]") {
  Season season;
  season.fog(used("J1", litre, "palelight-hp"));
  auto label = read_label(profile("palelight-hp"), "palelight-hp");
  REQUIRE(label.has_value());
  double mg = 0;
  for (const Active& active : label->actives)
    mg += 1e6 * label->density.value_in(unit::gram_per_millilitre) * active.mass_fraction.value_or(0);
  const json row = ask_use(season.asked(), {}, {})->rows.front().data;
  CHECK(row.at("actives_mg").get<double>() == Approx(mg).margin(1));
  CHECK(row.at("actives_mg").get<double>() > 1e4);
}

TEST_CASE("a job whose volume nobody knows is counted and told", "[ask]") {
  Season season;
  PastJob job = used("J1", 0);
  season.plan(job);
  season.shop.write("fog-started", {{"job", "J1"}});
  const auto answer = ask_use(season.asked(), {}, {});
  CHECK(answer->rows[0].data.at("jobs_without_volume") == 1);
  CHECK(says(answer->rows[0].words, ": 1 job, volume not known"));
  CHECK_FALSE(says(answer->rows[0].words, "strength"));
  CHECK(answer->rows[0].data.at("actives_mg").is_null());
  CHECK(says(answer->sentence, "in 1 job, in 2026-03; volume not known."));
  season.fog(used("J2", 400'000));
  const auto more = ask_use(season.asked(), {}, {});
  CHECK(says(more->rows[0].words, "in 2 jobs, "));
  CHECK(says(more->rows[0].words, "; without 1 job whose volume is not known"));
  CHECK(says(more->sentence, "in 2 jobs, in 2026-03; without 1 job whose volume is not known."));
}

TEST_CASE("a mass that is small has figures all the same", "[ask]") {
  Season season;
  season.fog(used("J1", 519'000));  // 0.2 % of it
  const auto row = ask_use(season.asked(), {}, {})->rows.front();
  CHECK(row.data.at("actives_mg") == 1'038);
  CHECK(says(row.words, " 0.0366 oz of "));
}
