// SPDX-License-Identifier: Apache-2.0
#include "files.hpp"

using namespace fogwright;
using namespace fogwright::test;

namespace {

/// Mass of active over mass of batch, from the mixing table alone.
double strength_by_mass(const MixingTable& mixing) {
  double active = 0, all = 0;
  for (const MixingStep& step : mixing.steps) {
    const double grams = (step.amount * step.density.value()).value_in(unit::gram);
    active += grams * step.mass_fraction.value_or(0);
    all += grams;
  }
  return active / all;
}

}  // namespace

TEST_CASE(
    "each demo label opens with the word that the product does not exist, and its registration shows it") {
  for (const std::string& name : demo_names) {
    CAPTURE(name);
    const std::string first = demo_text(name).substr(0, 200);
    CHECK(first.starts_with("# "));
    CHECK(first.find("does not exist") != std::string::npos);
    CHECK(demo_text(name).find("Never use this file as a source") != std::string::npos);
    CHECK(demo_label(name).registration.starts_with("DEMO-"));
    CHECK(demo_label(name).maker.find("(invented)") != std::string::npos);
    CHECK(may_fog_ducts(demo_label(name)).has_value());
  }
}

TEST_CASE("every member of the high-strength demo label lands where it belongs") {
  const Label label = demo_label("brackwater-20");
  CHECK(label.name == "Brackwater 20");
  CHECK(label.registration == "DEMO-2");
  CHECK(label.signal_word == SignalWord::danger);
  CHECK(label.strength == StrengthClass::high_strength_oxidiser);
  CHECK(label.oxidiser);
  CHECK(label.chemistry == std::vector{Chemistry::chlorite, Chemistry::acid});
  CHECK(label.use_sites == std::vector{UseSite::hvac_ductwork});
  CHECK(label.methods == std::vector{Method::fogging});
  CHECK(label.duct_materials == std::vector{DuctMaterial::bare_metal, DuctMaterial::flexible});
  REQUIRE(label.rate);
  CHECK(label.rate->low_s_per_1000_sqft == Approx(45));
  CHECK(label.rate->high_s_per_1000_sqft == Approx(60));
  CHECK(label.density.value_in(unit::gram_per_millilitre) == Approx(1.0));
  CHECK(label.nonvolatile_fraction.value() == Approx(0.005));
  CHECK_FALSE(label.droplet_diameter);
  CHECK(label.empty_time.value().value_in(unit::minute) == Approx(60));
  CHECK(label.empty_time_source == "data sheet, section 7");
  CHECK(label.everyone_out);
  CHECK(label.ventilation_air_changes.value().value_in(unit::per_hour) == Approx(5));
  CHECK(label.ventilation == "Run the fan with windows open before anyone comes back.");
  CHECK(label.storage.low.value().in_fahrenheit() == Approx(40));
  CHECK(label.storage.high.value().in_fahrenheit() == Approx(77));
  CHECK(label.shelf_life.sealed.value().value_in(unit::day) == Approx(365));
  CHECK(label.shelf_life.opened.value().value_in(unit::day) == Approx(90));
  CHECK(label.shelf_life.mixed.value().value_in(unit::hour) == Approx(24));
  CHECK(label.transport.hazard_class == "8");
  CHECK(label.transport.packing_group == "II");
  CHECK(label.transport.un_number == "UN1908");
  CHECK_FALSE(label.transport.poison_by_inhalation);
  CHECK(label.precautions.size() == 7);
  CHECK(label.precautions.front() == "Corrosive. Causes irreversible eye damage and skin burns.");
  CHECK(label.first_aid.size() == 4);
  CHECK(label.disposal.back() == "Triple rinse the container. Do not reuse it.");
  CHECK(label.label_date == "2024-05-02");
  CHECK(label.data_sheet_date == "2024-04-18");
}

