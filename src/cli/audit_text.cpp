// SPDX-License-Identifier: Apache-2.0
#include "cli/audit_text.hpp"

#include <fmt/format.h>
#include <algorithm>
#include <vector>

#include "desk/vessels.hpp"
#include "report/page.hpp"

namespace fogwright {
namespace {

Emphasis emphasis_of(Severity severity) {
  if (severity == Severity::grave) return Emphasis::alarm;
  return severity == Severity::major ? Emphasis::strong : Emphasis::plain;
}

std::string range_words(const AuditScope& scope) {
  const std::string from = scope.from_ms ? "from " + day_of(*scope.from_ms) : "";
  const std::string to = scope.to_ms ? "to " + day_of(*scope.to_ms - 1) : "";
  return from.empty() && to.empty() ? "the whole book"
                                    : fmt::format("{}{}{}", from, from.empty() || to.empty() ? "" : " ", to);
}

std::string scope_words(const AuditScope& scope) {
  std::string words = range_words(scope);
  for (const auto& [name, value] : {std::pair<const char*, const std::string&>{"person", scope.person},
                                    {"product", scope.product},
                                    {"van", scope.place},
                                    {"job", scope.job},
                                    {"rule", scope.rule}})
    if (!value.empty()) words += fmt::format(", {} {}", name, value);
  if (scope.least != Severity::note) words += fmt::format(", {} and worse", severity_name(scope.least));
  return words;
}

std::string severities_words(const AuditAnswer& answer) {
  std::string words;
  for (const Severity severity : {Severity::grave, Severity::major, Severity::minor, Severity::note})
    words += fmt::format("{}{} {}", words.empty() ? "" : ", ",
                         answer.by_severity[static_cast<std::size_t>(severity)], severity_name(severity));
  return words;
}

void record_field(const RecordCheck& record, Page& page) {
  if (!record.done)
    page.field("record", "not verified", Emphasis::strong);
  else if (record.findings.empty())
    page.field("record", "as it was written");
  else
    page.field("record", fmt::format("NOT as it was written: {} findings", record.findings.size()),
               Emphasis::alarm);
  page.list("checkpoints", record.checkpoints);
}

void summary(const AuditAnswer& answer, Page& page) {
  page.paragraph(fmt::format("Audit of {}", scope_words(answer.scope)), "", Emphasis::strong);
  page.field("entries", fmt::format("{}", answer.entries));
  record_field(answer.record, page);
  page.field("departures", answer.total() == 0 ? "none found" : severities_words(answer), Emphasis::strong);
}

std::string entries_words(const std::vector<std::int64_t>& entries) {
  if (entries.empty()) return "no entry: that is the proof";
  return fmt::format("{} {}", entries.size() == 1 ? "entry" : "entries", fmt::join(entries, ", "));
}

std::string where_words(const Departure& departure) {
  std::vector<std::string> parts = {day_of(departure.at_ms)};
  for (const std::string* one : {&departure.job, &departure.person, &departure.product, &departure.place})
    if (!one->empty()) parts.push_back(*one);
  parts.push_back(entries_words(departure.entries));
  return fmt::format("{}", fmt::join(parts, " · "));
}

/// Departures of one rule stand together: its words, citation and what to do are said once.
void one_rule(const DepartureRule& rule, const std::vector<const Departure*>& departures, Page& page) {
  page.blank();
  page.paragraph(fmt::format("{} ({})", rule.words, departures.size()), "  ", emphasis_of(rule.severity));
  for (const Departure* departure : departures) {
    page.paragraph(departure->what, "  - ");
    page.paragraph(where_words(*departure), "    ", Emphasis::quiet);
  }
  page.paragraph(fmt::format("{} [{}]", rule.id, source_words(rule.kind, rule.citation)), "    rule   ",
                 Emphasis::quiet);
  page.paragraph(rule.remedy, "    do     ");
}

void one_severity(const AuditAnswer& answer, Severity severity, Page& page) {
  const auto count = answer.by_severity[static_cast<std::size_t>(severity)];
  if (count == 0) return;
  page.heading(fmt::format("{} ({})", severity_name(severity), count));
  for (const auto& [rule, total] : answer.by_rule) {
    if (rule->severity != severity) continue;
    std::vector<const Departure*> own;
    for (const Departure& departure : answer.departures)
      if (departure.rule == rule) own.push_back(&departure);
    if (!own.empty()) one_rule(*rule, own, page);
  }
}

std::string chart_words(const AuditChart& chart) {
  if (!chart.limits.enough_points) return fmt::format("{} points: too few for limits (20)", chart.count);
  return fmt::format("{} points, centre {:+.1f} %, limits {:+.1f} to {:+.1f} %", chart.count,
                     chart.limits.centre, chart.limits.lower, chart.limits.upper);
}

void charts(const AuditAnswer& answer, Page& page) {
  if (answer.charts.empty()) return;
  page.heading("Used against planned, and counts");
  for (const AuditChart& chart : answer.charts)
    page.field(fmt::format("{}{}{}", chart_name(chart.of), chart.name.empty() ? "" : " ", chart.name),
               chart_words(chart));
}

}  // namespace

std::string source_words(Basis kind, std::string_view citation) {
  const std::string_view name = rule_kind_name(kind);
  return citation.starts_with(name) ? std::string(citation) : fmt::format("{}; {}", name, citation);
}

void tell_audit(const AuditAnswer& answer, Page& page) {
  summary(answer, page);
  for (const Severity severity : {Severity::grave, Severity::major, Severity::minor, Severity::note})
    one_severity(answer, severity, page);
  if (answer.left_out > 0) {
    page.blank();
    page.paragraph(fmt::format("{} more are counted and not listed: narrow the range, or give --limit 0.",
                               answer.left_out),
                   "", Emphasis::strong);
  }
  charts(answer, page);
  page.blank();
  page.paragraph("What the record can prove and what not: docs/audit.md.", "", Emphasis::quiet);
}

void tell_rules(Page& page) {
  for (const Severity severity : {Severity::grave, Severity::major, Severity::minor, Severity::note}) {
    page.heading(std::string(severity_name(severity)));
    for (const DepartureRule* rule : audit_rules()) {
      if (rule->severity != severity) continue;
      page.paragraph(fmt::format("{}: {}", rule->id, rule->words), "  ", emphasis_of(severity));
      page.paragraph(fmt::format("{} [{}]", rule->remedy, source_words(rule->kind, rule->citation)), "      ",
                     Emphasis::quiet);
    }
  }
}

}  // namespace fogwright
