// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <map>

#include "gate/world.hpp"
#include "table_file.hpp"

using namespace fogwright;
using namespace fogwright::testing;

TEST_CASE("assigned protection factors are those of 29 CFR 1910.134 Table 1, every cell") {
  const std::vector<std::string> columns{"quarter mask", "half mask", "full facepiece", "helmet/hood",
                                         "loose-fitting facepiece"};
  std::map<std::pair<std::string, std::string>, int> ours;
  for (const auto& cell : assigned_protection_factors())
    REQUIRE(ours.insert({{std::string(cell.respirator), std::string(cell.facepiece)}, cell.factor}).second);

  std::size_t cells = 0;
  for (const Row& row : table_rows("osha_apf.txt", 6))
    for (std::size_t column = 0; column < columns.size(); ++column) {
      const std::string& printed = row[column + 1];
      const auto found = ours.find({row[0], columns[column]});
      CAPTURE(row[0], columns[column], printed);
      ++cells;
      if (printed == "-") {
        CHECK(found == ours.end());
        continue;
      }
      REQUIRE(found != ours.end());
      CHECK(found->second == std::stoi(printed));  // of "25 or 1000" the first, the one without evidence
      ours.erase(found);
    }
  CHECK(cells == 35);
  CHECK(ours.empty());
}

TEST_CASE("a stricter facepiece never has a lower factor") {
  const Facepiece ladder[] = {Facepiece::none,           Facepiece::filtering, Facepiece::half_mask,
                              Facepiece::full_facepiece, Facepiece::powered,   Facepiece::supplied_air,
                              Facepiece::self_contained};
  for (std::size_t i = 1; i < std::size(ladder); ++i) {
    CHECK(protection_factor(ladder[i - 1]) <= protection_factor(ladder[i]));
    CHECK(respirator_words(ladder[i - 1]) != respirator_words(ladder[i]));
  }
  CHECK(protection_factor(Facepiece::none) == 0);
  CHECK(protection_factor(Facepiece::half_mask) == 10);
  CHECK(protection_factor(Facepiece::full_facepiece) == 50);
  CHECK(protection_factor(Facepiece::self_contained) == 10'000);
}

TEST_CASE("the maximum use concentration is factor times limit, at most the immediately dangerous level") {
  // 29 CFR 1910.134(b) and (d)(3)(i)(B). Chlorine dioxide: PEL 0.3 mg/m3, IDLH 5 ppm x 2.76 = 13.8 mg/m3 (NIOSH
  // Pocket Guide).
  CHECK(maximum_use_concentration(10, mg(0.3), mg(13.8)) / mg(1) == Approx(3.0));
  CHECK(maximum_use_concentration(50, mg(0.3), mg(13.8)) / mg(1) == Approx(13.8));
  CHECK(maximum_use_concentration(1000, mg(0.3), mg(13.8)) / mg(1) == Approx(13.8));
  CHECK(maximum_use_concentration(1000, mg(0.3), std::nullopt) / mg(1) == Approx(300.0));
}
