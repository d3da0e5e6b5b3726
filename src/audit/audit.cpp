// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <map>
#include <numeric>

#include "audit/book_rules.hpp"
#include "audit/glance.hpp"
#include "desk/vessels.hpp"

namespace fogwright {
namespace {

std::size_t index_of(Severity severity) { return static_cast<std::size_t>(severity); }

bool asked(const std::string& wanted, std::string_view value) { return wanted.empty() || wanted == value; }

/// What is found, counted whole and listed up to the number that is wanted.
class Collector {
 public:
  Collector(const AuditScope& scope, AuditAnswer& answer) : scope_(scope), answer_(answer) {
    for (const DepartureRule* rule : audit_rules()) rules_.emplace(rule->id, rule);
  }

  [[nodiscard]] bool wants(const DepartureRule& rule) const {
    return rule.severity >= scope_.least && asked(scope_.rule, rule.id);
  }

  /// A document that the fold raised. Looked at without taking it apart: most are counted, few are listed.
  void take_document(std::string_view body) {
    const Glance raised(body);
    const auto row = rules_.find(raised.word("rule"));
    if (row == rules_.end() || !wants(*row->second)) return;
    const std::int64_t at_ms = raised.integer("happened_ms").value_or(0);
    if (!in_range(at_ms) || !asked(scope_.job, raised.word("job")) ||
        !asked(scope_.person, person_in(raised)) || !asked(scope_.product, raised.word("product")) ||
        !asked(scope_.place, place_in(raised)))
      return;
    if (count(*row->second, at_ms)) list(departure_of(*row->second, raised, at_ms));
  }

  void take(Departure departure) {
    const bool fits = departure.rule->id == "record-changed" ||
                      (in_range(departure.at_ms) && asked(scope_.job, departure.job) &&
                       asked(scope_.person, departure.person) && asked(scope_.product, departure.product) &&
                       asked(scope_.place, departure.place));
    if (fits && count(*departure.rule, departure.at_ms)) list(std::move(departure));
  }

  void finish() {
    for (auto severity = lists_.rbegin(); severity != lists_.rend(); ++severity) {
      std::stable_sort(severity->begin(), severity->end(), by_first_entry);
      std::move(severity->begin(), severity->end(), std::back_inserter(answer_.departures));
    }
    answer_.left_out = answer_.total() - static_cast<std::int64_t>(answer_.departures.size());
    answer_.by_month.assign(by_month_.begin(), by_month_.end());
    answer_.by_rule.assign(by_rule_.begin(), by_rule_.end());
    std::sort(answer_.by_rule.begin(), answer_.by_rule.end(), graver_or_more);
  }

 private:
  static bool by_first_entry(const Departure& a, const Departure& b) {
    const auto key = [](const Departure& one) { return one.entries.empty() ? -1 : one.entries.front(); };
    return key(a) < key(b);
  }
  static bool graver_or_more(const std::pair<const DepartureRule*, std::int64_t>& a,
                             const std::pair<const DepartureRule*, std::int64_t>& b) {
    if (a.first->severity != b.first->severity) return a.first->severity > b.first->severity;
    if (a.second != b.second) return a.second > b.second;
    return a.first->id < b.first->id;
  }
  static std::string_view person_in(const Glance& raised) {
    const std::string_view person = raised.word("person");
    return person.empty() ? raised.word("actor") : person;
  }
  static std::string_view place_in(const Glance& raised) {
    const std::string_view van = raised.word("van");
    return van.empty() ? raised.word("place") : van;
  }
  /// The entry that raised it first, then those that show it with it.
  static std::vector<std::int64_t> entries_of(const Glance& raised) {
    std::vector<std::int64_t> entries = {raised.integer("seq").value_or(0)};
    each_element(raised.raw("shown_by"), [&](std::string_view seq) {
      if (const auto number = integer_in(seq)) entries.push_back(*number);
    });
    return entries;
  }
  static Departure departure_of(const DepartureRule& rule, const Glance& raised, std::int64_t at_ms) {
    return {&rule,
            raised.text("what"),
            entries_of(raised),
            at_ms,
            raised.text("job"),
            std::string(person_in(raised)),
            raised.text("product"),
            std::string(place_in(raised))};
  }

  [[nodiscard]] bool in_range(std::int64_t at_ms) const {
    return (!scope_.from_ms || at_ms >= *scope_.from_ms) && (!scope_.to_ms || at_ms < *scope_.to_ms);
  }

  /// Returns whether it is to be listed as well.
  bool count(const DepartureRule& rule, std::int64_t at_ms) {
    ++answer_.by_severity[index_of(rule.severity)];
    ++by_rule_[&rule];
    if (at_ms < day_began_ms_ || at_ms >= day_ends_ms_) enter_day(at_ms);
    ++*month_;
    return scope_.most == 0 || lists_[index_of(rule.severity)].size() < scope_.most;
  }
  void list(Departure departure) { lists_[index_of(departure.rule->severity)].push_back(std::move(departure)); }

  /// Most departures follow each other within a day: the name of the month is made once for them.
  void enter_day(std::int64_t at_ms) {
    day_began_ms_ = at_ms - ((at_ms % day_ms) + day_ms) % day_ms;
    day_ends_ms_ = day_began_ms_ + day_ms;
    month_ = &by_month_[day_of(at_ms).substr(0, 7)];
  }

  const AuditScope& scope_;
  AuditAnswer& answer_;
  std::map<std::string_view, const DepartureRule*> rules_;
  std::array<std::vector<Departure>, 4> lists_;
  std::map<std::string, std::int64_t> by_month_;
  std::map<const DepartureRule*, std::int64_t> by_rule_;
  std::int64_t day_began_ms_ = 0, day_ends_ms_ = 0;
  std::int64_t* month_ = nullptr;
};

std::int64_t jobs_in(const std::vector<AuditChart>& charts) {
  for (const AuditChart& chart : charts)
    if (chart.of == AuditChart::Of::all_jobs) return chart.count;
  return 0;
}

}  // namespace

std::int64_t AuditAnswer::total() const {
  return std::accumulate(by_severity.begin(), by_severity.end(), std::int64_t{0});
}

AuditAnswer audit(const Documents& documents, const AuditInput& input, const AuditScope& scope) {
  AuditAnswer answer;
  answer.scope = scope;
  answer.entries = input.entries;
  answer.record = input.record;
  Charts charts(documents);
  Collector collector(scope, answer);
  documents.each_text("departure", false,
                      [&](std::string_view, std::string_view body) { collector.take_document(body); });
  for (const BookRule& row : book_rules()) {
    if (!collector.wants(row.rule)) continue;
    row.judge({documents, input, charts}, [&](Departure departure) {
      departure.rule = &row.rule;
      collector.take(std::move(departure));
    });
  }
  collector.finish();
  answer.charts = std::move(charts).take();
  answer.jobs_measured = jobs_in(answer.charts);
  return answer;
}

}  // namespace fogwright
