// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>

#include "fogwright/desk/job.hpp"
#include "shop.hpp"

namespace desk_test {

/// A day at a fixed distance from UTC: enough for what the desk asks of a calendar.
[[nodiscard]] Calendar days_at(std::int64_t offset_ms);
inline const Calendar chicago = days_at(-6 * hour_ms);

/// A shop with a crew that has its papers, product on the van, and one job; a device whose clock and boot tests
/// set.
class JobWorld {
 public:
  /// "fenmist-rtu" (C1 on the van) or "brackwater-20" (A1 and B1 on the van, mixed to batch M1).
  explicit JobWorld(const std::string& product);

  [[nodiscard]] DeskContext context() const;
  [[nodiscard]] nlohmann::json job() const { return shop.document("job", "J1"); }
  [[nodiscard]] JobState state() const;
  [[nodiscard]] Moment moment() const { return {shop.now(), clock}; }

  void wait(std::int64_t ms);            ///< time passes
  void set_clock(std::int64_t by_ms);    ///< somebody sets the clock; no time passes
  void reboot(std::int64_t off_ms = 0);  ///< another boot, after so long

  void by(const std::string& handle) { shop.by(handle); }
  void met(const std::string& item, const std::string& answer);
  [[nodiscard]] std::string answer_of(const std::string& item) const;
  /// The items before mixing and before fogging, in order.
  [[nodiscard]] std::vector<std::string> items_before_start() const;
  void meet_all(Stage stage);
  void meet_before_start();
  void mix(const std::string& batch = "M1", bool respirator = true);
  void write(const Result<Decision>& decision);  ///< what was decided, refusal and all
  void start();
  void fog_all();
  void fog_off(std::int64_t left_ul = 207'000);
  /// Meets what may be met by now and is not yet.
  void meet_what_is_open(Stage stage);
  /// What release_job decides, written down: somebody has gone in first where the hold lets them.
  std::optional<Error> release();
  std::optional<Error> release_as_it_stands();
  void plan(double area = 2400);
  /// Done without the tool so long ago: three minutes of fog, and nothing else told.
  [[nodiscard]] LateRecord done_before(std::int64_t ago_ms) const;

  Shop shop;
  BootClock clock{"boot-1", 5 * hour_ms};
  std::string product;
};

}  // namespace desk_test
