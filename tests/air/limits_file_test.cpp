// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "fogwright/air.hpp"

using namespace fogwright;

namespace {

constexpr auto good = R"([[limit]]
cas = "10049-04-4"
kind = "ceiling"
ppm = 0.1
source = "a licensed booklet, page 20"
date = "2026-01-31"

[[limit]]
cas = "50-99-7"
kind = "immediately-dangerous"
mg_per_m3 = 3
source = "data sheet"
date = "2026-02-01"
)";

}  // namespace

TEST_CASE("a file of entered limits is read in full") {
  const auto limits = read_limits(good, "limits.toml");
  REQUIRE(limits);
  REQUIRE(limits->size() == 2);
  const EnteredLimit& first = (*limits)[0];
  CHECK(first.cas == "10049-04-4");
  CHECK(first.kind == LimitKind::ceiling);
  CHECK(first.ppm == 0.1);
  CHECK_FALSE(first.mg_per_m3.has_value());
  CHECK(first.source == "a licensed booklet, page 20");
  CHECK(first.date == "2026-01-31");
  CHECK((*limits)[1].kind == LimitKind::immediately_dangerous);
  CHECK((*limits)[1].mg_per_m3 == 3.0);
}

TEST_CASE("every fault is reported with its place and what to write") {
  const auto limits = read_limits(R"([[limit]]
cas = "10049-04-5"
kind = "eighthour"
ppm = -1
source = "x"
date = "2026-02-30"
colour = "red"
[[limit]]
cas = "50-99-7"
kind = "ceiling"
ppm = 1
source = "x"
date = "2026-02-01"
[[limit]]
cas = "7722-84-1"
kind = "ceiling"
source = "x"
)",
                                  "limits.toml");
  REQUIRE_FALSE(limits);
  std::vector<std::string> places;
  for (const Error& fault : limits.error()) {
    CAPTURE(fault.message, fault.where);
    CHECK(fault.code == ErrorCode::bad_site);
    CHECK_FALSE(fault.hint.empty());
    places.push_back(fault.where.substr(0, fault.where.rfind(':')));
  }
  // Line 1: a refused ppm leaves the first limit without a value; line 14: the third lacks a value and a date.
  CHECK(places == std::vector<std::string>{"limits.toml:1", "limits.toml:2", "limits.toml:3", "limits.toml:4",
                                           "limits.toml:6", "limits.toml:7", "limits.toml:8", "limits.toml:14",
                                           "limits.toml:14"});
}

TEST_CASE("an empty file and a broken one are refused") {
  REQUIRE_FALSE(read_limits("", "limits.toml"));
  const auto broken = read_limits("[[limit]]\ncas = ", "limits.toml");
  REQUIRE_FALSE(broken);
  CHECK(broken.error().front().code == ErrorCode::bad_site);
  CHECK(broken.error().front().where.starts_with("limits.toml:2:"));
}
