// SPDX-License-Identifier: Apache-2.0
#include <fmt/ranges.h>

#include "paper/builder.hpp"
#include "paper/moment.hpp"

namespace fogwright::paper {
namespace {

void allowed_in(Builder& paper, const LeaveBehind& facts) {
  std::vector<Text> lines;
  if (facts.allowed_in) {
    lines.push_back(
        Text{{paper.say(Word::allowed_from) + " "}, strong(long_time(*facts.allowed_in, paper.language()))});
    if (!facts.released_by.empty()) lines.push_back(paper.say(Word::released_by, facts.released_by));
  } else {
    lines.push_back(Text{strong(paper.say(Word::not_released))});
  }
  const Tone tone = facts.allowed_in ? Tone::notice : Tone::caution;
  paper.add(Callout{tone, paper.say(Word::allowed_in), std::move(lines)});
}

void what_was_done(Builder& paper, const LeaveBehind& facts) {
  auto rows = paper.product_facts(facts.product);
  rows.push_back(paper.fact(Word::where_applied, fmt::format("{}", fmt::join(facts.where, "\n"))));
  rows.push_back(paper.fact(Word::when_applied, long_time(facts.fogged, paper.language())));
  rows.push_back(paper.erasable(Word::customer, facts.customer));
  rows.push_back(paper.erasable(Word::address, facts.address));
  rows.push_back(paper.fact(Word::job, facts.job));
  paper.heading(Word::what_applied);
  paper.add(Facts{std::move(rows)});
}

void if_unwell(Builder& paper, const LeaveBehind& facts) {
  std::vector<Text> lines = {paper.say(Word::unwell_air), paper.say(Word::unwell_call)};
  if (!facts.product.first_aid.empty()) lines.push_back(paper.say(Word::unwell_label));
  lines.insert(lines.end(), facts.product.first_aid.begin(), facts.product.first_aid.end());
  paper.add(Callout{Tone::caution, paper.say(Word::unwell), std::move(lines)});
}

}  // namespace

Paper leave_behind(const LeaveBehind& facts, const Form& form) {
  Builder paper(form, Word::leave_title, facts.job);
  paper.title(paper.say(Word::leave_title));
  paper.paragraph(Word::leave_intro);
  allowed_in(paper, facts);
  what_was_done(paper, facts);
  if_unwell(paper, facts);
  paper.contacts(facts.contacts);
  paper.callout(Tone::notice, Word::afterwards, facts.afterwards);
  paper.callout(Tone::caution, Word::cautions, facts.product.precautions);
  paper.paragraph(Word::label_words, Size::small);
  paper.footer(paper.say(Word::made_on));
  return std::move(paper).take();
}

}  // namespace fogwright::paper
