// SPDX-License-Identifier: Apache-2.0
#include <algorithm>

#include "fogwright/gate.hpp"
#include "gate/cartridge.hpp"

namespace fogwright {

namespace {

using Ground = RespiratorNeed::Ground;

/// Written so that a ratio that is not a number counts as high.
bool within(double ratio, double bound) { return ratio <= bound; }

double worst_ratio(const AirResult& air) {
  double worst = air.mixture_index;
  for (const ActiveAir& active : air.actives)
    if (!within(active.hazard_ratio, worst)) worst = active.hazard_ratio;
  return worst;
}

/// The least facepiece for gas and vapour whose assigned protection factor covers the ratio. A filtering
/// facepiece holds back no vapour.
Facepiece facepiece_for(double ratio) {
  if (within(ratio, 1)) return Facepiece::none;
  for (const Facepiece rung : {Facepiece::half_mask, Facepiece::full_facepiece, Facepiece::powered})
    if (within(ratio, protection_factor(rung))) return rung;
  return Facepiece::self_contained;
}

void raise(RespiratorNeed& need, Facepiece least, Ground ground) {
  if (least <= need.facepiece) return;
  need.facepiece = least;
  need.ground = ground;
}

bool takes_cartridges(Facepiece facepiece) {
  return facepiece >= Facepiece::half_mask && facepiece <= Facepiece::powered;
}

void add_once(std::vector<std::string_view>& list, std::string_view words) {
  if (std::find(list.begin(), list.end(), words) == list.end()) list.push_back(words);
}

/// With room for what else covers the actives, and a filter.
std::vector<std::string_view> label_cartridges(const Label& label, std::size_t actives) {
  const auto& applying = label.applying_gear.cartridges;
  const auto& mixing = label.mixing_gear.cartridges;
  std::vector<std::string_view> words;
  words.reserve(applying.size() + mixing.size() + actives + 1);
  words.assign(applying.begin(), applying.end());
  for (const std::string& more : mixing) add_once(words, more);
  return words;
}

/// Above a limit by itself or together with the others, or nobody can tell.
bool exceeds(const ActiveAir& active, const AirResult& air) {
  return !active.estimable || !within(active.hazard_ratio, 1) || !within(air.mixture_index, 1);
}

struct Least {
  std::string_view cas;
  Facepiece facepiece;
};
/// Where the NIOSH Pocket Guide recommends no lesser one above the limit, whatever the ratio: 2-propanol and
/// acetic acid (the latter from memory) irritate the eyes, formaldehyde is treated as a carcinogen.
constexpr Least least_published[] = {{"67-63-0", Facepiece::full_facepiece},
                                     {"64-19-7", Facepiece::full_facepiece},
                                     {"50-00-0", Facepiece::self_contained}};

Facepiece least_for(const Substance* substance) {
  if (!substance) return Facepiece::none;
  const auto* least = std::find_if(std::begin(least_published), std::end(least_published),
                                   [&](const Least& l) { return l.cas == substance->cas; });
  return least == std::end(least_published) ? Facepiece::none : least->facepiece;
}

/// Adds what this active needs, or raises to supplied air where no cartridge is known to hold it back. Where
/// the published advice is supplied air only, the label's own cartridges do not outweigh it above a limit.
void cover(RespiratorNeed& need, const ActiveAir& active, const AirResult& air, bool label_names_gas,
           bool high) {
  const auto advice = active.substance ? active.substance->advice : CartridgeAdvice::none_published;
  const bool over = exceeds(active, air);
  if (advice == CartridgeAdvice::published) {
    if (!label_names_gas) add_once(need.cartridges, active.substance->cartridge);
  } else if (label_names_gas ? over && advice == CartridgeAdvice::supplied_air_only : over || high) {
    raise(need, Facepiece::supplied_air, Ground::hazard_ratio);
  }
}

/// Where a respirator against vapour is worn at all; a mild product's label that asks for none stands.
void raise_to_published(RespiratorNeed& need, const AirResult& air) {
  if (need.facepiece < Facepiece::half_mask) return;
  for (const ActiveAir& active : air.actives)
    if (exceeds(active, air)) raise(need, least_for(active.substance), Ground::hazard_ratio);
}

void choose_cartridges(RespiratorNeed& need, const Label& label, const AirResult& air) {
  if (need.facepiece == Facepiece::none || need.facepiece >= Facepiece::supplied_air) return;
  need.cartridges = label_cartridges(label, air.actives.size());
  Coverage covered;
  for (const std::string_view words : need.cartridges) covered.add(words);
  if (takes_cartridges(need.facepiece)) {
    const bool label_names_gas = covered.gas();
    const bool high = label.strength == StrengthClass::high_strength_oxidiser;
    const std::size_t of_label = need.cartridges.size();
    for (const ActiveAir& active : air.actives) cover(need, active, air, label_names_gas, high);
    for (std::size_t i = of_label; i < need.cartridges.size(); ++i) covered.add(need.cartridges[i]);
    if (need.facepiece >= Facepiece::supplied_air) return need.cartridges.clear();
    if (!covered.particulates()) covered.add(need.cartridges.emplace_back(best_filter));
  }
  need.gas_cartridges = covered.gas();
  need.band_colour = covered.colour();
}

Ground reason_not_to_enter(const Label& label, const AirResult& air, double ratio) {
  if (air.above_immediately_dangerous) return Ground::immediately_dangerous;
  if (label.strength == StrengthClass::high_strength_oxidiser && !air.estimable) return Ground::not_estimable;
  return within(ratio, protection_factor(Facepiece::self_contained)) ? Ground::none : Ground::hazard_ratio;
}

}  // namespace

RespiratorNeed respirator_need(const Label& label, const AirResult& air) {
  const bool high = label.strength == StrengthClass::high_strength_oxidiser;
  const auto to_mix = label.mixing_gear.respirator.value_or(Facepiece::none);
  const auto to_apply = label.applying_gear.respirator.value_or(Facepiece::none);
  const double ratio = worst_ratio(air);
  const Ground forbidden = reason_not_to_enter(label, air, ratio);

  RespiratorNeed need;
  raise(need, std::max(to_mix, to_apply), Ground::label);
  if (high) raise(need, Facepiece::half_mask, Ground::common_practice);
  raise(need, facepiece_for(ratio), Ground::hazard_ratio);
  if (forbidden != Ground::none) {
    need.do_not_enter = true;
    need.facepiece = Facepiece::self_contained;  // 29 CFR 1910.134(d)(2)(i)
    need.ground = forbidden;
  }
  raise_to_published(need, air);
  choose_cartridges(need, label, air);
  need.required = need.facepiece != Facepiece::none;
  need.assigned_protection_factor = protection_factor(need.facepiece);
  need.for_mixing = high || to_mix != Facepiece::none;
  need.for_applying =
      high || to_apply != Facepiece::none || need.do_not_enter || facepiece_for(ratio) != Facepiece::none;
  return need;
}

}  // namespace fogwright
