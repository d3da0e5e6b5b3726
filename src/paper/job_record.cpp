// SPDX-License-Identifier: Apache-2.0
#include <algorithm>

#include "paper/builder.hpp"

namespace fogwright::paper {
namespace {

void who_and_what(Builder& paper, const JobRecord& facts) {
  std::vector<Fact> rows = {
      paper.fact(Word::state, facts.state), paper.erasable(Word::customer, facts.customer),
      paper.erasable(Word::address, facts.address), paper.fact(Word::technician, facts.technician)};
  rows.push_back(paper.fact(Word::van, facts.van));
  rows.push_back(paper.fact(Word::fogger, facts.fogger));
  const auto product = paper.product_facts(facts.product);
  rows.insert(rows.end(), product.begin(), product.end());
  rows.push_back(paper.fact(Word::lots, facts.lots));
  paper.add(Facts{std::move(rows)});
}

void plan_and_work(Builder& paper, const JobRecord& facts) {
  paper.heading(Word::planned);
  paper.add(Facts{facts.plan});
  paper.heading(Word::actual);
  paper.add(Facts{facts.actual});
  Table table{{paper.column(Word::system), paper.column(Word::return_name),
               paper.column(Word::planned, Align::right), paper.column(Word::actual, Align::right)},
              {},
              paper.say(Word::no_returns)};
  for (const auto& line : facts.returns)
    table.rows.push_back({line.system, line.name, line.planned, line.actual});
  paper.heading(Word::returns);
  paper.add(std::move(table));
}

void gate(Builder& paper, const JobRecord& facts) {
  Table table{{paper.column(Word::item), paper.column(Word::met_by), paper.column(Word::at),
               paper.column(Word::evidence), paper.column(Word::why)},
              {},
              paper.say(Word::no_gate)};
  for (const auto& line : facts.gate)
    table.rows.push_back({line.what, line.met_by, line.at, line.evidence, line.citation});
  paper.heading(Word::gate);
  paper.add(std::move(table));
  // The rules of the gate are written in one language.
  if (paper.language() != Language::en && !facts.gate.empty())
    paper.paragraph(Word::program_words, Size::small);
}

void readings(Builder& paper, const JobRecord& facts) {
  Table table{{paper.column(Word::at), paper.column(Word::substance), paper.column(Word::reading, Align::right),
               paper.column(Word::fan)},
              {},
              paper.say(Word::no_readings)};
  for (const auto& line : facts.readings) table.rows.push_back({line.at, line.substance, line.value, line.fan});
  paper.heading(Word::readings);
  paper.add(std::move(table));
  if (facts.curve) paper.add(concentration_chart(*facts.curve, paper.language()));
}

void departures(Builder& paper, const JobRecord& facts) {
  if (!facts.departures.empty()) return paper.callout(Tone::caution, Word::departures, facts.departures);
  paper.heading(Word::departures);
  paper.paragraph(Word::no_departures);
}

/// A camera needs half a millimetre a square; the quiet zone takes four squares at each side.
constexpr double millimetres_a_square = 0.5;
constexpr double quiet_squares = 8;

Result<void> proof_code(Builder& paper, const Proof& proof, const std::string& job) {
  auto qr = make_qr(proof.qr);
  if (!qr) return tl::make_unexpected(qr.error());
  qr->side_mm =
      std::max(40.0, millimetres_a_square * (static_cast<double>(qr->modules.size()) + quiet_squares));
  qr->beside = {Text{strong(paper.say(Word::job) + " " + job)},
                paper.say(proof.holds_entry ? Word::qr_proof : Word::qr_proof_only)};
  paper.add(*std::move(qr));
  return {};
}

Result<void> proof(Builder& paper, const JobRecord& facts) {
  paper.heading(Word::verify);
  if (!facts.proof) {
    paper.paragraph(Word::no_checkpoint);
    return {};
  }
  paper.paragraph(Word::verify_words);
  paper.add(Facts{
      {paper.fact(Word::entries, facts.proof->entry), paper.fact(Word::checkpoint, facts.proof->checkpoint)}});
  if (facts.proof->qr.empty()) return {};
  return proof_code(paper, *facts.proof, facts.job);
}

}  // namespace

Result<Paper> job_record(const JobRecord& facts, const Form& form) {
  Builder paper(form, Word::record_title, facts.job);
  paper.title(paper.say(Word::record_title) + " " + facts.job);
  who_and_what(paper, facts);
  departures(paper, facts);
  plan_and_work(paper, facts);
  gate(paper, facts);
  readings(paper, facts);
  paper.add(Signature{{paper.say(Word::technician), paper.say(Word::signature), paper.say(Word::date)}});
  paper.callout(Tone::caution, Word::cautions, facts.product.precautions);
  paper.callout(Tone::caution, Word::first_aid, facts.product.first_aid);
  paper.paragraph(Word::label_words, Size::small);
  if (const auto added = proof(paper, facts); !added) return tl::make_unexpected(added.error());
  paper.footer(paper.say(Word::job) + " " + facts.job);
  return std::move(paper).take();
}

}  // namespace fogwright::paper
