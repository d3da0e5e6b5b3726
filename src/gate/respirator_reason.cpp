// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "fogwright/gate.hpp"

namespace fogwright {

namespace {

/// Rounded up to one digit, so that what is shown is never less than what was reckoned.
std::string ratio_words(double ratio) {
  return std::isfinite(ratio) ? fmt::format("{:.1f}", std::ceil(ratio * 10 - 1e-9) / 10) : "more than any";
}

const ActiveAir* worst_active(const AirResult& air) {
  const auto worst =
      std::max_element(air.actives.begin(), air.actives.end(),
                       [](const ActiveAir& a, const ActiveAir& b) { return a.hazard_ratio < b.hazard_ratio; });
  return worst == air.actives.end() ? nullptr : &*worst;
}

std::string_view name_of(const ActiveAir* active) {
  if (active && active->substance) return active->substance->name;
  return active && active->active ? std::string_view(active->active->name) : "an active";
}

std::string names_where(const AirResult& air, bool (*picked)(const ActiveAir&)) {
  std::string names;
  for (const ActiveAir& active : air.actives)
    if (picked(active)) names.append(names.empty() ? "" : ", ").append(name_of(&active));
  return names.empty() ? "an active" : names;
}

std::string by_hazard(const RespiratorNeed& need, const AirResult& air) {
  const ActiveAir* worst = worst_active(air);
  const bool mixture = !worst || worst->hazard_ratio < air.mixture_index;
  const std::string peak =
      mixture
          ? fmt::format("The vapours together may reach {} times their limits", ratio_words(air.mixture_index))
          : fmt::format("{} may reach {} times its limit", name_of(worst), ratio_words(worst->hazard_ratio));
  if (need.do_not_enter) return peak + ", more than any respirator is assigned: do not enter.";
  return fmt::format("{}, and a {} is assigned a factor of {}.", peak, respirator_words(need.facepiece),
                     need.assigned_protection_factor);
}

std::string for_none(const AirResult& air) {
  return air.estimable ? "The label asks for none, and the reckoned air stays at or below the limits."
                       : "The label asks for none; what is in the air could not be estimated.";
}

}  // namespace

std::string respirator_reason(const RespiratorNeed& need, const Label& label, const AirResult& air) {
  switch (need.ground) {
    case RespiratorNeed::Ground::none:
      return for_none(air);
    case RespiratorNeed::Ground::label:
      return fmt::format("The label or data sheet of {} asks for a {}.", label.name,
                         respirator_words(need.facepiece));
    case RespiratorNeed::Ground::hazard_ratio:
      return by_hazard(need, air);
    case RespiratorNeed::Ground::immediately_dangerous:
      return fmt::format("{} may exceed the immediately dangerous level (29 CFR 1910.134(d)(2)): do not enter.",
                         names_where(air, [](const ActiveAir& a) { return a.above_immediately_dangerous; }));
    case RespiratorNeed::Ground::not_estimable:
      return fmt::format(
          "{} cannot be estimated, which counts as immediately dangerous (29 CFR 1910.134(d)(1)(iii)): do not "
          "enter.",
          names_where(air, [](const ActiveAir& a) { return !a.estimable; }));
    case RespiratorNeed::Ground::common_practice:
      return "A high-strength oxidiser is mixed and fogged in a respirator (common practice, no source).";
  }
  return {};
}

}  // namespace fogwright
