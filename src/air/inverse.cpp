// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "air/constants.hpp"
#include "air/release.hpp"
#include "air/vapour.hpp"
#include "air/zone.hpp"

namespace fogwright {

namespace {

Result<void> check_question(const Zone& zone, const AirInput& input, HoldTime deadline) {
  if (auto ok = air::check_input(zone, input); !ok) return ok;
  air::Ranges ranges;
  ranges.check("deadline", deadline.value_in(unit::minute), 0, air::longest_time.value_in(unit::minute),
               "min after fog-off");
  return ranges.result();
}

tl::unexpected<Error> not_estimable() {
  return fail(ErrorCode::label_incomplete,
              "the air cannot be estimated: the label hides a strength, or an active has no published limit",
              "label", "enter the strength from the data sheet and the missing limit with its source");
}

tl::unexpected<Error> cannot_air_out(HoldTime deadline) {
  return fail(ErrorCode::not_found,
              fmt::format("not even {} air changes an hour clear the air {:.0f} min after fogging",
                          air::most_air_changes.value_in(unit::per_hour), deadline.value_in(unit::minute)),
              "deadline", "choose a later deadline or a smaller dose");
}

/// What both releases leave from the deadline on, as a multiple of the occupant limits; the sum over the
/// actives.
double share_at_deadline(const Zone& zone, const AirInput& input, const AirResult& result, double hours) {
  const air::Ventilation ventilation = air::ventilation_of(zone, *input.label);
  double at_once = 0, off_gassing = 0;
  for (const ActiveAir& active : result.actives) {
    if (!active.to_occupant) continue;
    const air::BothReleases releases(
        ventilation, air::source_of(zone, *input.label, *active.active, active.peak / *active.occupant));
    at_once += releases.at_once.peak_from(hours);
    off_gassing += releases.off_gassing.peak_from(hours);
  }
  return std::max(at_once, off_gassing);
}

/// The volume, less what rounding asks for, so that the question asked forward really meets the deadline.
LiquidVolume meeting(const Zone& zone, AirInput input, HoldTime deadline, LiquidVolume exact) {
  input.volume = exact;
  for (double less = 1e-13; air::vapours(zone, input).model_time > deadline && less < 1; less *= 4)
    input.volume = exact * (1 - less);
  return input.volume;
}

}  // namespace

Result<AiringNeed> airing_for_deadline(const Zone& zone, const AirInput& input, HoldTime deadline) {
  if (auto ok = check_question(zone, input, deadline); !ok) return tl::make_unexpected(std::move(ok.error()));
  if (!air::vapours(zone, input).estimable) return not_estimable();
  if (deadline <= air::airing_start(zone, *input.label))
    return fail(ErrorCode::out_of_range, "the deadline is not after airing starts", "deadline",
                "airing starts when nobody has to stay out any more by label, policy and haze: choose a later "
                "deadline");
  const auto meets = [&](AirChanges airing) {
    Zone aired = zone;
    aired.airing = airing;
    return air::vapours(aired, input).model_time <= deadline;
  };
  AirChanges enough = air::most_air_changes, too_little{};
  if (!meets(enough)) return cannot_air_out(deadline);
  if (meets(too_little)) enough = too_little;
  while (enough - too_little > 1e-9 * enough) {
    const AirChanges middle = too_little + (enough - too_little) / 2;
    (meets(middle) ? enough : too_little) = middle;
  }
  return AiringNeed{enough, zone.gross * enough};
}

Result<LiquidVolume> volume_for_deadline(const Zone& zone, const AirInput& input, HoldTime deadline) {
  if (auto ok = check_question(zone, input, deadline); !ok) return tl::make_unexpected(std::move(ok.error()));
  if (!(input.volume.si() > 0))
    return fail(ErrorCode::out_of_range, "no volume is given to scale from", "volume",
                "give the planned volume");
  const AirResult result = air::vapours(zone, input);
  if (!result.estimable) return not_estimable();
  if (!result.to_mixture_occupant)
    return fail(ErrorCode::not_found,
                "no active of the label goes into the air as vapour, so the air sets no volume", "label",
                "the label's rate decides; look at the haze time");
  const double share = share_at_deadline(zone, input, result, deadline.value_in(unit::hour));
  if (share * air::most_liquid.si() <= input.volume.si()) return air::most_liquid;
  return meeting(zone, input, deadline, input.volume / share);
}

}  // namespace fogwright
