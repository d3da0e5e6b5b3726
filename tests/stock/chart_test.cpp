// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>

#include "dose/houses.hpp"
#include "fogwright/stock.hpp"
#include "table_file.hpp"

using namespace fogwright;
using namespace fogwright::testing;

namespace {

/// Mean 0, mean moving range 2, limits ±6/1.128 = ±5.319; computed independently.
std::vector<double> to_and_fro(std::size_t points) {
  std::vector<double> values(points);
  for (std::size_t i = 0; i < points; ++i) values[i] = i % 2 == 0 ? 1 : -1;
  return values;
}

}  // namespace

TEST_CASE("the individuals chart is as in the NIST handbook", "[stock]") {
  const auto rows = table_rows("nist_individuals.txt", 5);
  REQUIRE(rows.size() == 1);
  const auto chart = individuals_chart(numbers<double>(rows[0][0])).value();
  CHECK(chart.centre == Approx(std::stod(rows[0][1])).epsilon(1e-12));
  CHECK(chart.mean_moving_range == Approx(std::stod(rows[0][2])).margin(0.00005).epsilon(0));
  CHECK(chart.upper == Approx(std::stod(rows[0][3])).margin(0.00005).epsilon(0));
  CHECK(chart.lower == Approx(std::stod(rows[0][4])).margin(0.00005).epsilon(0));
  CHECK_FALSE(chart.enough_points);
}

TEST_CASE("points beyond either limit are told, a steady process has none", "[stock]") {
  auto values = to_and_fro(40);
  CHECK(individuals_chart(values).value().outside.empty());
  values[10] = 20;
  values[31] = -20;
  CHECK(individuals_chart(values).value().outside == std::vector<std::size_t>{10, 31});
}

TEST_CASE("fewer than twenty points are shown and not flagged", "[stock]") {
  auto values = to_and_fro(19);
  values[10] = 30;
  const auto few = individuals_chart(values).value();
  CHECK(values[10] > few.upper);
  CHECK_FALSE(few.enough_points);
  CHECK(few.outside.empty());
  values.push_back(-1);
  const auto enough = individuals_chart(values).value();
  CHECK(enough.enough_points);
  CHECK(enough.outside == std::vector<std::size_t>{10});
}

TEST_CASE("a point on the limit is inside", "[stock]") {
  const auto chart = individuals_chart(std::vector<double>(20, 7.5)).value();
  CHECK(chart.upper == chart.lower);
  CHECK(chart.outside.empty());
}

TEST_CASE("one point makes no chart", "[stock]") {
  check_refused(individuals_chart(std::vector<double>{1}), ErrorCode::missing_value,
                "A control chart needs at least two points.", "values", "Close another job first.");
}

TEST_CASE("drift is the change against the test before", "[stock]") {
  CHECK(flow_drift(180, 200) == Approx(-0.1).epsilon(1e-12));
  CHECK(flow_drift(230, 200) == Approx(0.15).epsilon(1e-12));
  CHECK(flow_drift(200, 200) == 0);
  CHECK(std::abs(flow_drift(221, 200)) > large_drift);
  CHECK(std::abs(flow_drift(219, 200)) < large_drift);
}
