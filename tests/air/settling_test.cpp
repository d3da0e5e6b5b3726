// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>

#include "fogwright/air.hpp"
#include "table_file.hpp"

using namespace fogwright;

namespace {

Length micrometres(double d) { return Length{d, unit::micrometre}; }

}  // namespace

TEST_CASE("settling velocities as printed by Hinds and by Gunn and Kinzer") {
  const auto rows = testing::word_rows("settling_velocity.txt");
  REQUIRE(rows.size() == 9);
  for (const auto& row : rows) {
    CAPTURE(row);
    CHECK(settling_velocity_m_s(micrometres(std::stod(row[1]))) ==
          Approx(std::stod(row[2])).epsilon(std::stod(row[3])));
  }
}

TEST_CASE("slip corrections as printed by Seinfeld and Pandis") {
  const auto rows = testing::word_rows("slip_correction.txt");
  REQUIRE(rows.size() == 7);
  for (const auto& row : rows) {
    CAPTURE(row);
    CHECK(slip_correction(micrometres(std::stod(row[0]))) == Approx(std::stod(row[1])).epsilon(0.01));
  }
}

// Cunningham's coefficients after Hinds (eq. 3.20) are from memory; mean free path 0.066 micrometres.
TEST_CASE("slip, Stokes and Schiller-Naumann to twelve digits (computed independently)") {
  const auto near = [](double v) { return Approx(v).epsilon(1e-10); };
  CHECK(slip_correction(micrometres(1)) == near(1.1546281255));
  CHECK(slip_correction(micrometres(2)) == near(1.07722025535));
  CHECK(slip_correction(micrometres(5)) == near(1.030888));
  CHECK(slip_correction(micrometres(100)) == near(1.0015444));
  // Below Re 0.1 plain Stokes.
  CHECK(settling_velocity_m_s(micrometres(1)) == near(3.47664269832e-5));
  CHECK(settling_velocity_m_s(micrometres(2)) == near(1.29742550092e-4));
  CHECK(settling_velocity_m_s(micrometres(5)) == near(7.76013756906e-4));
  CHECK(settling_velocity_m_s(micrometres(10)) == near(3.05755237569e-3));
  CHECK(settling_velocity_m_s(micrometres(20)) == near(1.21372041989e-2));
  // Above it with drag.
  CHECK(settling_velocity_m_s(micrometres(50)) == near(7.14244300684e-2));
  CHECK(settling_velocity_m_s(micrometres(100)) == near(0.248521917864));
  CHECK(settling_velocity_m_s(micrometres(200)) == near(0.707934063823));
}

TEST_CASE("stirred settling under 8 ft (computed independently)") {
  const auto left = [](double d, double hours) {
    return std::exp(-settling_velocity_m_s(micrometres(d)) / 2.4384 * 3600 * hours);
  };
  CHECK(left(5, 1) == Approx(0.318004545674).epsilon(1e-10));
  CHECK(left(10, 0.5) == Approx(0.104658620549).epsilon(1e-10));
  CHECK(left(1, 8) == Approx(0.663234211927).epsilon(1e-10));
}

TEST_CASE("no size, no velocity") { CHECK(settling_velocity_m_s(Length{}) == 0); }
