// SPDX-License-Identifier: Apache-2.0
#include "paper/words.hpp"

namespace fogwright::paper {

std::span<const WordLine> words_of(Language language) {
  switch (language) {
    case Language::en:
      return words_en();
    case Language::es:
      return words_es();
  }
  return words_en();
}

std::string word(Language language, Word word) {
  return std::string(words_of(language)[static_cast<std::size_t>(word)].text);
}

std::string word_in(Language language, Word line, int n) {
  const std::string all = word(language, line);
  std::string_view rest = all;
  for (; n > 0 && rest.find(' ') != std::string_view::npos; --n) rest.remove_prefix(rest.find(' ') + 1);
  return std::string(rest.substr(0, rest.find(' ')));
}

}  // namespace fogwright::paper
