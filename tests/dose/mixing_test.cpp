// SPDX-License-Identifier: Apache-2.0
#include <rapidcheck.h>

#include <catch2/catch.hpp>

#include "dose/houses.hpp"

using namespace fogwright;
using namespace fogwright::testing;

namespace {

MixingStep step(std::string ingredient, double millilitres, std::optional<double> fraction = {},
                std::optional<LiquidDensity> density = {}) {
  return {std::move(ingredient), ml(millilitres), "", "", {}, fraction, density};
}

// A chlorite of the demo world: 1 L of mix from tap water, part A and an activator.
Label brackwater() {
  Label label;
  label.name = "Brackwater 20";
  label.mixing.push_back({"duct fogging strength",
                          ml(1000),
                          "1 L",
                          {step("Tap water", 880), step("Brackwater part A", 100, 0.20, g_per_ml(1.17)),
                           step("activator", 20, {}, g_per_ml(1.05))}});
  label.mixing[0].steps[1].instruction = "into the water, never the other way round";
  label.mixing[0].steps[2].wait = HoldTime(15, unit::minute);
  label.mixing_gear.items = {"goggles", "gloves"};
  label.shelf_life.mixed = ShelfTime(24, unit::hour);
  return label;
}

std::vector<double> amounts(const MixingSheet& sheet) {
  std::vector<double> result;
  for (const MixingSheetLine& line : sheet.lines) result.push_back(line.amount.value_in(unit::millilitre));
  return result;
}

void check_amounts(const MixingSheet& sheet, const std::vector<double>& expected) {
  CHECK_THAT(amounts(sheet), Catch::Matchers::Approx(expected).epsilon(1e-12));
}

}  // namespace

TEST_CASE("the label's own amounts, order, gear and life stand on the sheet", "[dose]") {
  const MixingSheet sheet = mixing_sheet(brackwater(), ml(1000)).value();
  CHECK(sheet.table == "duct fogging strength");
  CHECK(sheet.makes == ml(1000));
  CHECK(sheet.batches == 1);
  REQUIRE(sheet.lines.size() == 3);
  check_amounts(sheet, {880, 100, 20});
  CHECK(sheet.lines[0].ingredient == "Tap water");
  CHECK(sheet.lines[1].instruction == "into the water, never the other way round");
  CHECK(sheet.lines[2].wait == HoldTime(15, unit::minute));
  CHECK(sheet.gear.items == std::vector<std::string>{"goggles", "gloves"});
  CHECK(sheet.life == ShelfTime(24, unit::hour));
}

TEST_CASE("a batch scales to what is needed: water up, product down", "[dose]") {
  // 1.2345 x 880, 100 and 20 mL: 1086.36, 123.45 and 24.69.
  const MixingSheet sheet = mixing_sheet(brackwater(), ml(1234.5)).value();
  CHECK(sheet.makes == ml(1234.5));
  check_amounts(sheet, {1086.4, 123.4, 24.6});
}

TEST_CASE("only water is rounded like water", "[dose]") {
  Label label = brackwater();
  const auto rounded = [&](const std::string& ingredient) {
    label.mixing[0].steps[0].ingredient = ingredient;
    return mixing_sheet(label, ml(1234.5)).value().lines[0].amount.value_in(unit::millilitre);
  };
  for (const char* water : {"water", "WATER", "cold tap water", "Water (below 30 C)", "water, clean"})
    CHECK(rounded(water) == Approx(1086.4).epsilon(1e-12));
  for (const char* other : {"Brackwater", "water softener", "brackwater part A", ""})
    CHECK(rounded(other) == Approx(1086.3).epsilon(1e-12));
}

TEST_CASE("amounts below a millilitre are not scaled down: whole label batches are made", "[dose]") {
  const MixingSheet exact = mixing_sheet(brackwater(), ml(50)).value();  // 1 mL of activator
  CHECK(exact.makes == ml(50));
  const MixingSheet whole = mixing_sheet(brackwater(), ml(49)).value();
  CHECK(whole.makes == ml(1000));
  CHECK(whole.batches == 1);
  check_amounts(whole, {880, 100, 20});

  Label drops = brackwater();
  drops.mixing[0].steps[2].amount = ml(0.25);
  const MixingSheet three = mixing_sheet(drops, ml(2100)).value();
  CHECK(three.batches == 3);
  CHECK(three.makes.value_in(unit::millilitre) == Approx(3000).epsilon(1e-12));
  check_amounts(three, {2640, 300, 0.75});  // the label's own figures, not tenths of a millilitre
  CHECK(mixing_sheet(drops, ml(3000)).value().batches == 3);
  CHECK(mixing_sheet(drops, ml(4000)).value().batches == 1);  // a whole millilitre: scaled again
}

