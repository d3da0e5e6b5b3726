// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "fogwright/air.hpp"
#include "table_file.hpp"

using namespace fogwright;

TEST_CASE("air changes against minutes: every printed cell of the CDC and MMWR tables") {
  const auto rows = testing::word_rows("cdc_air_changes.txt");
  REQUIRE(rows.size() == 18 + 24);
  for (const auto& row : rows) {
    CAPTURE(row);
    const double minutes = purge_minutes(std::stod(row[1]), std::stod(row[2]) / 100);
    CHECK(std::lround(minutes) == std::stol(row[3]));
    CHECK(std::ceil(minutes) >= std::stod(row[3]));
    // The curve says the same: at this time this share is gone.
    const Phase phase{std::numeric_limits<double>::infinity(), std::stod(row[1]), 0};
    const ConcentrationCurve curve(1, {&phase, 1});
    CHECK(curve.stays_below_from(1 - std::stod(row[2]) / 100) * 60 == Approx(minutes).epsilon(1e-9));
  }
}

TEST_CASE("the mixing factor multiplies the purge time (MMWR 1994 Table S3-1, note: up to 10)") {
  // Computed independently.
  CHECK(purge_minutes(6, 0.99, 1) == Approx(46.0517018599).epsilon(1e-10));
  CHECK(purge_minutes(6, 0.99, 3) == Approx(138.155105580).epsilon(1e-10));
  CHECK(purge_minutes(6, 0.99, 10) == Approx(460.517018599).epsilon(1e-10));
}

TEST_CASE("without ventilation nothing is purged, and nothing to remove takes no time") {
  CHECK(std::isinf(purge_minutes(0, 0.9)));
  CHECK(purge_minutes(0, 0) == 0);
}
