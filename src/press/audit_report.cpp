// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "desk/vessels.hpp"
#include "press/parts.hpp"

namespace fogwright::press {

using paper::Word;

namespace {

/// The scope is of UTC days and ends before its last moment.
std::string range_words(const Source& source, const AuditScope& scope) {
  if (!scope.from_ms && !scope.to_ms) return word(source.language, Word::whole_record);
  const std::string from = scope.from_ms ? day_of(*scope.from_ms) : std::string("…");
  const std::string to = scope.to_ms ? day_of(*scope.to_ms - 1) : std::string("…");
  return word(source.language, Word::from_to, from, to);
}

/// What else was asked for: a person, a product, ...
std::string scope_words(const AuditScope& scope) {
  std::vector<std::string> words;
  for (const std::string* one : {&scope.person, &scope.product, &scope.place, &scope.job, &scope.rule})
    if (!one->empty()) words.push_back(*one);
  return fmt::format("{}", fmt::join(words, ", "));
}

std::string record_words(const Source& source, const RecordCheck& record) {
  if (!record.done) return word(source.language, Word::not_verified);
  if (record.findings.empty()) return word(source.language, Word::as_written);
  return word(source.language, Word::not_as_written, record.findings.size());
}

std::vector<paper::Fact> summary_of(const Source& source, const AuditAnswer& answer) {
  const auto say = [&](Word key) { return word(source.language, key); };
  std::vector<paper::Fact> facts;
  if (const std::string only = scope_words(answer.scope); !only.empty())
    facts.push_back({say(Word::only), only});
  facts.push_back({say(Word::entries), fmt::format("{}", answer.entries)});
  facts.push_back({say(Word::jobs_measured), fmt::format("{}", answer.jobs_measured)});
  facts.push_back({say(Word::record), record_words(source, answer.record)});
  if (!answer.record.checkpoints.empty())
    facts.push_back({say(Word::checkpoint), answer.record.checkpoints.back()});
  if (answer.left_out > 0) facts.push_back({say(Word::not_listed), fmt::format("{}", answer.left_out)});
  return facts;
}

std::string severity_words(const Source& source, Severity severity) {
  return translated(source.language, Word::severities, severity_name(severity));
}

std::string next_month(const std::string& month) {
  const int year = std::stoi(month.substr(0, 4));
  const int number = std::stoi(month.substr(5, 2));
  const int next = number % 12 + 1;
  return std::to_string(number == 12 ? year + 1 : year) + (next < 10 ? "-0" : "-") + std::to_string(next);
}

paper::AuditLine line_of(const Source& source, const Departure& departure) {
  paper::AuditLine line;
  line.severity = severity_words(source, departure.rule->severity);
  line.what = departure.what;
  line.job = departure.job;
  line.when = time_words(source.clock(source.zone, departure.at_ms), false);
  line.entries = fmt::format("{}", fmt::join(departure.entries, ", "));
  line.rule = departure.rule->id;
  line.citation = departure.rule->citation;
  line.what_to_do = departure.rule->remedy;
  return line;
}

}  // namespace

std::vector<std::pair<std::string, int>> departures_by_month(const AuditAnswer& answer) {
  std::vector<std::pair<std::string, int>> months;
  for (const auto& [month, count] : answer.by_month) {
    while (!months.empty() && next_month(months.back().first) < month)
      months.emplace_back(next_month(months.back().first), 0);
    months.emplace_back(month, static_cast<int>(count));
  }
  return months;
}

paper::AuditReport audit_report(const Source& source, const AuditAnswer& answer) {
  paper::AuditReport report;
  report.range = range_words(source, answer.scope);
  report.summary = summary_of(source, answer);
  for (const Severity severity : {Severity::grave, Severity::major, Severity::minor, Severity::note})
    report.by_severity.emplace_back(severity_words(source, severity),
                                    static_cast<int>(answer.by_severity[static_cast<std::size_t>(severity)]));
  report.by_month = departures_by_month(answer);
  for (const AuditChart& chart : answer.charts) {
    if (chart.of != AuditChart::Of::all_jobs) continue;
    for (const ChartPoint& point : chart.points) report.off_by_percent.push_back(point.off_percent);
    report.use_limits = chart.limits;
  }
  for (const Departure& departure : answer.departures) report.departures.push_back(line_of(source, departure));
  return report;
}

}  // namespace fogwright::press
