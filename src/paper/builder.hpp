// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "fogwright/paper/forms.hpp"
#include "paper/words.hpp"

namespace fogwright::paper {

/// Puts a paper together block by block, in the language of its form.
class Builder {
 public:
  Builder(const Form& form, Word title, const std::string& subject);

  [[nodiscard]] std::string say(Word key) const { return word(form_.language, key); }
  template <class... Values>
  [[nodiscard]] std::string say(Word key, const Values&... values) const {
    return word(form_.language, key, values...);
  }
  [[nodiscard]] Language language() const { return form_.language; }

  void add(Block block) { paper_.blocks.push_back(std::move(block)); }
  void title(const std::string& text) { add(Heading{text, 1}); }
  void heading(Word key) { add(Heading{say(key), 2}); }
  void paragraph(Word key, Size size = Size::body) { add(Paragraph{say(key), size}); }
  /// Nothing where there are no lines.
  void callout(Tone tone, Word heading, const std::vector<std::string>& lines);
  void contacts(const std::vector<Contact>& contacts);
  void footer(const std::string& text) { paper_.footer = text; }

  /// A fact; "not stated" where the value is empty.
  [[nodiscard]] Fact fact(Word name, const std::string& value) const;
  /// A customer's name or address; says so where it was erased.
  [[nodiscard]] Fact erasable(Word name, const std::string& value) const;
  [[nodiscard]] std::vector<Fact> product_facts(const ProductFacts& product) const;
  [[nodiscard]] Column column(Word title, Align align = Align::left) const { return {say(title), align, 0}; }

  [[nodiscard]] Paper take() && { return std::move(paper_); }

 private:
  Form form_;
  Paper paper_;
};

}  // namespace fogwright::paper
