// SPDX-License-Identifier: Apache-2.0
#include "gate/cartridge.hpp"

#include <catch2/catch.hpp>

#include "fogwright/gate.hpp"
#include "table_file.hpp"

using namespace fogwright;
using namespace fogwright::testing;

TEST_CASE("cartridge colours are those of the published table, and nothing where it is in doubt") {
  std::size_t rows = 0;
  for (const Row& row : table_rows("cartridge_colours.txt", 3)) {
    CAPTURE(row[0], row[2]);
    CHECK(cartridge_colour(row[0]) == (row[1] == "none" ? "" : row[1]));
    ++rows;
  }
  CHECK(rows == 13);
}

TEST_CASE("a cartridge is read whatever its spelling and order") {
  CHECK(cartridge_colour("Organic Vapour / Acid Gas") == "yellow");
  CHECK(cartridge_colour("acid gas + organic vapor") == "yellow");
  CHECK(cartridge_colour("organic vapor/acid gas/P100") == "yellow");
  CHECK(cartridge_colour("ACID GAS, P100") == "white");
}

TEST_CASE("mixed or unknown cartridges get no colour") {
  for (const char* words : {"organic vapor/ammonia", "acid gas/chlorine dioxide",
                            "organic vapor/acid gas/ammonia", "vapor", "N95", "", " / "}) {
    CAPTURE(words);
    CHECK(cartridge_colour(words).empty());
  }
}

namespace {

Coverage coverage(const char* words) {
  Coverage covered;
  covered.add(words);
  return covered;
}

}  // namespace

TEST_CASE("a particulate filter covers no gas, and a gas cartridge no particulates") {
  for (const char* filter : {"P100", "n95", " HEPA ", "particulate"}) {
    CHECK(coverage(filter).particulates());
    CHECK_FALSE(coverage(filter).gas());
  }
  CHECK(coverage("chlorine dioxide").gas());
  CHECK_FALSE(coverage("chlorine dioxide").particulates());
  CHECK(coverage("organic vapor/P100").gas());
  CHECK(coverage("organic vapor/P100").particulates());
}

TEST_CASE("cartridges cover together what each covers") {
  Coverage covered = coverage("acid gas");
  CHECK(covered.colour() == "white");
  covered.add("organic vapor");
  covered.add("P100");
  CHECK(covered.colour() == "yellow");
  CHECK(covered.particulates());
}
