// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What is on the shelves and the vans: containers, batches, what may be used, what to order. Pure arithmetic
/// over whole microlitres; the book's fold and desk apply it. Times are UTC milliseconds since 1970, not
/// negative. docs/stock.md gives every rule and formula with its source.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/label.hpp"

namespace fogwright {

inline constexpr std::int64_t day_ms = 86'400'000;

/// One closed vessel of one lot.
struct Container {
  std::string id, product, label_digest, lot, place;
  std::int64_t size_ul = 0;
  std::int64_t remaining_ul = 0;  ///< never below zero
  std::int64_t received_ms = 0;
  std::optional<std::int64_t> opened_ms;
  std::string expires;  ///< ISO date: the last day it may be used
  std::optional<std::int64_t> cost_cents;
  bool disposed = false;
  friend bool operator==(const Container&, const Container&) = default;
};

/// What was mixed from containers.
struct Batch {
  std::string id, product, label_digest, place;
  std::int64_t made_ul = 0, remaining_ul = 0;
  std::int64_t mixed_ms = 0, usable_until_ms = 0;
  bool disposed = false;
  friend bool operator==(const Batch&, const Batch&) = default;
};

/// Taking from a vessel: what is left, and what was taken beyond what the books said was there.
struct Draw {
  std::int64_t remaining_ul = 0;
  std::int64_t over_ul = 0;
};
/// Never below zero: an over-draw is a fact to record, not an error. Precondition: neither is negative.
[[nodiscard]] Draw draw(std::int64_t remaining_ul, std::int64_t ul);

/// First moment at which a container may no longer be used: the end of its expiry day (UTC), the end of the
/// sealed life after it was received where the label states one (when it was made is not known), the end of the
/// opened life after opening; the earliest. An expiry that is no date of the calendar counts as long past: 0.
[[nodiscard]] std::int64_t usable_until_ms(const Container& container, const ShelfLife& life);
/// Whether that moment is still to come. False also for what was disposed of.
[[nodiscard]] bool usable_at(const Container& container, const ShelfLife& life, std::int64_t at_ms);

/// Containers (all of one product) in the order in which they should be used: first expired first out by
/// usable_until_ms; at the same moment opened before sealed, then first received, then id. Leaves out what is
/// empty, disposed or no longer usable at `at_ms`.
[[nodiscard]] std::vector<const Container*> first_expired_first_out(std::span<const Container> containers,
                                                                    const ShelfLife& life, std::int64_t at_ms);

/// From which containers to take a volume, in that order. Precondition: ul >= 0. Errors: stock_short, with what
/// there is and what is missing.
struct Take {
  std::string container;
  std::int64_t ul = 0;
};
[[nodiscard]] Result<std::vector<Take>> take_from(std::span<const Container> containers, const ShelfLife& life,
                                                  std::int64_t at_ms, std::int64_t ul);

/// Cost of a volume from a container, in cents, rounded up; nullopt where the container's cost or size is not
/// known. Precondition: ul >= 0.
[[nodiscard]] std::optional<std::int64_t> cost_of(const Container& container, std::int64_t ul);

// --- What to order ------------------------------------------------------------------------------------------

struct DailyDemand {
  double mean_ul = 0, deviation_ul = 0;
  int days = 0;
};
/// Mean and sample standard deviation of use per day (days without use count as zero). Errors: missing_value
/// with fewer than 7 days.
[[nodiscard]] Result<DailyDemand> daily_demand(std::span<const std::int64_t> used_ul_per_day);

struct ReorderRule {
  double lead_time_days = 7;
  double lead_time_deviation_days = 0;
  double service_z = 1.645;  ///< 5 % risk of running out during the lead time
};
/// d·L + z·sqrt(L·sd² + d²·sdL²), rounded up to the microlitre; the largest integer where that does not fit.
[[nodiscard]] std::int64_t reorder_point_ul(const DailyDemand& demand, const ReorderRule& rule);
/// Whole days that the stock lasts at mean demand, rounded down; nullopt where there is no demand.
[[nodiscard]] std::optional<std::int64_t> days_of_cover(std::int64_t on_hand_ul, const DailyDemand& demand);
/// Whole jobs left at a typical use per job, rounded down; nullopt where a job uses nothing.
[[nodiscard]] std::optional<std::int64_t> jobs_left(std::int64_t on_hand_ul, std::int64_t used_per_job_ul);

/// Simple exponential smoothing, S2 = y1; returns S2..Sn+1 (the last one is the forecast). Errors:
/// missing_value (< 2 points), out_of_range (alpha outside (0, 1]).
[[nodiscard]] Result<std::vector<double>> exponential_smoothing(std::span<const double> values, double alpha);

// --- Planned against used -----------------------------------------------------------------------------------

/// Individuals control chart (NIST/SEMATECH e-Handbook 6.3.2.2): mean ± 3·MR/1.128.
struct ControlChart {
  double centre = 0, mean_moving_range = 0, upper = 0, lower = 0;
  std::vector<std::size_t> outside;  ///< points beyond the limits; empty while there are too few points
  bool enough_points = false;        ///< at least 20: with fewer, show and do not flag
};
/// The limits, point by point: for more points than one wants to hold. `outside` stays empty.
class ChartLimits {
 public:
  void add(double value);
  [[nodiscard]] std::size_t count() const { return count_; }
  /// Precondition: at least two points.
  [[nodiscard]] ControlChart chart() const;

 private:
  std::size_t count_ = 0;
  double sum_ = 0, moving_ = 0, last_ = 0;
};
[[nodiscard]] bool beyond(const ControlChart& chart, double value);
/// Errors: missing_value with fewer than two points.
[[nodiscard]] Result<ControlChart> individuals_chart(std::span<const double> values);
/// Relative change of flow against an earlier test, -0.2 for a fifth less. Precondition: both are above zero.
[[nodiscard]] double flow_drift(double flow_now, double flow_then);
/// As for spray nozzles: one that is off by a tenth of what it should give is worn (docs/stock.md).
inline constexpr double large_drift = 0.10;

// --- On the road --------------------------------------------------------------------------------------------

/// One vessel on a van, as 49 CFR 173.6 looks at it.
struct Carried {
  std::string id;
  Transport transport;
  std::int64_t volume_ul = 0;  ///< capacity of the package; 0 for what is no liquid
  std::int64_t gross_mg = 0;   ///< with its packaging; estimated where not weighed; 0 is a finding
};
struct CarriageFinding {
  std::string what;      ///< one sentence
  std::string citation;  ///< "49 CFR 173.6(a)(1)(ii)"
  std::string package;   ///< empty: the whole vehicle
};
/// Empty when the load lies inside the materials-of-trade limits that are checked here: class, mass and
/// capacity of each package, poison by inhalation, mass of all. What is not regulated is left out; an unknown
/// packing group counts as I.
[[nodiscard]] std::vector<CarriageFinding> materials_of_trade(std::span<const Carried> load);

}  // namespace fogwright
