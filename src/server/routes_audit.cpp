// SPDX-License-Identifier: Apache-2.0
#include <mutex>

#include "fogwright/audit/retention.hpp"
#include "server/audit_query.hpp"
#include "server/problem.hpp"
#include "server/signing.hpp"

namespace fogwright::server {
namespace {

using nlohmann::json;

std::string in_query(const Target& target, const char* name) {
  const auto found = target.query.find(name);
  return found == target.query.end() ? std::string() : found->second;
}

Result<void> known_names(Service& service, const AuditScope& scope) {
  Result<void> known;
  const auto reader = service.books().reader();
  reader->read([&](const Documents& now, const Head& head) {
    known = check_audit_names(now, {head.size, service.world().now_ms(), {}}, scope, "");
  });
  return known;
}

HttpResponse show_audit(Service& service, Visit& visit) {
  const auto scope = audit_scope(visit.target);
  if (!scope) return problem(scope.error());
  if (const auto known = known_names(service, *scope); !known) return problem(known.error());
  const auto record = record_check(service, visit.target);
  if (!record) return problem(record.error());
  AuditAnswer answer;
  const auto reader = service.books().reader();
  reader->read([&](const Documents& now, const Head& head) {
    answer = audit(now, {head.size, service.world().now_ms(), *record}, *scope);
  });
  return json_response(200, audit_json(answer));
}

HttpResponse show_rules(Service& service, Visit& visit) {
  (void)service, (void)visit;
  return json_response(200, {{"rules", audit_rules_json()}});
}

/// Of a job or a person: why what stands beside them may not be disposed of yet. Else what must be kept at all.
Result<json> retained(const Documents& now, const Target& target, std::int64_t now_ms) {
  const std::string job = in_query(target, "job"), person = in_query(target, "person");
  if (!job.empty() && !person.empty())
    return fail(ErrorCode::bad_usage, "a job and a person are named", "person", "ask for one of them");
  if (job.empty() && person.empty()) return json{{"records", retention_json(retention(now, now_ms))}};
  const auto holds =
      job.empty() ? retention_of_person(now, person, now_ms) : retention_of_job(now, job, now_ms);
  if (!holds) return tl::make_unexpected(holds.error());
  return json{{"records", retention_json(*holds)}};
}

HttpResponse show_retention(Service& service, Visit& visit) {
  Result<json> shown = json();
  const auto reader = service.books().reader();
  reader->read([&](const Documents& now, const Head&) {
    shown = retained(now, visit.target, service.world().now_ms());
  });
  return shown ? json_response(200, *shown) : problem(shown.error());
}

Route asking(const char* path, const char* id, const char* summary, const char* answer,
             HttpResponse (*act)(Service&, Visit&), std::vector<const char*> query = {}) {
  return {.method = "GET",
          .path = path,
          .id = id,
          .access = Access::crew,
          .summary = summary,
          .answer = answer,
          .query = std::move(query),
          .act = act};
}

}  // namespace

std::vector<const char*> audit_query() {
  return {"from", "to", "person", "product", "van", "job", "rule", "severity", "limit", "verify"};
}

Result<AuditScope> audit_scope(const Target& target) {
  return read_audit_filters(
      [&target](const char* name) -> std::optional<std::string> {
        const auto found = target.query.find(name);
        if (found == target.query.end()) return std::nullopt;
        return found->second;
      },
      "");
}

Result<RecordCheck> record_check(Service& service, const Target& target) {
  RecordCheck check;
  if (in_query(target, "verify") != "true") return check;
  static std::mutex one_at_a_time;  // it reads the whole book, on two threads
  const std::unique_lock lock(one_at_a_time, std::try_to_lock);
  if (!lock.owns_lock())
    return fail(ErrorCode::storage_busy, "the record is being verified for somebody else", "verify",
                "try again in a while");
  const auto key = signing_key(service);
  if (!key && key.error().code != ErrorCode::not_found) return tl::make_unexpected(key.error());
  const auto reader = service.books().reader();
  const Verification found = reader->verify(key ? vkey_text(key->verifier()) : "", VerifyDepth::record,
                                            [](std::int64_t, std::int64_t) {});
  for (const Finding& finding : found.findings) check.findings.push_back({finding.seq, finding.what});
  check.checkpoints = found.checkpoints;
  check.done = true;
  return check;
}

std::vector<Route> audit_routes() {
  return {
      asking(
          "/api/v1/audit", "audit",
          "What departs from the rules, gravest first, with proof and what to do; verify=true reads the whole "
          "record again",
          "Audit", show_audit, audit_query()),
      asking("/api/v1/audit/rules", "listAuditRules", "The rules that the audit knows", "AuditRules",
             show_rules),
      asking("/api/v1/retention", "showRetention",
             "What must be kept and how long; of a job or a person, why it may not be disposed of yet",
             "Retention", show_retention, {"job", "person"}),
  };
}

}  // namespace fogwright::server