TEST_CASE("its active, mixing table and gear as well") {
  const Label label = demo_label("brackwater-20");
  REQUIRE(label.actives.size() == 1);
  const Active& active = label.actives[0];
  CHECK(active.name == "Sodium chlorite");
  CHECK(active.cas == "7758-19-2");
  CHECK(active.mass_fraction.value() == Approx(0.0027));
  CHECK(active.release == Release::vapour);
  CHECK(active.released_cas == "10049-04-4");
  CHECK(active.released_name == "Chlorine dioxide");
  CHECK(active.off_gassing.value().value_in(unit::minute) == Approx(180));
  REQUIRE(label.mixing.size() == 1);
  CHECK(label.mixing[0].name == "duct fogging strength");
  CHECK(label.mixing[0].makes_text == "1 gal");
  CHECK(label.mixing[0].makes.value_in(unit::us_gallon) == Approx(1));
  REQUIRE(label.mixing[0].steps.size() == 3);
  const MixingStep& part_a = label.mixing[0].steps[1];
  CHECK(part_a.ingredient == "Part A concentrate");
  CHECK(part_a.amount_text == "1.5 fl oz");
  CHECK(part_a.amount.value_in(unit::us_fluid_ounce) == Approx(1.5));
  CHECK(part_a.instruction == "Into the water, never the other way round.");
  CHECK(part_a.density.value().value_in(unit::gram_per_millilitre) == Approx(1.17));
  CHECK(label.mixing[0].steps[2].wait.value().value_in(unit::minute) == Approx(10));
  for (const Gear& gear : {label.mixing_gear, label.applying_gear}) {
    CHECK(gear.respirator == Facepiece::full_facepiece);
    CHECK(gear.cartridges == std::vector<std::string>{"organic vapor/acid gas"});
  }
  CHECK(label.mixing_gear.items.front() == "chemical splash goggles");
  CHECK(label.applying_gear.items.back() == "rubber boots");
}

TEST_CASE("what a label leaves open stays open") {
  const Label label = demo_label("fenmist-rtu");
  CHECK_FALSE(label.rate);
  CHECK(label.mixing.empty());
  CHECK(label.transport.hazard_class.empty());
  CHECK_FALSE(label.ventilation_air_changes);
  CHECK(label.actives[0].release == Release::mist);
  CHECK(label.actives[0].yield == 1.0);
  CHECK_FALSE(label.actives[0].eight_hour);
  CHECK(label.droplet_diameter.value().value_in(unit::micrometre) == Approx(20));
}

TEST_CASE("printed limits land beside their active") {
  const auto text = edited(
      demo_text("palelight-hp"), "off_gassing = \"60 min\"",
      "loss_per_hour = 0.5\nloss_source = \"a test\"\neight_hour = { ppm = 1, concentration = \"1.4 mg/m3\" }\n"
      "short_term.ppm = 2\nceiling.ppm = 3\nimmediately_dangerous.ppm = 75\noccupant.ppm = 0.1");
  const auto label = read_label(text, "f");
  REQUIRE(label);
  const Active& active = label->actives[0];
  CHECK(active.eight_hour.value().ppm == 1);
  CHECK(active.eight_hour.value().concentration.value().value_in(unit::milligram_per_cubic_metre) ==
        Approx(1.4));
  CHECK(active.short_term.value().ppm == 2);
  CHECK(active.ceiling.value().ppm == 3);
  CHECK(active.immediately_dangerous.value().ppm == 75);
  CHECK(active.occupant.value().ppm == 0.1);
  CHECK(active.loss_per_hour == 0.5);
  CHECK(active.loss_source == "a test");
}

TEST_CASE("the stated strength of each mixed demo product follows from its mixing table by mass") {
  for (const char* name : {"brackwater-20", "palelight-hp"}) {
    CAPTURE(name);
    const Label label = demo_label(name);
    CHECK(strength_by_mass(label.mixing[0]) == Approx(label.actives[0].mass_fraction.value()).epsilon(0.02));
  }
}

// Stoichiometry: 5 ClO2- + 4 H+ -> 4 ClO2 + Cl- + 2 H2O, molar masses from memory (NaClO2 90.44, ClO2 67.45).
// Limits: NIOSH Pocket Guide, chlorine dioxide: 0.1 ppm (OSHA PEL), 5 ppm (IDLH), 2.76 mg/m3 per ppm.
TEST_CASE(
    "Brackwater 20 in a 2,400 sq ft house is above the worker limit and below the immediately dangerous "
    "level") {
  const Active active = demo_label("brackwater-20").actives[0];
  CHECK(active.yield == Approx(4 * 67.45 / (5 * 90.44)).epsilon(1e-4));
  const double released_mg = 380 * 1000.0 * active.mass_fraction.value() * active.yield;
  const double ppm = released_mg / (2400 * 8 * 0.028316846592 * 0.89) / 2.76;
  CHECK(ppm > 0.1);
  CHECK(ppm < 5);
}
