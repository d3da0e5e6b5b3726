// SPDX-License-Identifier: Apache-2.0
#include <set>

#include "files.hpp"
#include "label/words.hpp"

using namespace fogwright;
using namespace fogwright::test;
using enum Chemistry;

namespace {

Label product(std::string name, std::vector<Chemistry> chemistry) {
  Label label;
  label.name = std::move(name);
  label.chemistry = std::move(chemistry);
  return label;
}

bool meet(Chemistry a, Chemistry b) { return may_meet(product("One", {a}), product("Other", {b})).has_value(); }

}  // namespace

// General chemistry, from memory; the requirement names the first four pairs.
TEST_CASE("exactly these pairs must not meet, in either order") {
  const std::set<std::set<Chemistry>> forbidden = {
      {hypochlorite, acid},    {hypochlorite, chlorite}, {peroxide, peracid},
      {hypochlorite, peracid}, {hypochlorite, peroxide}, {hypochlorite, quaternary_ammonium},
      {hypochlorite, alcohol}, {chlorite, acid},         {chlorite, peracid},
      {chlorite, peroxide},    {chlorite, alcohol},      {peroxide, acid},
      {peroxide, alcohol},     {peracid, alcohol}};
  for (const auto& a : profile::chemistries)
    for (const auto& b : profile::chemistries) {
      CAPTURE(a.written, b.written);
      CHECK(meet(a.value, b.value) == !forbidden.contains({a.value, b.value}));
    }
}

TEST_CASE("a refusal names both products, both chemistries and what would happen") {
  const auto met = may_meet(product("One", {none}), product("Other", {acid}));
  CHECK(met.has_value());
  const auto refused =
      may_meet(product("One", {quaternary_ammonium, hypochlorite}), product("Other", {alcohol, acid}));
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == ErrorCode::incompatible_chemistry);
  CHECK(
      refused.error().message ==
      "One (hypochlorite) must not meet Other (alcohol): chlorinated organic vapours are given off, with heat");
}

TEST_CASE("a product may meet itself, but not another one of the same name") {
  const Label brackwater = demo_label("brackwater-20");
  CHECK(may_meet(brackwater, brackwater).has_value());
  Label namesake = brackwater;
  namesake.registration = "DEMO-99";
  CHECK_FALSE(may_meet(brackwater, namesake).has_value());
}

TEST_CASE("of the demo products only the oxidisers must not meet") {
  const Label fenmist = demo_label("fenmist-rtu"), brackwater = demo_label("brackwater-20");
  const Label palelight = demo_label("palelight-hp");
  CHECK_FALSE(may_meet(brackwater, palelight).has_value());
  CHECK(may_meet(fenmist, brackwater).has_value());
  CHECK(may_meet(fenmist, palelight).has_value());
}
