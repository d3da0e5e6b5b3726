// SPDX-License-Identifier: Apache-2.0
#include "paper/builder.hpp"

namespace fogwright::paper {
namespace {

Result<void> one_label(Builder& paper, const ContainerLabel& facts) {
  auto qr = make_qr(facts.qr);
  if (!qr) return tl::make_unexpected(qr.error());
  qr->side_mm = 24;
  qr->beside = {Text{strong(facts.id)}, Text{strong(facts.item)}, facts.size};
  if (!facts.product.signal_word.empty()) qr->beside.push_back(Text{strong(facts.product.signal_word)});
  paper.add(*std::move(qr));
  paper.add(Facts{{{paper.say(Word::expires), Text{strong(facts.expires)}},
                   paper.fact(Word::lot, facts.lot),
                   paper.fact(Word::registration, facts.product.registration),
                   paper.fact(Word::received, facts.received),
                   {paper.say(Word::opened), facts.opened.empty() ? "____________" : facts.opened},
                   paper.fact(Word::place, facts.place)}});
  paper.paragraph(Word::beside_label, Size::small);
  return {};
}

}  // namespace

Result<Paper> container_labels(const std::vector<ContainerLabel>& labels, const Form& form) {
  Form sticker = form;
  sticker.size = PageSize::label;
  Builder paper(sticker, Word::label_title, labels.size() == 1 ? labels.front().id : "");
  for (std::size_t i = 0; i < labels.size(); ++i) {
    if (i > 0) paper.add(PageBreak{});
    const auto added = one_label(paper, labels[i]);
    if (!added) return tl::make_unexpected(added.error());
  }
  return std::move(paper).take();
}

}  // namespace fogwright::paper
