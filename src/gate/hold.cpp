// SPDX-License-Identifier: Apache-2.0
#include <algorithm>

#include "fogwright/gate.hpp"

namespace fogwright {

namespace {

/// Longer holds count as endless; what is not a number does too.
constexpr std::int64_t endless_minutes = 10LL * 365 * 24 * 60;

std::int64_t whole_minutes(HoldTime time) {
  const bool countable = time.value_in(unit::minute) < static_cast<double>(endless_minutes);
  return countable ? std::max<std::int64_t>(0, time.ceil_in(unit::minute)) : endless_minutes;
}

/// The shipped default is the least; an owner may only raise it.
std::int64_t policy_minutes(const Label& label, const Policy& policy) {
  const Policy shipped;
  return label.strength == StrengthClass::high_strength_oxidiser
             ? std::max(whole_minutes(policy.least_hold_high_strength),
                        whole_minutes(shipped.least_hold_high_strength))
             : std::max(whole_minutes(policy.least_hold_other), whole_minutes(shipped.least_hold_other));
}

void ask_the_model(Hold& hold, const Label& label, const AirResult& air) {
  const std::int64_t minutes = whole_minutes(air.model_time);
  hold.model_never_clears = minutes == endless_minutes;
  // What could be estimated still lengthens the hold where another active could not.
  if (!hold.model_never_clears && (air.estimable || minutes > 0)) hold.model_minutes = minutes;
  hold.readings_needed =
      hold.model_never_clears || (!air.estimable && label.strength == StrengthClass::high_strength_oxidiser);
}

void take(Hold& hold, std::int64_t minutes, HoldGround ground) {
  if (minutes <= hold.total_minutes) return;
  hold.total_minutes = minutes;
  hold.governs = ground;
}

}  // namespace

std::string_view hold_ground_name(HoldGround ground) noexcept {
  switch (ground) {
    case HoldGround::label:
      return "label";
    case HoldGround::policy:
      return "policy";
    case HoldGround::model:
      return "model";
    case HoldGround::haze:
      return "haze";
  }
  return "label";
}

Hold hold_for(const Label& label, const AirResult& air, const Policy& policy) {
  Hold hold;
  if (label.empty_time) hold.label_minutes = whole_minutes(*label.empty_time);
  hold.policy_minutes = policy_minutes(label, policy);
  hold.haze_minutes = whole_minutes(air.haze.longer());
  ask_the_model(hold, label, air);
  hold.governs = hold.label_minutes ? HoldGround::label : HoldGround::policy;
  take(hold, hold.label_minutes.value_or(0), HoldGround::label);
  take(hold, hold.policy_minutes, HoldGround::policy);
  take(hold, hold.model_minutes.value_or(0), HoldGround::model);
  take(hold, hold.haze_minutes, HoldGround::haze);
  hold.floor_minutes = std::max({hold.label_minutes.value_or(0), hold.policy_minutes, hold.haze_minutes});
  return hold;
}

}  // namespace fogwright
