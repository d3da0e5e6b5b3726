// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <optional>
#include <tuple>

#include "fogwright/gate.hpp"

namespace fogwright {

namespace {

constexpr std::int64_t minute_ms = 60'000;

bool passed(std::int64_t minutes, std::int64_t ms) { return ms >= 0 && ms / minute_ms >= minutes; }

std::int64_t floor_of(const Hold& hold) {
  return std::max({hold.floor_minutes, hold.label_minutes.value_or(0), hold.policy_minutes, hold.haze_minutes});
}

/// Written so that what is not a number counts as above.
bool within(const Reading& reading, const ReleaseLimit& limit) {
  return reading.value >= MassConcentration{} && reading.value <= limit.value;
}

double share_of_limit(const Reading& reading, const ReleaseLimit& limit) {
  return reading.value > MassConcentration{} ? reading.value / limit.value : 0;
}

using Readings = std::vector<Reading>;

/// The worse reading later where two bear the same time.
Readings in_order(std::span<const Reading> readings) {
  Readings sorted(readings.begin(), readings.end());
  const auto key = [](const Reading& r) { return std::tuple(r.at_ms, r.value.si(), !r.fan_running); };
  std::sort(sorted.begin(), sorted.end(), [&](const Reading& a, const Reading& b) { return key(a) < key(b); });
  return sorted;
}

Readings readings_of(const Readings& all, std::string_view cas) {
  Readings own;
  std::copy_if(all.begin(), all.end(), std::back_inserter(own), [&](const Reading& r) { return r.cas == cas; });
  return own;
}

/// The last reading of a pair that shows the air is clear of this substance. What was recorded before one above
/// the limit was recorded shows nothing, whatever the clocks say.
std::optional<Reading> clear_reading(const Readings& own, const ReleaseLimit& limit, std::int64_t floor) {
  std::int64_t last_above = std::numeric_limits<std::int64_t>::min();
  for (const Reading& reading : own)
    if (!within(reading, limit)) last_above = std::max(last_above, reading.order);
  std::optional<Reading> last;
  for (auto reading = own.rbegin(); reading != own.rend(); ++reading) {
    if (!within(*reading, limit) || reading->order < last_above) return std::nullopt;
    if (!reading->fan_running) continue;                      // it may miss what the ducts hold
    if (!passed(floor, reading->at_ms)) return std::nullopt;  // it may be before the peak
    if (!last) last = *reading;
    if (reading->value < last->value) return std::nullopt;
    if (last->at_ms - reading->at_ms >= reading_gap_ms) return last;
  }
  return std::nullopt;
}

std::string mg(MassConcentration value) {
  return fmt::format("{:.6g} mg/m3", value.value_in(unit::milligram_per_cubic_metre));
}

tl::unexpected<Error> still_running(std::string message, std::string hint) {
  return fail(ErrorCode::hold_running, std::move(message), "release", std::move(hint));
}

Result<void> floor_over(std::int64_t floor, std::int64_t now_ms) {
  if (passed(floor, now_ms)) return {};
  const std::int64_t left = floor - std::max<std::int64_t>(0, now_ms / minute_ms);
  return still_running(
      fmt::format("the hold runs for {} min more: {} min after fog-off must pass in full", left, floor),
      "keep everyone out; readings cannot shorten this part");
}

/// A reading above the limit stands until one within it, taken with the fan running, follows it both by the
/// clock and in the record: with the fan off a reading may miss what the ducts hold, and a clock can be set.
const Reading* standing_above(const Readings& own, const ReleaseLimit& limit) {
  for (auto above = own.begin(); above != own.end(); ++above) {
    if (within(*above, limit)) continue;
    const bool answered = std::any_of(above, own.end(), [&](const Reading& later) {
      return within(later, limit) && later.fan_running && later.order >= above->order;
    });
    if (!answered) return &*above;
  }
  return nullptr;
}

/// Whatever was read last must not speak against the release, even after the modelled time.
Result<void> nothing_against(const Readings& all, std::span<const ReleaseLimit> limits, std::int64_t now_ms) {
  for (const Reading& reading : all) {
    if (reading.at_ms > now_ms)
      return still_running(fmt::format("a reading of {} is dated after now", reading.cas), "check the clock");
    const bool known =
        std::any_of(limits.begin(), limits.end(), [&](const ReleaseLimit& l) { return l.cas == reading.cas; });
    if (!known && standing_above(readings_of(all, reading.cas), {reading.cas, {}}))
      return still_running(
          fmt::format("{} was read, and no limit of it is known", reading.cas),
          "air out with the fan running until none of it is found, and write down a reading of 0");
  }
  for (const ReleaseLimit& limit : limits) {
    const Readings own = readings_of(all, limit.cas);
    if (const Reading* above = standing_above(own, limit))
      return still_running(
          fmt::format(
              "a reading of {} was {}, above the limit of {}, and none since with the fan running is within it",
              limit.cas, mg(above->value), mg(limit.value)),
          "air out with the fan running, and read again");
  }
  return {};
}

std::string model_end(const Hold& hold) {
  return hold.readings_needed || !hold.model_minutes
             ? std::string("only readings can release this building")
             : fmt::format("or wait until {} min after fog-off", *hold.model_minutes);
}

Result<void> readings_clear(const Hold& hold, const Readings& all, std::span<const ReleaseLimit> limits) {
  if (limits.empty())
    return still_running("no limit is known that a reading could be held against; " + model_end(hold),
                         "enter the limits of what the product gives off");
  double together = 0;
  for (const ReleaseLimit& limit : limits) {
    const auto clear = clear_reading(readings_of(all, limit.cas), limit, floor_of(hold));
    if (!clear)
      return still_running(
          fmt::format(
              "{} lacks two readings at or below {}, at least 15 min apart, the last not above the first, "
              "with the fan running, both at least {} min after fog-off; {}",
              limit.cas, mg(limit.value), floor_of(hold), model_end(hold)),
          "air out with the fan running, and read again");
    together += share_of_limit(*clear, limit);
  }
  if (together <= 1) return {};
  return still_running(fmt::format("the substances together are at {:.2f} of their limits, above 1", together),
                       "air out with the fan running, and read again");
}

}  // namespace

std::vector<ReleaseLimit> release_limits(const AirResult& air) {
  std::vector<ReleaseLimit> limits;
  for (const ActiveAir& active : air.actives) {
    std::string_view cas = active.active ? std::string_view(active.active->cas) : std::string_view{};
    if (active.active && active.active->released_cas) cas = *active.active->released_cas;
    if (active.substance) cas = active.substance->cas;
    const MassConcentration value = active.occupant.value_or(MassConcentration{});
    const auto known =
        std::find_if(limits.begin(), limits.end(), [&](const ReleaseLimit& l) { return l.cas == cas; });
    if (known == limits.end())
      limits.push_back({cas, value});
    else
      known->value = std::min(known->value, value);
  }
  return limits;
}

Result<void> release_ready(const Hold& hold, std::span<const ReleaseLimit> limits, std::int64_t now_ms,
                           std::span<const Reading> readings) {
  if (auto over = floor_over(floor_of(hold), now_ms); !over) return over;
  const Readings all = in_order(readings);
  if (auto fine = nothing_against(all, limits, now_ms); !fine) return fine;
  if (!hold.readings_needed && passed(hold.model_minutes.value_or(0), now_ms)) return {};
  return readings_clear(hold, all, limits);
}

}  // namespace fogwright
