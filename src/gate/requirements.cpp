// SPDX-License-Identifier: Apache-2.0
#include "gate/rules.hpp"

namespace fogwright {

namespace {

/// The conditions that hold, one bit each.
class Conditions {
 public:
  void set(When when, bool holds) { bits_ |= std::uint64_t{holds} << static_cast<unsigned>(when); }
  [[nodiscard]] bool holds(When when) const { return (bits_ >> static_cast<unsigned>(when) & 1U) != 0; }

 private:
  std::uint64_t bits_ = 0;
};
static_assert(when_count <= 64);

bool is_high(const Label& label) { return label.strength == StrengthClass::high_strength_oxidiser; }

void of_the_label(Conditions& c, const Label& label) {
  const bool high = is_high(label);
  const bool mixed = label.strength == StrengthClass::dilutable || !label.mixing.empty();
  const bool range = label.storage.low || label.storage.high;
  const bool airing = label.ventilation_air_changes || !label.ventilation.empty();
  c.set(When::always, true);
  c.set(When::oxidiser, high || label.oxidiser);
  c.set(When::corrosive,
        high || label.signal_word == SignalWord::danger || label.transport.hazard_class == "8");
  c.set(When::mixed, mixed);
  c.set(When::mixing_table, !label.mixing.empty());
  c.set(When::mix_life, label.shelf_life.mixed.has_value());
  c.set(When::storage_stated, range);
  c.set(When::storage_silent, !range);
  c.set(When::mixing_gear, !label.mixing_gear.items.empty());
  c.set(When::applying_gear, !label.applying_gear.items.empty());
  c.set(When::ventilation_stated, airing);
  c.set(When::ventilation_silent, !airing);
}

void of_the_respirator(Conditions& c, const RespiratorNeed& need, const Label& label) {
  const bool asked_to_mix = label.mixing_gear.respirator.value_or(Facepiece::none) != Facepiece::none;
  c.set(When::respirator, need.required);
  c.set(When::respirator_to_mix_by_label, need.for_mixing && asked_to_mix);
  c.set(When::respirator_to_mix_by_practice, need.for_mixing && !asked_to_mix);
  c.set(When::respirator_to_mix, need.for_mixing);
  c.set(When::respirator_to_fog, need.for_applying);
  c.set(When::cartridges, !need.cartridges.empty());
  c.set(When::gas_cartridges, need.gas_cartridges);
  c.set(When::supplied_air, need.facepiece >= Facepiece::supplied_air);
  c.set(When::do_not_enter, need.do_not_enter);
  c.set(When::may_enter_high_strength, is_high(label) && !need.do_not_enter);
}

/// Whether the hold would last longer without this airing.
bool shortens(const std::optional<PlannedAiring>& airing, const Hold& hold) {
  return airing && airing->changes > AirChanges{} && !hold.readings_needed &&
         hold.total_minutes > airing->from.floor_in(unit::minute);
}

void of_the_site(Conditions& c, const GateFacts& facts) {
  const Hold& hold = facts.hold;
  c.set(When::vacated, facts.label.everyone_out || hold.total_minutes > 0 || hold.readings_needed ||
                           facts.respirator.do_not_enter || is_high(facts.label));
  c.set(When::licence_asked, facts.site.licence_asked);
  c.set(When::animals, facts.site.animals);
  c.set(When::sensitive_person, facts.site.sensitive_person);
  c.set(When::flammable, facts.air.flammable.present);
  c.set(When::airing_planned, shortens(facts.air.airing, hold));
  c.set(When::hold, hold.floor_minutes > 0);
  c.set(When::model_outlasts_floor,
        !hold.readings_needed && hold.model_minutes.value_or(0) > hold.floor_minutes);
  c.set(When::readings_needed, hold.readings_needed);
}

Conditions conditions_of(const GateFacts& facts) {
  Conditions c;
  of_the_label(c, facts.label);
  of_the_respirator(c, facts.respirator, facts.label);
  of_the_site(c, facts);
  return c;
}

std::string cfm_words(AirFlow flow) {
  return flow.is_finite() ? std::to_string(flow.ceil_in(unit::cubic_foot_per_minute)) : "more than any fan's";
}

/// More airing than was reckoned with, and earlier, does no harm.
std::string airing_words(const PlannedAiring& airing) {
  const std::int64_t tenths = (airing.changes * 10).ceil_in(unit::per_hour);
  return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + " /h, " +
         std::to_string(airing.from.floor_in(unit::minute)) + " min";
}

/// fmt::join would cost the pages two kilobytes.
template <class Words>
std::string joined(const Words& words, std::string_view between) {
  std::string all;
  for (const std::string_view word : words) {
    if (!all.empty()) all += between;
    all += word;
  }
  return all;
}

std::string fill(Fill what, const GateFacts& facts) {
  switch (what) {
    case Fill::nothing:
      return {};
    case Fill::registration:
      return facts.label.registration.empty() ? facts.label.name : facts.label.registration;
    case Fill::entrances:
      return std::to_string(facts.site.entrances);
    case Fill::mixing_gear:
      return joined(facts.label.mixing_gear.items, ", ");
    case Fill::applying_gear:
      return joined(facts.label.applying_gear.items, ", ");
    case Fill::facepiece:
      return std::string(respirator_words(facts.respirator.facepiece));
    case Fill::cartridges:
      return joined(facts.respirator.cartridges, " and ");
    case Fill::mix_life_minutes:
      return std::to_string(facts.label.shelf_life.mixed.value_or(ShelfTime{}).floor_in(unit::minute));
    case Fill::least_airflow_cfm:
      return cfm_words(facts.air.flammable.least_airflow);
    case Fill::planned_airing:
      return airing_words(*facts.air.airing);
    case Fill::floor_minutes:
      return std::to_string(facts.hold.floor_minutes);
    case Fill::model_minutes:
      return std::to_string(facts.hold.model_minutes.value_or(0));
  }
  return {};
}

}  // namespace

std::string requirement_words(const Requirement& requirement) {
  std::string words(requirement.rule->words);
  if (const auto at = words.find("{}"); at != std::string::npos) words.replace(at, 2, requirement.value);
  return words;
}

std::vector<const Rule*> rules_for(const GateFacts& facts) {
  const Conditions conditions = conditions_of(facts);
  const auto rows = gate_rows();
  const auto rules = all_rules();
  std::vector<const Rule*> needed(rows.size());
  auto end = needed.begin();
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (conditions.holds(rows[i].when)) *end++ = &rules[i];
  needed.erase(end, needed.end());
  return needed;
}

Requirement requirement(const Rule& rule, const GateFacts& facts) {
  const auto row = static_cast<std::size_t>(&rule - all_rules().data());
  return {&rule, fill(gate_rows()[row].fill, facts)};
}

}  // namespace fogwright
