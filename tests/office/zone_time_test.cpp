// SPDX-License-Identifier: Apache-2.0
// Times at the job's place. Changes of America/Chicago and Pacific/Apia as the IANA time zone database has
// them.
#include "asking/zone_time.hpp"

#include <catch2/catch.hpp>

using namespace fogwright;

namespace {

constexpr std::int64_t hour = 3'600'000;
const std::string chicago = "America/Chicago";

std::int64_t read(const std::string& typed, bool later = false) {
  const auto ms = read_local_time(typed, chicago, later, "--started");
  INFO(typed);
  REQUIRE(ms.has_value());
  return *ms;
}

}  // namespace

TEST_CASE("A local time is read back as it was shown") {
  for (const char* typed : {"2026-03-02 08:00", "2028-02-29 23:59", "2026-07-04 00:00", "2026-12-31 23:00"})
    CHECK(local_time(chicago, read(typed)).substr(0, 16) == typed);
  CHECK(read("2026-03-02 08:00") == 1'772'460'000'000);
}

TEST_CASE("A time that the clocks show twice is the later one where that is asked for") {
  CHECK(read("2026-11-01 01:30", true) - read("2026-11-01 01:30") == hour);
  // And one that they leave out is the moment of the change.
  CHECK(read("2026-03-08 02:30") == read("2026-03-08 03:00"));
}

TEST_CASE("Days are as long as they are at the place") {
  const LocalDay short_day = local_day(chicago, read("2026-03-08 12:00"));
  const LocalDay long_day = local_day(chicago, read("2026-11-01 12:00"));
  CHECK(short_day.date == "2026-03-08");
  CHECK(local_day(chicago, read("2026-03-09 12:00")).began_ms - short_day.began_ms == 23 * hour);
  CHECK(local_day(chicago, read("2026-11-02 12:00")).began_ms - long_day.began_ms == 25 * hour);
  // Apia had no 30 December 2011.
  CHECK(local_day("Pacific/Apia", 1'325'239'199'000).date == "2011-12-29");
  CHECK(local_day("Pacific/Apia", 1'325'239'200'000).date == "2011-12-31");
}

TEST_CASE("What is no time, and no zone, is refused") {
  for (const char* typed : {"", "2026-03-02", "2026-02-30 08:00", "2026-03-02T08:00", "2026-03-02 24:00",
                            "2026-03-02 08:60", "2026-03-02 8:00", "2026-03-02 08:00 ", "2026-03-02 -1:00"}) {
    INFO(typed);
    CHECK(read_local_time(typed, chicago, false, "--started").error().code == ErrorCode::not_understood);
  }
  CHECK_FALSE(check_zone_name("Tarn/Vale"));
  CHECK_FALSE(check_zone_name(""));
  CHECK(check_zone_name("Pacific/Apia"));
}
