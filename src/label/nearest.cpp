// SPDX-License-Identifier: Apache-2.0
#include "label/nearest.hpp"

#include <algorithm>
#include <numeric>

namespace fogwright::profile {
namespace {

constexpr std::size_t shortest_typo = 3;  // of one or two letters anything could be meant
constexpr std::size_t longest_typo = 40;  // nothing longer can be a slip for one of our words

/// Levenshtein distance.
std::size_t distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = row[0]++;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t changed = diagonal + (a[i] == b[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({changed, row[j] + 1, diagonal + 1});
    }
  }
  return row.back();
}

std::string lower(std::string_view text) {
  std::string all(text);
  for (char& c : all) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return all;
}

bool is_continuation(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

}  // namespace

std::optional<std::string_view> nearest(std::string_view text, const std::vector<std::string_view>& known) {
  if (text.size() < shortest_typo || text.size() > longest_typo) return std::nullopt;
  const std::string typed = lower(text);
  std::optional<std::string_view> best;
  std::size_t least = typed.size() < 4 ? 2 : typed.size() < 9 ? 3 : 4;
  for (const std::string_view word : known) {
    const std::size_t d = distance(typed, word);
    if (d >= least) continue;
    least = d;
    best = word;
  }
  return best;
}

std::string listed(const std::vector<std::string_view>& words) {
  std::string all;
  for (const std::string_view word : words) {
    if (!all.empty()) all += ", ";
    all += word;
  }
  return all;
}

std::string in_quotes(std::string_view text) {
  constexpr std::size_t most = 60;
  std::size_t length = std::min(text.size(), most);
  while (length < text.size() && length > 0 && is_continuation(text[length])) --length;
  std::string out = "\"";
  for (const char c : text.substr(0, length))
    out += static_cast<unsigned char>(c) < 0x20 || c == 0x7F ? ' ' : c;
  return out + (length < text.size() ? "...\"" : "\"");
}

}  // namespace fogwright::profile
