// SPDX-License-Identifier: Apache-2.0
#include "paper/builder.hpp"

#include <fmt/ranges.h>

namespace fogwright::paper {

Builder::Builder(const Form& form, Word title, const std::string& subject) : form_(form) {
  paper_.title = say(title);
  if (!subject.empty()) paper_.title += " · " + subject;
  paper_.author = form.firm;
  paper_.language = form.language;
  paper_.size = form.size;
  paper_.made = form.made;
}

void Builder::callout(Tone tone, Word heading, const std::vector<std::string>& lines) {
  if (!lines.empty()) add(Callout{tone, say(heading), {lines.begin(), lines.end()}});
}

void Builder::contacts(const std::vector<Contact>& contacts) {
  if (contacts.empty()) return;
  Facts facts;
  for (const auto& contact : contacts) facts.rows.push_back({contact.who, Text{strong(contact.number)}});
  heading(Word::whom_to_call);
  add(std::move(facts));
}

Fact Builder::fact(Word name, const std::string& value) const {
  if (value.empty()) return {say(name), Text{{say(Word::not_stated), Emphasis::soft}}};
  return {say(name), value};
}

Fact Builder::erasable(Word name, const std::string& value) const {
  if (value.empty()) return {say(name), Text{{say(Word::erased), Emphasis::soft}}};
  return {say(name), value};
}

std::vector<Fact> Builder::product_facts(const ProductFacts& product) const {
  std::vector<Fact> facts = {{say(Word::product), Text{strong(product.name)}},
                             fact(Word::registration, product.registration)};
  if (!product.signal_word.empty()) facts.push_back(fact(Word::signal_word, product.signal_word));
  facts.push_back(fact(Word::actives, fmt::format("{}", fmt::join(product.actives, "; "))));
  return facts;
}

}  // namespace fogwright::paper
