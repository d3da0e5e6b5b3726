// SPDX-License-Identifier: Apache-2.0
/// What the label allows.

#include <fmt/format.h>

#include <algorithm>

#include "fogwright/label.hpp"

namespace fogwright {
namespace {

template <class T>
bool holds(const std::vector<T>& list, T value) {
  return std::find(list.begin(), list.end(), value) != list.end();
}

}  // namespace

Result<void> may_fog_ducts(const Label& label) {
  constexpr auto hint =
      "use a product whose label names it: a use that the label does not name is unlawful "
      "(7 USC 136j(a)(2)(G))";
  if (!holds(label.use_sites, UseSite::hvac_ductwork))
    return fail(ErrorCode::label_forbids,
                fmt::format("the label of {} does not list HVAC ductwork as a use site", label.name),
                "use_sites", hint);
  if (!holds(label.methods, Method::fogging))
    return fail(ErrorCode::label_forbids,
                fmt::format("the label of {} does not list fogging as a method", label.name), "methods", hint);
  if (label.strength == StrengthClass::high_strength_oxidiser && !label.empty_time)
    return fail(
        ErrorCode::label_incomplete,
        fmt::format("{} is a high-strength oxidiser, and its profile gives no time to keep the building empty",
                    label.name),
        "reentry.empty_time", "record the time and its source from the label or data sheet in [reentry]");
  return {};
}

Result<void> may_fog_material(const Label& label, DuctMaterial material) {
  const bool must_be_named = material == DuctMaterial::duct_board || material == DuctMaterial::lined;
  if (holds(label.duct_materials, material) || (label.duct_materials.empty() && !must_be_named)) return {};
  return fail(
      ErrorCode::label_forbids,
      fmt::format("the label of {} does not name {} as a surface", label.name, duct_material_name(material)),
      "duct_materials",
      must_be_named ? "leave these ducts out: EPA-402-K-97-002 knew of no product registered for them"
                    : "leave these ducts out, or use a product whose label names them");
}

}  // namespace fogwright
