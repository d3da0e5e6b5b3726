// SPDX-License-Identifier: Apache-2.0
#include "paper/builder.hpp"

namespace fogwright::paper {
namespace {

void steps(Builder& paper, const MixingSheet& facts) {
  Table table{
      {paper.column(Word::step, Align::right), paper.column(Word::ingredient), paper.column(Word::amount),
       paper.column(Word::how), paper.column(Word::wait), paper.column(Word::done)},
      {},
      paper.say(Word::not_stated)};
  for (std::size_t i = 0; i < facts.steps.size(); ++i) {
    const auto& step = facts.steps[i];
    table.rows.push_back(
        {std::to_string(i + 1), step.ingredient, step.amount, step.instruction, step.wait, "______"});
  }
  paper.heading(Word::steps);
  paper.add(std::move(table));
}

}  // namespace

Paper mixing_sheet(const MixingSheet& facts, const Form& form) {
  Builder paper(form, Word::mixing_title, facts.product.name);
  paper.title(paper.say(Word::mixing_title) + ": " + facts.product.name);
  auto rows = paper.product_facts(facts.product);
  rows.push_back(
      paper.fact(Word::makes, facts.table.empty() ? facts.makes : facts.makes + " (" + facts.table + ")"));
  rows.push_back(paper.fact(Word::use_within, facts.use_within));
  rows.push_back(paper.fact(Word::ventilation, facts.ventilation));
  paper.add(Facts{std::move(rows)});
  paper.callout(Tone::caution, Word::cautions, facts.product.precautions);
  paper.callout(Tone::notice, Word::gear, facts.gear);
  steps(paper, facts);
  paper.callout(Tone::caution, Word::first_aid, facts.product.first_aid);
  paper.callout(Tone::notice, Word::disposal, facts.disposal);
  paper.add(Signature{{paper.say(Word::mixed_by), paper.say(Word::batch), paper.say(Word::date_time)}});
  paper.paragraph(Word::label_words, Size::small);
  return std::move(paper).take();
}

}  // namespace fogwright::paper
