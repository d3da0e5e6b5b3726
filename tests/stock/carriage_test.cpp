// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <limits>

#include "fogwright/stock.hpp"
#include "table_file.hpp"

using namespace fogwright;
using namespace fogwright::testing;

namespace {

Carried package(std::string hazard_class, std::string packing_group, std::int64_t gross_mg,
                std::int64_t volume_ul) {
  return {"c-1", {std::move(hazard_class), std::move(packing_group), "UN1908", false}, volume_ul, gross_mg};
}

std::vector<CarriageFinding> of(const Carried& one) { return materials_of_trade(std::vector{one}); }

void check_only(const std::vector<CarriageFinding>& findings, const std::string& what,
                const std::string& citation, const std::string& which) {
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].what == what);
  CHECK(findings[0].citation == citation);
  CHECK(findings[0].package == which);
}

}  // namespace

TEST_CASE("what is exactly at a limit of 49 CFR 173.6 passes, the next milligram or microlitre does not",
          "[stock]") {
  const auto rows = table_rows("materials_of_trade.txt", 4);
  REQUIRE(rows.size() == 4);
  for (const Row& row : rows) {
    INFO(row[0]);
    const std::int64_t mg = std::stoll(row[1]);
    if (row[0] == "vehicle") {
      std::vector<Carried> load(10, package("8", "II", mg / 10, 0));
      CHECK(materials_of_trade(load).empty());
      ++load[3].gross_mg;
      check_only(materials_of_trade(load),
                 "The regulated packages weigh 200.01 kg together; a vehicle may carry 200 kg.", row[3], "");
      continue;
    }
    const std::int64_t ul = std::stoll(row[2]);
    for (const auto* hazard_class : {"3", "4.1", "5.1", "5.2", "6.1", "8", "9"}) {
      CHECK(of(package(hazard_class, row[0], mg, ul)).empty());
      for (const auto& over :
           {package(hazard_class, row[0], mg + 1, ul), package(hazard_class, row[0], mg, ul + 1)}) {
        REQUIRE(of(over).size() == 1);
        CHECK(of(over)[0].citation == row[3]);
        CHECK(of(over)[0].package == "c-1");
      }
    }
  }
}

TEST_CASE("a finding says how much there is and what may be", "[stock]") {
  check_only(of(package("5.1", "II", 31'200'000, 25'000'000)),
             "It weighs 31.20 kg; a package may weigh 30 kg in packing groups II and III.",
             "49 CFR 173.6(a)(1)(ii)", "c-1");
  check_only(of(package("5.1", "I", 400'000, 946'353)),
             "It holds 947 mL; a package may hold 0.5 L in packing group I.", "49 CFR 173.6(a)(1)(i)", "c-1");
}

TEST_CASE("a packing group that is not known counts as I", "[stock]") {
  for (const auto* unknown : {"", "IV", "ii"}) {
    CHECK(of(package("8", unknown, 500'000, 500'000)).empty());
    check_only(
        of(package("8", unknown, 600'000, 500'000)),
        "It weighs 600 g; a package may weigh 0.5 kg in packing group I, as which an unknown group counts.",
        "49 CFR 173.6(a)(1)(i)", "c-1");
  }
}

TEST_CASE("what is poisonous by inhalation is excluded, however little", "[stock]") {
  Carried one = package("6.1", "I", 1000, 1000);
  one.transport.poison_by_inhalation = true;
  check_only(of(one), "What is poisonous by inhalation is never a material of trade.", "49 CFR 173.6(a)(5)",
             "c-1");
}

TEST_CASE("what is poisonous by inhalation is excluded even where no class is given", "[stock]") {
  Carried one{"c-1", {}, 1000, 1000};
  one.transport.poison_by_inhalation = true;
  REQUIRE(of(one).size() == 2);
  CHECK(of(one)[0].citation == "49 CFR 173.6(a)(5)");
}

TEST_CASE("a class that is not listed, or not known, is a finding", "[stock]") {
  for (const auto* other : {"1", "2.2", "2.3", "4.2", "4.3", "7", "8.0"})
    check_only(of(package(other, "II", 1000, 1000)),
               std::string("Class ") + other +
                   " is none of 3, 4.1, 5.1, 5.2, 6.1, 8 and 9, the classes that are checked here.",
               "49 CFR 173.6(a)(1)", "c-1");
  check_only(of(package("", "II", 1000, 1000)),
             "An unknown class is none of 3, 4.1, 5.1, 5.2, 6.1, 8 and 9, the classes that are checked here.",
             "49 CFR 173.6(a)(1)", "c-1");
}

TEST_CASE("a package whose mass is not known cannot pass", "[stock]") {
  check_only(of(package("8", "III", 0, 1000)), "Its gross mass is not known.", "49 CFR 173.6(a)(1)(ii)", "c-1");
}

TEST_CASE("what is not regulated neither fails nor counts", "[stock]") {
  const Carried water{"w-1", {}, 400'000'000, 420'000'000};
  CHECK(of(water).empty());
  CHECK(materials_of_trade(std::vector{water, package("8", "II", 1000, 1000)}).empty());
  CHECK(materials_of_trade({}).empty());
}

TEST_CASE("a package over its own limit also counts towards the vehicle", "[stock]") {
  constexpr std::int64_t largest = std::numeric_limits<std::int64_t>::max();
  const auto findings = materials_of_trade(std::vector(2, package("8", "II", largest, 1000)));
  REQUIRE(findings.size() == 3);
  CHECK(findings[2].citation == "49 CFR 173.6(d)");
  CHECK(findings[2].package.empty());
}
