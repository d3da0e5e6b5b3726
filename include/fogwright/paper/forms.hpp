// SPDX-License-Identifier: Apache-2.0
#pragma once

/// The papers, each from a plain struct. Figures come in as they shall be read ("2,400 sq ft"): whoever fills
/// them in knows units and rounding, which goes to the safe side. Statements of a label are printed as they
/// stand on the label, in its own language, whole and in its order; no paper adds a promise of its own.

#include <optional>
#include <string>
#include <vector>

#include "fogwright/error.hpp"
#include "fogwright/paper/document.hpp"

namespace fogwright::paper {

/// What each paper is printed with.
struct Form {
  std::string firm;  ///< "Quillfen Duct Care"
  Language language = Language::en;
  PageSize size = PageSize::letter;
  std::string made;  ///< ISO 8601 with offset
};

/// Time of a place's own clocks. A hold's end comes in rounded up to the minute.
struct LocalTime {
  int year = 1970, month = 1, day = 1, hour = 0, minute = 0;
  std::string zone;  ///< "CST"
};

struct ProductFacts {
  std::string name, registration, signal_word;  ///< signal_word as the label prints it; may be empty
  std::vector<std::string> actives;             ///< "Chlorine dioxide (10049-04-4)"
  std::vector<std::string> precautions;         ///< in the label's words and order
  std::vector<std::string> first_aid;
};
struct Contact {
  std::string who, number;
};

/// For the customer, in plain words.
struct LeaveBehind {
  std::string customer, address;  ///< empty where they were erased
  std::string job;
  ProductFacts product;
  std::vector<std::string> where;  ///< "Main floor air system: 3 returns"
  LocalTime fogged;
  std::optional<LocalTime> allowed_in;  ///< nullopt: not released yet
  std::string released_by;
  std::vector<std::string> afterwards;  ///< of the label or data sheet: airing, food, surfaces
  std::vector<Contact> contacts;        ///< firm, poison center, emergency; in order
};
[[nodiscard]] Paper leave_behind(const LeaveBehind& facts, const Form& form);

/// For the door while the hold runs.
struct DoorNotice {
  std::string address, job;
  LocalTime hold_end;  ///< the earliest; release is a person's decision
  ProductFacts product;
  std::vector<Contact> contacts;
};
[[nodiscard]] Paper door_notice(const DoorNotice& facts, const Form& form);

struct MixingStepLine {
  std::string ingredient, amount, instruction, wait;  ///< wait may be empty
};
struct MixingSheet {
  ProductFacts product;
  std::string table, makes, use_within, ventilation;
  std::vector<std::string> gear;  ///< for mixing, with the respirator
  std::vector<MixingStepLine> steps;
  std::vector<std::string> disposal;
};
[[nodiscard]] Paper mixing_sheet(const MixingSheet& facts, const Form& form);

struct ReturnLine {
  std::string system, name, planned, actual;  ///< "52 s"
};
struct GateLine {
  std::string what, met_by, at, evidence, citation;
};
struct ReadingLine {
  std::string at, substance, value, fan;
};
/// Where the record can be checked: the checkpoint and the proof that the job's last entry is under it.
struct Proof {
  std::string checkpoint;    ///< a signed note, line by line
  std::string entry;         ///< "entry 1042 of 1050, leaf ..."
  std::string qr;            ///< what the code holds; empty: none
  bool holds_entry = false;  ///< the code holds the entry itself too
};
struct JobRecord {
  std::string job, state, customer, address, technician, van, fogger;
  ProductFacts product;
  std::string lots;                ///< "FM-2407, 1 gal"
  std::vector<Fact> plan, actual;  ///< area, volume, hold...; what was planned and what was done
  std::vector<ReturnLine> returns;
  std::vector<GateLine> gate;
  std::vector<ReadingLine> readings;
  std::vector<std::string> departures;  ///< one sentence each
  std::optional<ConcentrationCurve> curve;
  std::optional<Proof> proof;  ///< nullopt: no checkpoint covers the job yet, and the paper says so
};
/// Errors: those of make_qr.
[[nodiscard]] Result<Paper> job_record(const JobRecord& facts, const Form& form);

struct InventoryLine {
  std::string item, id, lot, place, opened, expires, left;
  bool usable = true;
};
struct OrderLine {
  std::string item, on_hand, cover, reorder_point, order;
};
struct InventoryReport {
  std::string as_of;
  std::vector<OrderLine> orders;
  std::vector<InventoryLine> vessels;
  std::vector<StockCurve> curves;
};
[[nodiscard]] Paper inventory_report(const InventoryReport& facts, const Form& form);

struct AuditLine {
  std::string severity;  ///< as it shall be read, in the paper's language
  std::string what, job, when, entries, rule, citation, what_to_do;
};
struct AuditReport {
  std::string range;                                     ///< "2026-01-01 to 2026-03-31"
  std::vector<Fact> summary;                             ///< jobs looked at, entries, checkpoint
  std::vector<std::pair<std::string, int>> by_severity;  ///< gravest first
  std::vector<std::pair<std::string, int>> by_month;     ///< "2026-01"
  std::vector<double> off_by_percent;                    ///< used less planned, job by job
  std::optional<ControlChart> use_limits;
  std::vector<AuditLine> departures;  ///< gravest first
};
/// One page of summary, then the list.
[[nodiscard]] Paper audit_report(const AuditReport& facts, const Form& form);

struct ContainerLabel {
  std::string id, item, lot, size, received, opened, expires, place;
  ProductFacts product;
  std::string qr;  ///< what the code holds
};
/// One label a page (PageSize::label, whatever the form says). It stands beside the maker's label, never in its
/// place, and says so. Errors: those of make_qr.
[[nodiscard]] Result<Paper> container_labels(const std::vector<ContainerLabel>& labels, const Form& form);

}  // namespace fogwright::paper
