// SPDX-License-Identifier: Apache-2.0
#include "files.hpp"

using namespace fogwright;
using namespace fogwright::test;

TEST_CASE("a profile that does not list ductwork is read, and refused for ducts") {
  const auto label = read_label(edited(demo_text("fenmist-rtu"), "[\"hvac-ductwork\", \"hard-surface\"]",
                                       "[\"hard-surface\", \"room-air\"]"),
                                "f");
  REQUIRE(label);
  const auto may = may_fog_ducts(*label);
  REQUIRE_FALSE(may);
  CHECK(may.error().code == ErrorCode::label_forbids);
  CHECK(may.error().message == "the label of Fenmist RTU does not list HVAC ductwork as a use site");
  CHECK_FALSE(may.error().hint.empty());
}

TEST_CASE("a label that does not list fogging is refused") {
  Label label = demo_label("fenmist-rtu");
  label.methods = {Method::wiping, Method::spraying};
  const auto may = may_fog_ducts(label);
  REQUIRE_FALSE(may);
  CHECK(may.error().code == ErrorCode::label_forbids);
  CHECK(may.error().where == "methods");
}

TEST_CASE("a high-strength oxidiser without an empty time is refused, a weaker product is not") {
  Label strong = demo_label("brackwater-20"), weak = demo_label("fenmist-rtu");
  strong.empty_time.reset();
  weak.empty_time.reset();
  const auto may = may_fog_ducts(strong);
  REQUIRE_FALSE(may);
  CHECK(may.error().code == ErrorCode::label_incomplete);
  CHECK(may_fog_ducts(weak).has_value());
}

TEST_CASE("a high-strength profile without [reentry] is read, so that the owner can be told what is missing") {
  std::string text = demo_text("brackwater-20");
  const auto begin = text.find("[reentry]"), end = text.find("[storage]");
  const auto label = read_label(text.erase(begin, end - begin), "f");
  REQUIRE(label);
  CHECK(may_fog_ducts(*label).error().code == ErrorCode::label_incomplete);
  CHECK(label->everyone_out);
}

// EPA-402-K-97-002, as contractors' pages quote it: no product was registered for duct board or lined ducts.
TEST_CASE("a label that names no material is good for bare metal and flexible ducts only") {
  Label label = demo_label("fenmist-rtu");
  label.duct_materials.clear();
  CHECK(may_fog_material(label, DuctMaterial::bare_metal).has_value());
  CHECK(may_fog_material(label, DuctMaterial::flexible).has_value());
  CHECK(may_fog_material(label, DuctMaterial::duct_board).error().code == ErrorCode::label_forbids);
  CHECK(may_fog_material(label, DuctMaterial::lined).error().code == ErrorCode::label_forbids);
}

TEST_CASE("a label that names materials is good for those") {
  Label label = demo_label("fenmist-rtu");
  label.duct_materials = {DuctMaterial::bare_metal, DuctMaterial::lined};
  CHECK(may_fog_material(label, DuctMaterial::bare_metal).has_value());
  CHECK(may_fog_material(label, DuctMaterial::lined).has_value());
  CHECK_FALSE(may_fog_material(label, DuctMaterial::duct_board).has_value());
  const auto flexible = may_fog_material(label, DuctMaterial::flexible);
  REQUIRE_FALSE(flexible);
  CHECK(flexible.error().message == "the label of Fenmist RTU does not name flexible duct as a surface");
}

TEST_CASE("names as they are shown") {
  CHECK(signal_word_name(SignalWord::danger) == "DANGER");
  CHECK(signal_word_name(SignalWord::none).empty());
  CHECK(strength_name(StrengthClass::high_strength_oxidiser) == "high-strength-oxidiser");
  CHECK(strength_name(StrengthClass::ready_to_use) == "ready-to-use");
  CHECK(duct_material_name(DuctMaterial::duct_board) == "duct board");
  CHECK(facepiece_name(Facepiece::half_mask) == "half mask");
}
