// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <ostream>

#include "cli/audit_call.hpp"
#include "cli/audit_text.hpp"
#include "cli/book_keys.hpp"
#include "cli/desk_call.hpp"
#include "cli/desk_commands.hpp"
#include "cli/paper_call.hpp"
#include "cli/printing.hpp"
#include "cli/progress.hpp"
#include "office/audit_filters.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// The key that checkpoints are checked by; none where the book has no checkpoint and no key was named.
tl::expected<std::string, Faults> trusted_key(const Call& call, Store& store) {
  const auto key = load_vkey(call);
  if (key) return vkey_text(*key);
  if (call.options.has("vkey") || !store.checkpoints().empty()) return refuse(key.error());
  return std::string();
}

}  // namespace

tl::expected<AuditScope, Faults> read_audit_scope(const Call& call) {
  auto scope = read_audit_filters([&call](const char* name) { return call.options.text(name); }, "--");
  if (!scope) return refuse(scope.error());
  return std::move(*scope);
}

tl::expected<RecordCheck, Faults> check_record(const Call& call, Store& store) {
  RecordCheck check;
  if (call.options.has("no-verify")) return check;
  const auto key = trusted_key(call, store);
  if (!key) return tl::make_unexpected(key.error());
  const Verification verification =
      store.verify(*key, VerifyDepth::record, progress_line(call.outside, "verifying"));
  for (const Finding& finding : verification.findings) check.findings.push_back({finding.seq, finding.what});
  check.checkpoints = verification.checkpoints;
  check.done = true;
  return check;
}

Outcome refuse_record(const RecordCheck& record) {
  Faults faults;
  for (const RecordFinding& finding : record.findings)
    faults.push_back({ErrorCode::bad_book, finding.what,
                      finding.seq ? fmt::format("entry {}", *finding.seq) : "the book",
                      std::string(find_audit_rule("record-changed")->remedy)});
  if (faults.empty()) return {};
  return tl::make_unexpected(std::move(faults));
}

namespace {

/// Where people would rather look than read; on the terminal only.
void show_charts(const Call& call, const AuditAnswer& answer) {
  if (const auto months = press::departures_by_month(answer); !months.empty())
    call.outside.out << '\n' << chart_on_terminal(call, paper::departures_chart(months, paper::Language::en));
  for (const AuditChart& chart : answer.charts) {
    if (chart.of != AuditChart::Of::all_jobs || chart.points.empty()) continue;
    std::vector<double> off;
    for (const ChartPoint& point : chart.points) off.push_back(point.off_percent);
    call.outside.out << '\n'
                     << chart_on_terminal(call, paper::use_chart(off, chart.limits, paper::Language::en));
  }
}

Outcome run_audit(const Call& call) {
  const auto scope = read_audit_scope(call);
  if (!scope) return tl::make_unexpected(scope.error());
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  Result<void> known;
  (*store)->read([&](const Documents& now, const Head& head) {
    known = check_audit_names(now, {head.size, call.outside.now_ms(), {}}, *scope, "--");
  });
  if (!known) return refuse(known.error());
  auto record = check_record(call, **store);
  if (!record) return tl::make_unexpected(record.error());
  AuditAnswer answer;
  (*store)->read([&](const Documents& now, const Head& head) {
    answer = audit(now, {head.size, call.outside.now_ms(), *record}, *scope);
  });
  Page page(call.style);
  tell_audit(answer, page);
  print_shown(call, audit_json(answer), std::move(page));
  if (call.options.has("charts") && call.format == Format::text) show_charts(call, answer);
  return refuse_record(answer.record);
}

Outcome run_rules(const Call& call) {
  Page page(call.style);
  tell_rules(page);
  print_shown(call, json{{"rules", audit_rules_json()}}, std::move(page));
  return {};
}

/// Why what stands beside a job or a person may not be disposed of yet.
Outcome run_retention_of(const Call& call, const std::string& of,
                         Result<std::vector<RetentionHold>> (*holds_of)(const Documents&, const std::string&,
                                                                        std::int64_t),
                         const std::string& key) {
  return show_from_book(call, [&](const Documents& now, Page& page) -> Result<json> {
    const auto holds = holds_of(now, key, call.outside.now_ms());
    if (!holds) return tl::make_unexpected(holds.error());
    tell_holds(of, *holds, page);
    return json{{"of", of}, {"records", retention_json(*holds)}};
  });
}

Outcome run_retention(const Call& call) {
  if (const auto job = call.options.text("job"))
    return run_retention_of(call, "job " + *job, retention_of_job, *job);
  if (const auto person = call.options.text("person"))
    return run_retention_of(call, "person " + *person, retention_of_person, *person);
  return show_from_book(call, [&](const Documents& now, Page& page) -> Result<json> {
    const auto lines = retention(now, call.outside.now_ms());
    tell_retention(lines, page);
    return json{{"records", retention_json(lines)}};
  });
}

}  // namespace

std::vector<OptionRow> audit_scope_options() {
  return {
      {"from", "DATE", "what happened on this day (UTC) or later"},
      {"to", "DATE", "what happened on this day or before"},
      {"person", "HANDLE", "of one person"},
      {"product", "KEY", "with one product"},
      {"van", "PLACE", "of one van or shop"},
      {"job", "ID", "of one job"},
      {"rule", "ID", "of one rule (fogwright audit rules)"},
      {"severity", "note|minor|major|grave", "of this severity and worse"},
      {"limit", "N", "list at most so many of each severity; all are counted (default 1000; 0: all)"},
      {"no-verify", nullptr, "do not read the record again (it takes the longer part of an audit)"},
      {"vkey", "KEY|FILE", "the public key to check checkpoints by (default: beside the book)"},
  };
}

std::vector<Command> audit_commands() {
  auto options = audit_scope_options();
  options.push_back({"charts", nullptr, "departures by month and use against plan as charts, below the list"});
  return {
      {"audit",
       "",
       "",
       "what departs from the rules: gravest first, with proof and what to do",
       with_book_options(std::move(options)),
       run_audit,
       "fogwright audit --from 2026-03-01 --to 2026-03-31 --severity major",
       {"departures",
        {"severity", "rule", "at_ms", "job", "person", "what", "entries", "citation", "what_to_do"}}},
      {"audit",
       "rules",
       "",
       "the rules that the audit knows",
       {},
       run_rules,
       "fogwright audit rules",
       {"rules", {"id", "severity", "kind", "words", "citation", "what_to_do"}}},
      {"audit",
       "retention",
       "",
       "what must be kept until when, and what may not be disposed of yet",
       with_book_options({{"job", "ID", "what a job holds back: the customer's name and address"},
                          {"person", "HANDLE", "what a person's papers hold back"}}),
       run_retention,
       "fogwright audit retention --job J1",
       {"records", {}}},
  };
}

}  // namespace fogwright
