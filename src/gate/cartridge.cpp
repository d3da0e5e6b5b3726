// SPDX-License-Identifier: Apache-2.0
#include "gate/cartridge.hpp"

#include <algorithm>

#include "fogwright/gate.hpp"

namespace fogwright {

namespace {

constexpr char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

/// Lower case, American spelling, no blanks at the ends.
std::string plain(std::string_view part) {
  const auto first = part.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  part = part.substr(first, part.find_last_not_of(" \t") - first + 1);
  std::string text(part);
  std::ranges::transform(text, text.begin(), lower);
  if (const auto at = text.find("vapour"); at != std::string::npos) text.erase(at + 4, 1);
  return text;
}

/// What one part of the words names; a set of parts is an OR of these.
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
constexpr Name names[] = {{"organic vapor", organic},
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

Part part_of(std::string_view words) {
  const auto* name = std::ranges::find(names, words, &Name::words);
  return name == std::end(names) ? other_gas : name->part;
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

unsigned parts_of(std::string_view words) {
  unsigned parts = 0;
  while (!words.empty()) {
    const auto end = std::min(words.find_first_of("/+,;&"), words.size());
    if (const std::string part = plain(words.substr(0, end)); !part.empty()) parts |= part_of(part);
    words.remove_prefix(std::min(end + 1, words.size()));
  }
  return parts;
}

}  // namespace

bool covers_particulates(std::string_view cartridge_words) {
  return (parts_of(cartridge_words) & filters) != 0;
}

bool covers_gas(std::string_view cartridge_words) { return (parts_of(cartridge_words) & ~filters) != 0; }

std::string joined(std::span<const std::string> words, std::string_view between) {
  std::string all;
  for (const std::string& word : words) {
    if (!all.empty()) all += between;
    all += word;
  }
  return all;
}

std::string_view cartridge_colour(std::string_view cartridge_words) {
  unsigned parts = parts_of(cartridge_words);
  if ((parts & ~filters) != 0) parts &= ~filters;
  const auto* band = std::ranges::find(bands, parts, &Band::parts);
  return band == std::end(bands) ? std::string_view{} : band->colour;
}

}  // namespace fogwright
