// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <cmath>

#include "gate/cartridge.hpp"
#include "gate/rules.hpp"

namespace fogwright {

namespace {

struct Job {
  const Label& label;
  const RespiratorNeed& respirator;
  const Hold& hold;
  const AirResult& air;
  const SiteFacts& site;
};

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

void of_the_site(Conditions& c, const Job& job) {
  const Hold& hold = job.hold;
  c.set(When::vacated, job.label.everyone_out || hold.total_minutes > 0 || hold.readings_needed ||
                           job.respirator.do_not_enter || is_high(job.label));
  c.set(When::licence_asked, job.site.licence_asked);
  c.set(When::animals, job.site.animals);
  c.set(When::sensitive_person, job.site.sensitive_person);
  c.set(When::flammable, job.air.flammable.present);
  c.set(When::airing_planned, job.air.airing.has_value());
  c.set(When::hold, hold.floor_minutes > 0);
  c.set(When::model_outlasts_floor,
        !hold.readings_needed && hold.model_minutes.value_or(0) > hold.floor_minutes);
  c.set(When::readings_needed, hold.readings_needed);
}

Conditions conditions_of(const Job& job) {
  Conditions c;
  of_the_label(c, job.label);
  of_the_respirator(c, job.respirator, job.label);
  of_the_site(c, job);
  return c;
}

std::string cfm_words(AirFlow flow) {
  return flow.is_finite() ? std::to_string(flow.ceil_in(unit::cubic_foot_per_minute)) : "more than any fan's";
}

/// More airing than was reckoned with, and earlier, does no harm.
std::string airing_words(const PlannedAiring& airing) {
  const double tenths = std::ceil(airing.changes.value_in(unit::per_hour) * 10 - 1e-9);
  return fmt::format("{:g} /h, {} min", tenths / 10, airing.from.floor_in(unit::minute));
}

std::string fill(Fill what, const Job& job) {
  switch (what) {
    case Fill::nothing:
      return {};
    case Fill::registration:
      return job.label.registration.empty() ? job.label.name : job.label.registration;
    case Fill::entrances:
      return std::to_string(job.site.entrances);
    case Fill::mixing_gear:
      return joined(job.label.mixing_gear.items, ", ");
    case Fill::applying_gear:
      return joined(job.label.applying_gear.items, ", ");
    case Fill::facepiece:
      return std::string(respirator_words(job.respirator.facepiece));
    case Fill::cartridges:
      return joined(job.respirator.cartridges, " and ");
    case Fill::mix_life_minutes:
      return std::to_string(job.label.shelf_life.mixed.value_or(ShelfTime{}).floor_in(unit::minute));
    case Fill::least_airflow_cfm:
      return cfm_words(job.air.flammable.least_airflow);
    case Fill::planned_airing:
      return airing_words(*job.air.airing);
    case Fill::floor_minutes:
      return std::to_string(job.hold.floor_minutes);
    case Fill::model_minutes:
      return std::to_string(job.hold.model_minutes.value_or(0));
  }
  return {};
}

}  // namespace

std::string requirement_words(const Requirement& requirement) {
  std::string words(requirement.rule->words);
  if (const auto at = words.find("{}"); at != std::string::npos) words.replace(at, 2, requirement.value);
  return words;
}

std::vector<Requirement> requirements_for(const Label& label, const RespiratorNeed& respirator,
                                          const Hold& hold, const AirResult& air, const SiteFacts& site) {
  const Job job{label, respirator, hold, air, site};
  const Conditions conditions = conditions_of(job);
  const auto rows = gate_rows();
  const Rule* rules = all_rules().data();
  std::vector<Requirement> needed;
  needed.reserve(rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (conditions.holds(rows[i].when)) {
      Requirement& one = needed.emplace_back();
      one.rule = rules + i;
      if (rows[i].fill != Fill::nothing) one.value = fill(rows[i].fill, job);
    }
  return needed;
}

}  // namespace fogwright