TEST_CASE("the strength of the mix is worked out by mass", "[dose]") {
  // Computed independently: 100 mL x 1.17 x 0.20 over 880 + 117 + 21 g.
  CHECK(mixing_sheet(brackwater(), ml(1000)).value().active_fraction.value() ==
        Approx(23.4 / 1018).epsilon(1e-12));
  Label no_density = brackwater();
  no_density.mixing[0].steps[2].density.reset();
  CHECK_FALSE(mixing_sheet(no_density, ml(1000)).value().active_fraction.has_value());
  Label no_strength = brackwater();
  no_strength.mixing[0].steps[1].mass_fraction.reset();
  CHECK_FALSE(mixing_sheet(no_strength, ml(1000)).value().active_fraction.has_value());
}

TEST_CASE("a mixing table is found by its name", "[dose]") {
  Label label = brackwater();
  label.mixing.push_back({"surface strength", ml(2000), "2 L", {step("water", 1900), step("part A", 100)}});
  check_amounts(mixing_sheet(label, ml(1000), "surface strength").value(), {950, 50});
  check_refused(mixing_sheet(label, ml(1000)), ErrorCode::missing_value,
                "The label of \"Brackwater 20\" has several mixing tables.", "mixing table",
                "Name one of \"duct fogging strength\", \"surface strength\".");
  check_refused(mixing_sheet(label, ml(1000), "strong"), ErrorCode::not_found,
                "The label of \"Brackwater 20\" has no mixing table \"strong\".", "mixing table",
                "Name one of \"duct fogging strength\", \"surface strength\".");
}

TEST_CASE("without a usable mixing table there is no sheet", "[dose]") {
  const std::string hint =
      "A product that is ready to use is not mixed; for any other, copy the label's mixing table into the "
      "profile.";
  Label label = brackwater();
  label.mixing[0].makes = ml(0);
  check_refused(mixing_sheet(label, ml(1000)), ErrorCode::label_incomplete,
                "The label of \"Brackwater 20\" has a mixing table without amounts.", "mixing", hint);
  label = brackwater();
  label.mixing[0].steps.clear();
  CHECK(mixing_sheet(label, ml(1000)).error().code == ErrorCode::label_incomplete);
  label.mixing.clear();
  check_refused(mixing_sheet(label, ml(1000)), ErrorCode::label_incomplete,
                "The label of \"Brackwater 20\" has no mixing table.", "mixing", hint);
}

TEST_CASE("a batch of nothing, or of a tanker, is refused", "[dose]") {
  check_refused(mixing_sheet(brackwater(), ml(0)), ErrorCode::out_of_range,
                "A batch of 0 mL is not above zero and up to 1,000 L.", "volume to make",
                "Give how much mix the jobs need.");
  CHECK_FALSE(mixing_sheet(brackwater(), ml(-1)).has_value());
  CHECK_FALSE(mixing_sheet(brackwater(), ml(1'000'001)).has_value());
}

TEST_CASE("scaling never makes a mix stronger than the label's", "[dose][property]") {
  const double label_strength = mixing_sheet(brackwater(), ml(1000)).value().active_fraction.value();
  CHECK(rc::check([label_strength] {
    const auto tenths = *rc::gen::inRange(500, 5'000'000);
    const MixingSheet sheet = mixing_sheet(brackwater(), ml(tenths / 10.0)).value();
    RC_ASSERT(sheet.lines[1].amount / sheet.lines[0].amount <= 100.0 / 880 * (1 + 1e-12));
    // Less activator, a tenth of a millilitre at most, can only lift the share of chlorite by as much in mass.
    RC_ASSERT(*sheet.active_fraction <= label_strength * (1 + 0.105 / sheet.makes.value_in(unit::millilitre)));
  }));
}
