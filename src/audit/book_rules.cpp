// SPDX-License-Identifier: Apache-2.0
#include "audit/book_rules.hpp"

#include <algorithm>
#include <vector>

namespace fogwright {
namespace {

constexpr auto company = "company policy";

constexpr BookRule rules[] = {
    {{"record-changed", Severity::grave, Basis::policy, "The record is not as it was written.",
      "company policy (docs/record-format.md)",
      "Do not go on with this book; compare it with its last backup and with a checkpoint held elsewhere."},
     judge_record},
    {{"unknown-kind", Severity::note, Basis::policy,
      "The book holds entries of a kind that this program does not know.", company,
      "Use the newest version of the program, and audit again."},
     judge_unknown_kinds},
    {{"erased-too-early", Severity::major, Basis::regulation,
      "A name or address was erased that had still to be kept.",
      "29 CFR 1910.1020(d)(1); fogwright audit retention",
      "Look for it in a backup or on a paper, and keep that."},
     judge_erasures},
    {{"stock-does-not-add-up", Severity::major, Basis::policy,
      "The movements of a vessel do not add up to what is left in it.", company,
      "Run fogwright book verify and book rebuild, then count the vessel."},
     judge_movements},
    {{"expired-on-hand", Severity::minor, Basis::label, "Product past its last day is still kept.", "label",
      "Dispose of it as its label says."},
     judge_expired_on_hand},
    {{"storage-not-read", Severity::minor, Basis::policy,
      "Nobody has read for a month how warm a place is whose product has a storage range.", company,
      "Read a thermometer there: fogwright place read."},
     judge_storage_readings},
    {{"use-beyond-limits", Severity::minor, Basis::common_practice,
      "Use against the plan lies beyond the control limits of its technician or fogger.",
      "NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.2",
      "Ask what was different at this job, and test the fogger's flow."},
     judge_use},
    {{"count-beyond-limits", Severity::minor, Basis::common_practice,
      "A count is off by more than counts of this product usually are.",
      "NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.2", "Find what was not written down, or a leak."},
     judge_counts},
    {{"release-left-open", Severity::major, Basis::policy,
      "Fog was let out, and for a day nobody released the building.", company,
      "Find out who is in the building, and release it or keep it shut."},
     judge_open_release},
    {{"job-left-open", Severity::minor, Basis::policy, "A job was released and for two days not closed.",
      company, "Put the system back, hand over the record, and close the job."},
     judge_open_job},
    {{"plan-left-open", Severity::note, Basis::policy, "A job was planned, and for a month nothing happened.",
      company, "Do it or stop it: fogwright job stop."},
     judge_open_plan},
};

std::vector<const DepartureRule*> all_rules_of_the_audit() {
  std::vector<const DepartureRule*> all;
  for (const DepartureRule& rule : departure_rules()) all.push_back(&rule);
  for (const BookRule& row : rules) all.push_back(&row.rule);
  return all;
}

}  // namespace

std::span<const BookRule> book_rules() { return rules; }

std::span<const DepartureRule* const> audit_rules() {
  static const std::vector<const DepartureRule*> all = all_rules_of_the_audit();
  return all;
}

const DepartureRule* find_audit_rule(std::string_view id) {
  const auto all = audit_rules();
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const DepartureRule* rule) { return rule->id == id; });
  return found == all.end() ? nullptr : *found;
}

std::string_view rule_kind_name(Basis kind) noexcept {
  return kind == Basis::policy ? "company policy" : basis_name(kind);
}

}  // namespace fogwright
