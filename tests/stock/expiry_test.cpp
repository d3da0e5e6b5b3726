// SPDX-License-Identifier: Apache-2.0
#include "stock/expiry.hpp"

#include <catch2/catch.hpp>

using namespace fogwright;

TEST_CASE("an expiry day ends where the next one begins", "[stock]") {
  // Computed independently with Python's datetime.
  CHECK(end_of_day_ms("1970-01-01") == 86'400'000);
  CHECK(end_of_day_ms("1999-12-31") == 946'684'800'000);
  CHECK(end_of_day_ms("2026-03-31") == 1'775'001'600'000);
  CHECK(end_of_day_ms("2026-12-30") == 1'798'675'200'000);
}

TEST_CASE("leap days are those of the Gregorian calendar", "[stock]") {
  // ISO 8601. Computed independently with Python's datetime.
  CHECK(end_of_day_ms("2028-02-29") == 1'835'481'600'000);
  CHECK(end_of_day_ms("2100-02-28") == 4'107'542'400'000);
  CHECK(end_of_day_ms("2000-02-29").has_value());
  for (const auto* none : {"2026-02-29", "2100-02-29", "2028-02-30"})
    CHECK_FALSE(end_of_day_ms(none).has_value());
}

TEST_CASE("what is not a date of the calendar is no expiry", "[stock]") {
  for (const auto* text : {"", "2026", "2026-3-31", "2026-03-32", "2026-00-10", "2026-13-01", "2026-01-00",
                           "20260331", "2026/03/31", "31-03-2026", "2026-03-31 ", "2026-03-3l", "-026-03-31",
                           "2026-+3-31", "2026-03-31T00:00Z", "never"}) {
    INFO(text);
    CHECK_FALSE(end_of_day_ms(text).has_value());
  }
}
