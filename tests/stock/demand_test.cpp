// SPDX-License-Identifier: Apache-2.0
#include <rapidcheck.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "dose/houses.hpp"
#include "fogwright/stock.hpp"
#include "table_file.hpp"

using namespace fogwright;
using namespace fogwright::testing;

namespace {

using Volumes = std::vector<std::int64_t>;

constexpr double many =
    1e9;  // the examples count in units; a unit is split so finely that rounding up is not seen

double thousandth(int from, int to) { return *rc::gen::inRange(from, to) / 1000.0; }

DailyDemand some_demand() { return {thousandth(0, 1'000'000), thousandth(0, 1'000'000), 30}; }
ReorderRule some_rule() { return {thousandth(0, 30'000), thousandth(0, 5'000), thousandth(0, 3'000)}; }

double mean_squared_error(const std::vector<double>& values, const std::vector<double>& smoothed) {
  double sum = 0;
  for (std::size_t i = 1; i < values.size(); ++i) sum += std::pow(values[i] - smoothed[i - 1], 2);
  return sum / static_cast<double>(values.size() - 1);
}

}  // namespace

TEST_CASE("reorder points of worked examples come out as printed", "[stock]") {
  const auto rows = table_rows("reorder_points.txt", 7);
  REQUIRE(rows.size() == 7);
  for (const Row& row : rows) {
    std::vector<double> in;
    for (const std::string& cell : row) in.push_back(std::stod(cell));
    INFO(row[0] << " a day, lead time " << row[2]);
    const std::int64_t point =
        reorder_point_ul({in[0] * many, in[1] * many, 30},
                         {.lead_time_days = in[2], .lead_time_deviation_days = in[3], .service_z = in[4]});
    CHECK(static_cast<double>(point) / many == Approx(in[5]).margin(in[6]).epsilon(0));
  }
}

TEST_CASE("a reorder point is rounded up, and is never negative", "[stock]") {
  CHECK(reorder_point_ul({10, 0, 30}, {.lead_time_days = 3}) == 30);
  CHECK(reorder_point_ul({10.01, 0, 30}, {.lead_time_days = 3}) == 31);
  CHECK(reorder_point_ul({0, 0, 30}, {}) == 0);
  CHECK(reorder_point_ul({1, 9, 30}, {.lead_time_days = 1, .service_z = -3}) == 0);
}

TEST_CASE("a reorder point that cannot be reckoned is the largest, not the smallest", "[stock]") {
  constexpr std::int64_t largest = std::numeric_limits<std::int64_t>::max();
  CHECK(reorder_point_ul({1e300, 0, 30}, {}) == largest);
  CHECK(reorder_point_ul({std::nan(""), 0, 30}, {}) == largest);
}

TEST_CASE("more demand or a longer lead time never lowers the reorder point", "[stock][property]") {
  CHECK(rc::check("reorder point", [] {
    const DailyDemand demand = some_demand();
    const ReorderRule rule = some_rule();
    const std::int64_t point = reorder_point_ul(demand, rule);
    const double more = thousandth(0, 10'000);
    auto busier = demand, wilder = demand;
    busier.mean_ul += more;
    wilder.deviation_ul += more;
    auto slower = rule, vaguer = rule, surer = rule;
    slower.lead_time_days += more;
    vaguer.lead_time_deviation_days += more;
    surer.service_z += more;
    RC_ASSERT(point >= std::ceil(demand.mean_ul * rule.lead_time_days));
    for (const DailyDemand& other : {busier, wilder}) RC_ASSERT(reorder_point_ul(other, rule) >= point);
    for (const ReorderRule& other : {slower, vaguer, surer})
      RC_ASSERT(reorder_point_ul(demand, other) >= point);
  }));
}

TEST_CASE("demand is the mean of all days and its sample deviation", "[stock]") {
  // Computed independently: 0 0 0 14 0 7 0: mean 3, squares 182, deviation sqrt(182/6).
  const auto demand = daily_demand(Volumes{0, 0, 0, 14, 0, 7, 0}).value();
  CHECK(demand.mean_ul == 3);
  CHECK(demand.deviation_ul == Approx(5.50757054728612).epsilon(1e-14));
  CHECK(demand.days == 7);
  CHECK(daily_demand(Volumes(30, 5)).value().deviation_ul == 0);
}

TEST_CASE("fewer than seven days tell no demand", "[stock]") {
  check_refused(daily_demand(Volumes(6, 5)), ErrorCode::missing_value,
                "The use of 6 days is too little to reckon demand from.", "days",
                "Give at least 7 days; a day without use counts as zero.");
}

TEST_CASE("cover and jobs left are whole and rounded down", "[stock]") {
  CHECK(days_of_cover(100, {10, 0, 30}) == 10);
  CHECK(days_of_cover(109, {10, 0, 30}) == 10);
  CHECK(days_of_cover(9, {10, 0, 30}) == 0);
  CHECK_FALSE(days_of_cover(9, {0, 0, 30}).has_value());
  CHECK_FALSE(days_of_cover(9, {std::nan(""), 0, 30}).has_value());
  CHECK(jobs_left(1000, 250) == 4);
  CHECK(jobs_left(999, 250) == 3);
  CHECK(jobs_left(0, 250) == 0);
  CHECK(jobs_left(-500, 250) == 0);
  CHECK(days_of_cover(-500, {10, 0, 30}) == 0);
  CHECK_FALSE(jobs_left(1000, 0).has_value());
}

TEST_CASE("more on hand never means fewer jobs or days", "[stock][property]") {
  CHECK(rc::check("cover", [] {
    const auto on_hand = *rc::gen::inRange<std::int64_t>(0, 1'000'000);
    const auto more = *rc::gen::inRange<std::int64_t>(0, 1'000'000);
    const auto per_job = *rc::gen::inRange<std::int64_t>(1, 100'000);
    const DailyDemand demand{thousandth(1, 1'000'000), 0, 30};
    RC_ASSERT(*jobs_left(on_hand + more, per_job) >= *jobs_left(on_hand, per_job));
    RC_ASSERT(*days_of_cover(on_hand + more, demand) >= *days_of_cover(on_hand, demand));
    RC_ASSERT(*jobs_left(on_hand, per_job) * per_job <= on_hand);
    RC_ASSERT((*jobs_left(on_hand, per_job) + 1) * per_job > on_hand);
  }));
}

TEST_CASE("single exponential smoothing is as in the NIST handbook", "[stock]") {
  const auto rows = table_rows("nist_smoothing.txt", 3);
  REQUIRE(rows.size() == 16);
  std::vector<double> values;
  for (const Row& row : rows) values.push_back(std::stod(row[0]));
  const auto smoothed = exponential_smoothing(values, 0.1).value();
  REQUIRE(smoothed.size() == values.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    INFO("value " << i + 1);
    CHECK(smoothed[i] == Approx(std::stod(rows[i][1])).epsilon(1e-13));
    if (rows[i][2] != "-") CHECK(smoothed[i] == Approx(std::stod(rows[i][2])).margin(0.005).epsilon(0));
  }

  values.resize(12);                                                                    // without the bootstrap
  CHECK(mean_squared_error(values, smoothed) == Approx(19.0).margin(0.05).epsilon(0));  // as printed
  // Computed independently.
  CHECK(mean_squared_error(values, exponential_smoothing(values, 0.5).value()) ==
        Approx(16.4965242039).epsilon(1e-11));
}

TEST_CASE("smoothing refuses a constant outside its range, and a single value", "[stock]") {
  const std::vector<double> two{1, 2};
  for (const double alpha : {0.0, -0.1, 1.0001, std::nan("")})
    check_refused(exponential_smoothing(two, alpha), ErrorCode::out_of_range,
                  "The smoothing constant is not above 0 and at most 1.", "alpha",
                  "Give a number above 0, up to 1.");
  CHECK(exponential_smoothing(two, 1).value() == two);
  check_refused(exponential_smoothing(std::vector<double>{1}, 0.5), ErrorCode::missing_value,
                "Smoothing needs at least two values.", "values", "Wait until there are two.");
}
