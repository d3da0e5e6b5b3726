// SPDX-License-Identifier: Apache-2.0
#include "paper/builder.hpp"
#include "paper/moment.hpp"

namespace fogwright::paper {

Paper door_notice(const DoorNotice& facts, const Form& form) {
  Builder paper(form, Word::door_title, facts.job);
  const Language language = form.language;
  paper.add(Display{paper.say(Word::door_title), "", 54});
  paper.add(Paragraph{paper.say(Word::door_intro), Size::lead});
  paper.add(Display{clock_time(facts.hold_end, language, false), paper.say(Word::door_until), 92});
  paper.add(Callout{Tone::notice, long_date(facts.hold_end, language), {paper.say(Word::door_release)}});
  paper.add(Facts{{{paper.say(Word::product), Text{strong(facts.product.name)}},
                   paper.fact(Word::registration, facts.product.registration),
                   paper.erasable(Word::address, facts.address)}});
  paper.contacts(facts.contacts);
  paper.callout(Tone::caution, Word::cautions, facts.product.precautions);
  paper.paragraph(Word::label_words, Size::small);
  paper.footer(paper.say(Word::job) + " " + facts.job);
  return std::move(paper).take();
}

}  // namespace fogwright::paper
