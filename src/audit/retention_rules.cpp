// SPDX-License-Identifier: Apache-2.0
#include "audit/retention_rules.hpp"

#include <algorithm>
#include <chrono>

namespace fogwright {
namespace {

// 29 CFR 1910.134 and 1910.1020 were read in the 2015 edition, 7 USC 136i-1 in the code itself; of 40 CFR 171
// the years were read in texts that quote it.
constexpr RetentionRule retention_rows[] = {
    {"exposure", "What shows to what people were exposed: product, where, when, plan of the air, readings",
     "30 years", 30, KeptFrom::use, Basis::regulation, "29 CFR 1910.1020(d)(1)(ii)",
     "in place of old data sheets: what was used, where and when, 30 years ((d)(1)(ii)(B))"},
    {"medical", "Medical clearance for a respirator", "employment and 30 years more", 30,
     KeptFrom::end_of_employment, Basis::regulation, "29 CFR 1910.1020(d)(1)(i); 29 CFR 1910.134(m)(1)", ""},
    {"fit-test", "Fit tests", "until the next fit test", 0, KeptFrom::next_of_its_kind, Basis::regulation,
     "29 CFR 1910.134(m)(2)(ii)", ""},
    {"application", "Applications: product, amount, place, day, applicator, customer", "2 years", 2,
     KeptFrom::use, Basis::regulation, "7 USC 136i-1(a); 40 CFR 171.303(b)(7)(vi)",
     "these bind restricted-use products; for others state law decides, commonly 2 to 3 years (from memory): "
     "ask your "
     "state"},
    {"cartridge-schedule", "Change schedules of cartridges and what they rest on", "while in use", 0,
     KeptFrom::while_in_use, Basis::regulation, "29 CFR 1910.134(d)(3)(iii)(B)(2); 29 CFR 1910.134(m)(3)", ""},
    {"label", "Labels that were worked by", "30 years", 30, KeptFrom::use, Basis::policy, "company policy",
     "the label shows what a product was at the time; the book keeps each one for good"},
};

}  // namespace

std::span<const RetentionRule> retention_rules() { return retention_rows; }

const RetentionRule& retention_rule(std::string_view id) {
  return *std::find_if(std::begin(retention_rows), std::end(retention_rows),
                       [&](const RetentionRule& rule) { return rule.id == id; });
}

std::int64_t kept_until_ms(std::int64_t from_ms, int years) {
  using namespace std::chrono;
  const auto from_day = floor<days>(sys_time<milliseconds>(milliseconds(from_ms)));
  const year_month_day then = year_month_day(from_day) + std::chrono::years(years);
  // 29 February has no anniversary in most years: the day after it counts.
  const sys_days last = then.ok() ? sys_days(then) : sys_days(then.year() / March / 1);
  return duration_cast<milliseconds>((last + days(1)).time_since_epoch()).count();
}

}  // namespace fogwright
