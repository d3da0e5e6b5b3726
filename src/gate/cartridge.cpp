// SPDX-License-Identifier: Apache-2.0
#include "gate/cartridge.hpp"

#include <algorithm>

#include "fogwright/gate.hpp"

namespace fogwright {

namespace {

constexpr char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

constexpr bool is_blank(char c) { return c == ' ' || c == '\t'; }

std::string_view without_blanks(std::string_view part) {
  while (!part.empty() && is_blank(part.front())) part.remove_prefix(1);
  while (!part.empty() && is_blank(part.back())) part.remove_suffix(1);
  return part;
}

/// Whether the typed words are this name, in any case and with either spelling of vapor.
bool is_name(std::string_view typed, std::string_view name) {
  if (typed == name) return true;  // as most labels print it
  if (typed.size() < name.size() || typed.size() > name.size() + 1) return false;
  std::size_t at = 0;
  for (char c : typed) {
    const bool british_u = lower(c) == 'u' && name.substr(0, at).ends_with("vapo");
    if (british_u) continue;
    if (at == name.size() || lower(c) != name[at++]) return false;
  }
  return at == name.size();
}

/// What one part of the words part_names; a set of parts is an OR of these.
enum Part : unsigned {
  organic = 1,
  acid = 2,
  ammonia = 4,
  carbon_monoxide = 8,
  mercury = 16,
  multi_gas = 32,
  bare_vapor = 64,  ///< the second half of "multi-gas/vapor"
  other_gas = 128,
  best_filters = 256,
  other_filters = 512,
};
constexpr unsigned filters = best_filters | other_filters;

struct Name {
  std::string_view words;
  Part part;
};
/// Filters: the classes of 42 CFR 84, and what older labels print.
constexpr Name part_names[] = {{"organic vapor", organic},
                               {"acid gas", acid},
                               {"ammonia", ammonia},
                               {"methylamine", ammonia},
                               {"carbon monoxide", carbon_monoxide},
                               {"mercury vapor", mercury},
                               {"multi-gas", multi_gas},
                               {"vapor", bare_vapor},
                               {"p100", best_filters},
                               {"hepa", best_filters},
                               {"he", best_filters},
                               {"n95", other_filters},
                               {"n99", other_filters},
                               {"n100", other_filters},
                               {"r95", other_filters},
                               {"r99", other_filters},
                               {"r100", other_filters},
                               {"p95", other_filters},
                               {"p99", other_filters},
                               {"particulate", other_filters}};

/// `words` is not empty.
Part part_of(std::string_view words) {
  const auto* name = std::find_if(std::begin(part_names), std::end(part_names), [&](const Name& n) {
    return lower(words[0]) == n.words[0] && is_name(words, n.words);
  });
  return name == std::end(part_names) ? other_gas : name->part;
}

struct Band {
  unsigned parts;
  std::string_view colour;
};
/// ANSI/ISEA 110 as secondary texts print it; tests/data/cartridge_colours.txt has the whole table.
constexpr Band bands[] = {{organic, "black"},         {acid, "white"},
                          {organic | acid, "yellow"}, {ammonia, "green"},
                          {mercury, "orange"},        {carbon_monoxide, "blue"},
                          {multi_gas, "olive"},       {multi_gas | bare_vapor, "olive"},
                          {best_filters, "magenta"}};

constexpr bool ends_part(char c) { return c == '/' || c == '+' || c == ',' || c == ';' || c == '&'; }

}  // namespace

void Coverage::add(std::string_view cartridge_words) {
  while (!cartridge_words.empty()) {
    const auto end = static_cast<std::size_t>(
        std::find_if(cartridge_words.begin(), cartridge_words.end(), ends_part) - cartridge_words.begin());
    if (const auto part = without_blanks(cartridge_words.substr(0, end)); !part.empty())
      parts_ |= part_of(part);
    cartridge_words.remove_prefix(std::min(end + 1, cartridge_words.size()));
  }
}

bool Coverage::particulates() const { return (parts_ & filters) != 0; }

bool Coverage::gas() const { return (parts_ & ~filters) != 0; }

std::string_view Coverage::colour() const {
  const unsigned parts = gas() ? parts_ & ~filters : parts_;
  const auto* band =
      std::find_if(std::begin(bands), std::end(bands), [&](const Band& b) { return b.parts == parts; });
  return band == std::end(bands) ? std::string_view{} : band->colour;
}

std::string_view cartridge_colour(std::string_view cartridge_words) {
  Coverage covered;
  covered.add(cartridge_words);
  return covered.colour();
}

}  // namespace fogwright
