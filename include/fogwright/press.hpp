// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Papers and charts filled from a book. Figures come out as they shall be read, rounded to the safe side, in
/// the units and the language of the paper; times are those of the job's place. Read only.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "fogwright/audit/audit.hpp"
#include "fogwright/desk/firm.hpp"
#include "fogwright/desk/job.hpp"
#include "fogwright/desk/replan.hpp"
#include "fogwright/paper.hpp"
#include "fogwright/store.hpp"

namespace fogwright::press {

/// A moment on the clocks of a place, rounded down to the minute. Precondition: the zone is known.
using LocalClock = std::function<paper::LocalTime(const std::string& zone, std::int64_t ms)>;

/// What papers are filled from: one view of a book, and how to say it.
struct Source {
  Store& store;
  const Documents& now;  ///< of the view
  Head head;             ///< of the view
  Moment moment;
  LocalClock clock;
  std::string zone;  ///< of papers that belong to no job
  UnitSystem units = UnitSystem::us_customary;
  paper::Language language = paper::Language::en;
  std::vector<paper::Contact> contacts = {};  ///< whom to call, in order
};

/// A recorded volume: "12.8 fl oz".
[[nodiscard]] std::string recorded_volume(std::int64_t ul, UnitSystem units,
                                          Rounding rounding = Rounding::nearest);
/// The firm's own contacts, then the national numbers where it says so.
[[nodiscard]] std::vector<paper::Contact> contacts_of(const Firm& firm, paper::Language language);

// --- Of one job. Errors common to all: not_found (the job; the text of its label). ---------------------------

/// Errors: wrong_state before the fog was out.
[[nodiscard]] Result<paper::LeaveBehind> leave_behind(const Source& source, const std::string& job);
/// Errors: wrong_state while no hold runs.
[[nodiscard]] Result<paper::DoorNotice> door_notice(const Source& source, const std::string& job);
/// In any state. Without the curve where the job cannot be planned again or the air holds no gas or vapour.
[[nodiscard]] Result<paper::JobRecord> job_record(const Source& source, const std::string& job);
/// The label that the job was planned with.
[[nodiscard]] Result<Label> label_of(const Source& source, const std::string& job);
/// Each gas or vapour in the air after fog-off, as planned, the one that lasts longest first. Errors: those of
/// replan; not_found where there is none whose strength the label tells.
[[nodiscard]] tl::expected<std::vector<paper::ConcentrationCurve>, Faults> concentration_curves(
    const Source& source, const std::string& job);

// --- Of the stock ------------------------------------------------------------------------------------------

/// "fogwright:container:C12", "fogwright:batch:M3": what the code on a label holds.
[[nodiscard]] std::string container_code(const std::string& id, bool batch);
/// Errors: not_found.
[[nodiscard]] Result<paper::ContainerLabel> container_label(const Source& source, const std::string& id);
/// Of everything that is not empty at a place.
[[nodiscard]] Result<std::vector<paper::ContainerLabel>> container_labels(const Source& source,
                                                                          const std::string& place);
/// An empty place means all.
[[nodiscard]] paper::InventoryReport inventory(const Source& source, const std::string& place);
/// What containers held at the end of each of the last days (UTC), at most `days`, since the first receipt.
/// Errors: not_found (nothing of that item was ever received).
[[nodiscard]] Result<paper::StockCurve> stock_curve(const Source& source, const std::string& item, int days);

/// What one job used, against its plan.
struct UsedLine {
  std::string job, technician, fogger, product;
  std::int64_t at_ms = 0;  ///< fog-off
  std::int64_t planned_ul = 0, used_ul = 0;
  double off_by_percent = 0;  ///< of what was planned; negative: less was used
};
struct UsedFilter {
  std::string technician, fogger, product;  ///< empty: all
};
/// Jobs whose use is known, in the order of their fog.
[[nodiscard]] std::vector<UsedLine> used_lines(const Source& source, const UsedFilter& filter);

// --- Of the audit ------------------------------------------------------------------------------------------

/// Departures by month (UTC), every month from the first to the last; "2026-03".
[[nodiscard]] std::vector<std::pair<std::string, int>> departures_by_month(const AuditAnswer& answer);
/// One page of summary and the list; departures in the words of the program.
[[nodiscard]] paper::AuditReport audit_report(const Source& source, const AuditAnswer& answer);

// --- Without a book -----------------------------------------------------------------------------------------

[[nodiscard]] paper::ProductFacts product_facts(const Label& label, paper::Language language);
[[nodiscard]] paper::MixingSheet mixing_facts(const Label& label, const MixingSheet& sheet, UnitSystem units,
                                              paper::Language language);

}  // namespace fogwright::press
