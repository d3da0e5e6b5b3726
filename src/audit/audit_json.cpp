// SPDX-License-Identifier: Apache-2.0
#include <nlohmann/json.hpp>

#include "fogwright/audit/audit.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

json rule_json(const DepartureRule& rule) {
  return {{"id", rule.id},
          {"severity", severity_name(rule.severity)},
          {"kind", rule_kind_name(rule.kind)},
          {"words", rule.words},
          {"citation", rule.citation},
          {"what_to_do", rule.remedy}};
}

/// Members that do not apply are left out.
json departure_json(const Departure& departure) {
  json one = {{"rule", departure.rule->id},
              {"severity", severity_name(departure.rule->severity)},
              {"kind", rule_kind_name(departure.rule->kind)},
              {"citation", departure.rule->citation},
              {"what_to_do", departure.rule->remedy},
              {"what", departure.what},
              {"entries", departure.entries},
              {"at_ms", departure.at_ms}};
  for (const auto& [name, value] : {std::pair<const char*, const std::string&>{"job", departure.job},
                                    {"person", departure.person},
                                    {"product", departure.product},
                                    {"place", departure.place}})
    if (!value.empty()) one[name] = value;
  return one;
}

json chart_json(const AuditChart& chart) {
  json points = json::array();
  for (const ChartPoint& point : chart.points)
    points.push_back(
        {{"seq", point.seq}, {"at_ms", point.at_ms}, {"of", point.of}, {"off_percent", point.off_percent}});
  return {{"of", chart_name(chart.of)},
          {"name", chart.name},
          {"count", chart.count},
          {"centre", chart.limits.centre},
          {"lower", chart.limits.lower},
          {"upper", chart.limits.upper},
          {"flagged", chart.limits.enough_points},
          {"points", points},
          {"outside", chart.limits.outside}};
}

json record_json(const RecordCheck& record) {
  json findings = json::array();
  for (const RecordFinding& finding : record.findings)
    findings.push_back({{"seq", finding.seq ? json(*finding.seq) : json(nullptr)}, {"what", finding.what}});
  return {{"verified", record.done}, {"findings", findings}, {"checkpoints", record.checkpoints}};
}

json severities_json(const AuditAnswer& answer) {
  json counts = json::object();
  for (std::size_t i = 0; i < answer.by_severity.size(); ++i)
    counts[std::string(severity_name(static_cast<Severity>(i)))] = answer.by_severity[i];
  return counts;
}

}  // namespace

nlohmann::json audit_json(const AuditAnswer& answer) {
  json months = json::array(), rules = json::array(), departures = json::array(), charts = json::array();
  for (const auto& [month, count] : answer.by_month) months.push_back({{"month", month}, {"count", count}});
  for (const auto& [rule, count] : answer.by_rule) rules.push_back({{"rule", rule->id}, {"count", count}});
  for (const Departure& departure : answer.departures) departures.push_back(departure_json(departure));
  for (const AuditChart& chart : answer.charts) charts.push_back(chart_json(chart));
  return {{"entries", answer.entries},
          {"record", record_json(answer.record)},
          {"jobs_measured", answer.jobs_measured},
          {"by_severity", severities_json(answer)},
          {"by_month", months},
          {"by_rule", rules},
          {"departures", departures},
          {"left_out", answer.left_out},
          {"charts", charts}};
}

nlohmann::json audit_rules_json() {
  json list = json::array();
  for (const DepartureRule* rule : audit_rules()) list.push_back(rule_json(*rule));
  return list;
}

}  // namespace fogwright
