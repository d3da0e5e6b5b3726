// SPDX-License-Identifier: Apache-2.0
#include "paper/builder.hpp"

namespace fogwright::paper {
namespace {

void summary(Builder& paper, const AuditReport& facts) {
  std::vector<Fact> rows = {paper.fact(Word::range, facts.range)};
  rows.insert(rows.end(), facts.summary.begin(), facts.summary.end());
  paper.add(Facts{std::move(rows)});
  Table table{{}, {{}}, ""};  // severities side by side, so that the summary keeps to its page
  for (const auto& [severity, count] : facts.by_severity) {
    table.columns.push_back({severity, Align::left, 0.12});
    table.rows.front().push_back(std::to_string(count));
  }
  paper.heading(Word::departures);
  if (facts.by_severity.empty())
    paper.paragraph(Word::no_departures);
  else
    paper.add(std::move(table));
  if (!facts.by_month.empty()) paper.add(departures_chart(facts.by_month, paper.language()));
  if (facts.use_limits) paper.add(use_chart(facts.off_by_percent, *facts.use_limits, paper.language()));
  paper.paragraph(Word::audit_words, Size::small);
}

void in_detail(Builder& paper, const AuditReport& facts) {
  paper.add(PageBreak{});
  paper.heading(Word::in_detail);
  Table table{{paper.column(Word::severity), paper.column(Word::at), paper.column(Word::job),
               paper.column(Word::what_happened), paper.column(Word::entries), paper.column(Word::why),
               paper.column(Word::what_to_do)},
              {},
              paper.say(Word::no_departures)};
  for (const auto& line : facts.departures)
    table.rows.push_back({line.severity, line.when, line.job, line.what + "\n" + line.rule, line.entries,
                          line.citation, line.what_to_do});
  paper.add(std::move(table));
}

}  // namespace

Paper audit_report(const AuditReport& facts, const Form& form) {
  Builder paper(form, Word::audit_title, facts.range);
  paper.title(paper.say(Word::audit_title));
  summary(paper, facts);
  if (!facts.departures.empty()) in_detail(paper, facts);
  paper.add(Signature{{paper.say(Word::signature), paper.say(Word::date)}});
  return std::move(paper).take();
}

}  // namespace fogwright::paper
