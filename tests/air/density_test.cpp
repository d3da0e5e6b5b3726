// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <limits>

#include "fogwright/air.hpp"
#include "table_file.hpp"

using namespace fogwright;

namespace {

double g_per_ml(double percent) {
  return peroxide_density(percent / 100).value().value_in(unit::gram_per_millilitre);
}

}  // namespace

TEST_CASE("peroxide densities agree with every independent anchor") {
  const auto rows = testing::word_rows("peroxide_density.txt");
  REQUIRE(rows.size() == 5);
  for (const auto& row : rows) {
    CAPTURE(row);
    CHECK(g_per_ml(std::stod(row[1])) == Approx(std::stod(row[2])).epsilon(std::stod(row[3])));
  }
}

TEST_CASE("between rows the density is linear (computed independently)") {
  CHECK(g_per_ml(3) == Approx(1.00945).epsilon(1e-12));
  CHECK(g_per_ml(7.5) == Approx(1.025875).epsilon(1e-12));
  CHECK(g_per_ml(12) == Approx(1.0425).epsilon(1e-12));
  CHECK(g_per_ml(35) == Approx(1.1327).epsilon(1e-12));
  CHECK(g_per_ml(0) == Approx(0.9986).epsilon(1e-12));
}

TEST_CASE("the table is smooth and denser than ideal mixing, as a contracting mixture must be") {
  for (double percent = 0.25; percent <= 100; percent += 0.25) {
    CAPTURE(percent);
    const double w = percent / 100;
    CHECK(g_per_ml(percent) > g_per_ml(percent - 0.25));
    CHECK(g_per_ml(percent) >= 1 / (w / 1.4465 + (1 - w) / 0.9986) - 1e-6);
  }
  for (int percent = 0; percent <= 100; percent += 10) {  // a cubic through the rows, computed independently
    const double w = percent / 100.0;
    CHECK(g_per_ml(percent) ==
          Approx(0.99887179 + w * (0.35197773 + w * (0.07896518 + w * 0.01737318))).margin(0.00083));
  }
}

TEST_CASE("a strength that is no fraction is refused") {
  for (const double w : {-0.01, 1.01, std::numeric_limits<double>::quiet_NaN()}) {
    const auto refused = peroxide_density(w);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == ErrorCode::out_of_range);
    CHECK_FALSE(refused.error().hint.empty());
  }
}
