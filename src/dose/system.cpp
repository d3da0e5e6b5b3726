// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "dose/apportion.hpp"
#include "dose/naming.hpp"
#include "dose/weights.hpp"
#include "fogwright/dose.hpp"

namespace fogwright {
namespace {

constexpr FloorArea rate_area(1000, unit::square_foot);  // what a rate's seconds are for
constexpr FloorArea largest_usual_area(200'000, unit::square_foot);
constexpr std::size_t most_returns = 200;
constexpr double most_seconds = 1e9;

std::string figure(double value) { return show_number(value, 6); }

FogTime time_at(double rate, FloorArea area) { return {rate * (area / rate_area), unit::second}; }

Error area_error(const AirSystem& system, std::string problem, std::string hint) {
  return {ErrorCode::out_of_range, fmt::format("The floor area of {} is {}.", name_of(system), problem),
          fmt::format("{}: area", name_of(system)), std::move(hint)};
}

Result<void> check_area(const AirSystem& system, bool large) {
  constexpr auto measure = "Measure the conditioned floor area this system serves, in sq ft or m2.";
  const double area = system.area.value_in(unit::square_foot);
  if (!std::isfinite(area)) return tl::make_unexpected(area_error(system, "not a finite number", measure));
  if (area <= 0) return tl::make_unexpected(area_error(system, figure(area) + " sq ft", measure));
  if (!large && system.area > largest_usual_area)
    return tl::make_unexpected(area_error(system, figure(area) + " sq ft, more than 200,000 sq ft",
                                          "Check the figure. If one system really serves that much, allow it "
                                          "(--large)."));
  return {};
}

Result<void> check_returns(const AirSystem& system) {
  const std::size_t count = system.returns.size();
  if (count >= 1 && count <= most_returns) return {};
  return fail(
      ErrorCode::out_of_range,
      fmt::format("There are {} returns in {}; a plan takes 1 to {}.", count, name_of(system), most_returns),
      fmt::format("{}: returns", name_of(system)), "Count the return grilles of this system and list each.");
}

std::string words_of(const RateBand& band) {
  return fmt::format("{} to {} s per 1,000 sq ft", figure(band.low), figure(band.high));
}

Result<void> check_rate(const RateBand& band, const RateChoice& choice) {
  if (!(band.low > 0 && band.low <= band.high && std::isfinite(band.high)))
    return fail(ErrorCode::out_of_range, fmt::format("A band of {} cannot be followed.", words_of(band)),
                "rate band", "Correct the directed rate of the product profile: above zero, low before high.");
  if (choice.point != RateChoice::Point::exact || (choice.exact >= band.low && choice.exact <= band.high))
    return {};
  return fail(ErrorCode::rate_outside_band,
              fmt::format("A rate of {} s per 1,000 sq ft is outside the band of {} ({}).",
                          figure(choice.exact), words_of(band), basis_name(band.basis)),
              "rate",
              fmt::format("Give {} to {}, or low, middle or high.", figure(band.low), figure(band.high)));
}

// A label that directs one rate leaves no room: the whole second below it is taken, never more than directed.
Result<SecondsBand> whole_seconds(const AirSystem& system, const RateBand& rates) {
  const FogTime low = time_at(rates.low, system.area);
  const FogTime high = time_at(rates.high, system.area);
  if (!(high.si() <= most_seconds))
    return tl::make_unexpected(area_error(system, "so large that its seconds cannot be counted",
                                          "Check the area and the directed rate."));
  const std::int64_t most = high.floor_in(unit::second);
  const std::int64_t least = rates.low == rates.high ? most : low.ceil_in(unit::second);
  if (most >= 1 && least <= most) return SecondsBand{least, most};
  return tl::make_unexpected(area_error(
      system,
      fmt::format("{} sq ft, for which the band is {} to {} s: no whole second",
                  figure(system.area.value_in(unit::square_foot)), figure(low.si()), figure(high.si())),
      "Check the area, or plan these rooms as part of the system they belong to."));
}

std::int64_t target_of(const RateBand& rates, const RateChoice& choice, FloorArea area, SecondsBand band) {
  switch (choice.point) {
    case RateChoice::Point::low:
      return band.low;
    case RateChoice::Point::high:
      return band.high;
    case RateChoice::Point::middle:
      return std::clamp(time_at((rates.low + rates.high) / 2, area).floor_in(unit::second), band.low,
                        band.high);
    case RateChoice::Point::exact:
      break;
  }
  return std::clamp<std::int64_t>(std::llround(time_at(choice.exact, area).si()), band.low, band.high);
}

// The shares of a larger total may hold a smaller one (the Alabama paradox), by one second at most, since each
// share is the floor or the ceiling of its exact value. A return's band is widened by that second, so that it
// holds the target.
void split_seconds(SystemDose& dose, const std::vector<std::int64_t>& weights) {
  Apportioner apportioner(weights);
  std::vector<std::int64_t> shares(weights.size());
  const auto each = [&](std::int64_t total, auto&& assign) {
    apportioner.split(total, shares);
    for (std::size_t i = 0; i < shares.size(); ++i) assign(dose.returns[i], shares[i]);
  };
  each(dose.target_seconds, [](ReturnDose& r, std::int64_t share) { r.seconds = share; });
  each(dose.band.low, [](ReturnDose& r, std::int64_t share) { r.band.low = std::min(share, r.seconds); });
  each(dose.band.high, [](ReturnDose& r, std::int64_t share) { r.band.high = std::max(share, r.seconds); });
}

}  // namespace

std::string_view split_rule_name(SplitRule rule) noexcept {
  switch (rule) {
    case SplitRule::equal:
      return "equal";
    case SplitRule::face_area:
      return "face";
    case SplitRule::airflow:
      return "airflow";
  }
  return "equal";
}

RateBand rate_band(const Label& label) {
  if (!label.rate) return {};
  return {label.rate->low_s_per_1000_sqft, label.rate->high_s_per_1000_sqft, Basis::label};
}

Result<SystemDose> dose_system(const AirSystem& system, const RateBand& band, const RateChoice& choice,
                               SplitRule split, const DoseLimits& limits) {
  if (auto ok = check_area(system, limits.large); !ok) return tl::make_unexpected(std::move(ok.error()));
  if (auto ok = check_returns(system); !ok) return tl::make_unexpected(std::move(ok.error()));
  if (auto ok = check_rate(band, choice); !ok) return tl::make_unexpected(std::move(ok.error()));
  auto seconds = whole_seconds(system, band);
  if (!seconds) return tl::make_unexpected(std::move(seconds.error()));
  auto weights = split_weights(system, split);
  if (!weights) return tl::make_unexpected(std::move(weights.error()));

  SystemDose dose;
  dose.name = system.name;
  dose.area = system.area;
  dose.band = *seconds;
  dose.target_seconds = target_of(band, choice, system.area, *seconds);
  dose.returns.reserve(system.returns.size());
  for (const ReturnIntake& intake : system.returns) dose.returns.push_back({intake.name, 0, {}});
  split_seconds(dose, *weights);
  dose.short_share = std::any_of(dose.returns.begin(), dose.returns.end(), [&](const ReturnDose& r) {
    return r.seconds < limits.shortest_share_seconds;
  });
  return dose;
}

}  // namespace fogwright
