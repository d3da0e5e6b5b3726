// SPDX-License-Identifier: Apache-2.0
#include "quantity/text.hpp"

#include <utility>

namespace fogwright::text {
namespace {

using Replacement = std::pair<std::string_view, std::string_view>;

constexpr Replacement typographic[] = {
    {"²", "2"},      {"³", "3"},      {"°", "deg"},  {"µ", "u"},      {"μ", "u"},    {"×", "x"},
    {"′", "'"},      {"″", "\""},     {"’", "'"},    {"”", "\""},     {"−", "-"},    {"⁄", "/"},
    {"½", " 1/2"},   {"¼", " 1/4"},   {"¾", " 3/4"}, {"⅓", " 1/3"},   {"⅔", " 2/3"}, {"⅛", " 1/8"},
    {"⅜", " 3/8"},   {"⅝", " 5/8"},   {"⅞", " 7/8"}, {"\u00A0", " "},  // no-break space
    {"\u2009", " "}, {"\u202F", " "},                                  // thin spaces
};

// Words that people write for the symbols of the unit table.
constexpr Replacement words[] = {
    {"square", "sq"},     {"cubic", "cu"},       {"foot", "ft"},       {"feet", "ft"},
    {"inch", "in"},       {"inches", "in"},      {"meter", "m"},       {"meters", "m"},
    {"metre", "m"},       {"metres", "m"},       {"centimeter", "cm"}, {"centimeters", "cm"},
    {"centimetre", "cm"}, {"centimetres", "cm"}, {"millimeter", "mm"}, {"millimeters", "mm"},
    {"millimetre", "mm"}, {"millimetres", "mm"}, {"micrometer", "um"}, {"micrometers", "um"},
    {"micrometre", "um"}, {"micrometres", "um"}, {"micron", "um"},     {"microns", "um"},
    {"liter", "l"},       {"liters", "l"},       {"litre", "l"},       {"litres", "l"},
    {"milliliter", "ml"}, {"milliliters", "ml"}, {"millilitre", "ml"}, {"millilitres", "ml"},
    {"gallon", "gal"},    {"gallons", "gal"},    {"gals", "gal"},      {"quart", "qt"},
    {"quarts", "qt"},     {"qts", "qt"},         {"pint", "pt"},       {"pints", "pt"},
    {"pts", "pt"},        {"fluid", "fl"},       {"ounce", "oz"},      {"ounces", "oz"},
    {"imperial", "imp"},  {"second", "s"},       {"seconds", "s"},     {"sec", "s"},
    {"secs", "s"},        {"minute", "min"},     {"minutes", "min"},   {"mins", "min"},
    {"hour", "h"},        {"hours", "h"},        {"hr", "h"},          {"hrs", "h"},
    {"days", "day"},      {"d", "day"},          {"weeks", "week"},    {"wk", "week"},
    {"wks", "week"},      {"months", "month"},   {"mo", "month"},      {"mos", "month"},
    {"years", "year"},    {"yr", "year"},        {"yrs", "year"},      {"gram", "g"},
    {"grams", "g"},       {"kilogram", "kg"},    {"kilograms", "kg"},  {"kilo", "kg"},
    {"kilos", "kg"},      {"kgs", "kg"},         {"milligram", "mg"},  {"milligrams", "mg"},
    {"microgram", "ug"},  {"micrograms", "ug"},  {"mcg", "ug"},        {"pound", "lb"},
    {"pounds", "lb"},     {"lbs", "lb"},         {"per", "/"},         {"degree", "deg"},
    {"degrees", "deg"},   {"fahrenheit", "f"},   {"celsius", "c"},     {"centigrade", "c"},
    {"kelvin", "k"},      {"kelvins", "k"},      {"pascal", "pa"},     {"pascals", "pa"},
    {"percent", "%"},     {"torr", "mmhg"},      {"mbar", "hpa"},      {"millibar", "hpa"},
    {"millibars", "hpa"}, {"change", "changes"}, {"cc", "ml"},
};

bool is_letter(char c) { return lower(c) >= 'a' && lower(c) <= 'z'; }

std::string_view canonical_word(std::string_view word) {
  for (const auto& [from, to] : words)
    if (word == from) return to;
  return word;
}

// What `s` starts with and what it is replaced by; a character that is not typographic by itself.
Replacement typographic_at(std::string_view s) {
  const Replacement itself{s.substr(0, 1), s.substr(0, 1)};
  if (static_cast<unsigned char>(s[0]) < 0x80) return itself;
  for (const Replacement& r : typographic)
    if (s.starts_with(r.first)) return r;
  return itself;
}

// Bytes of the well-formed UTF-8 sequence that `s` starts with; 0 if it starts with none. Overlong forms and
// surrogates are not well-formed (RFC 3629, section 4).
std::size_t sequence_length(std::string_view s) {
  const auto byte = [&](std::size_t i) { return i < s.size() ? static_cast<unsigned char>(s[i]) : 0U; };
  const unsigned first = byte(0);
  if (first < 0x80) return 1;
  const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4) return 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((byte(i) & 0xC0U) != 0x80) return 0;
  const bool overlong = (first == 0xE0 && byte(1) < 0xA0) || (first == 0xF0 && byte(1) < 0x90);
  const bool beyond = (first == 0xED && byte(1) > 0x9F) || (first == 0xF4 && byte(1) > 0x8F);
  return overlong || beyond ? 0 : length;
}

// Control characters and what is invisible or turns the direction of the text around it.
bool is_unprintable(std::string_view c) {
  if (c.size() == 1) return static_cast<unsigned char>(c[0]) < 0x20 || c[0] == 0x7F;
  if (c.size() == 2) return c >= "\xC2\x80" && c <= "\xC2\x9F";
  return (c >= "\u200B" && c <= "\u200F") || (c >= "\u2028" && c <= "\u202E") ||
         (c >= "\u2060" && c <= "\u206F") || c == "\uFEFF";
}

std::string escaped(std::string_view bytes) {
  constexpr char hex[] = "0123456789ABCDEF";
  std::string out;
  for (const char c : bytes) {
    const auto b = static_cast<unsigned char>(c);
    out += {'\\', 'x', hex[b >> 4U], hex[b & 0xFU]};
  }
  return out;
}

}  // namespace

std::string_view trim(std::string_view s) {
  while (!s.empty() && is_space(s.front())) s.remove_prefix(1);
  while (!s.empty() && is_space(s.back())) s.remove_suffix(1);
  return s;
}

std::string to_ascii_symbols(std::string_view s) {
  std::string out;
  while (!s.empty()) {
    const Replacement r = typographic_at(s);
    out += r.second;
    s.remove_prefix(r.first.size());
  }
  return out;
}

std::string quoted(std::string_view s) {
  constexpr int longest = 40;
  std::string out = "\"";
  for (int shown = 0; !s.empty(); ++shown) {
    if (shown == longest) return out + "...\"";
    const std::size_t length = sequence_length(s);
    const std::string_view c = s.substr(0, length == 0 ? 1 : length);
    out += length == 0 || is_unprintable(c) ? escaped(c) : std::string(c);
    s.remove_prefix(c.size());
  }
  return out + "\"";
}

std::string canonical_unit(std::string_view s) {
  std::string out;
  std::string word;
  const auto end_word = [&] {
    out += canonical_word(word);
    word.clear();
  };
  for (std::size_t i = 0; i < s.size(); ++i) {
    const bool abbreviation_point = s[i] == '.' && i > 0 && is_letter(s[i - 1]);
    if (is_letter(s[i])) {
      word += lower(s[i]);
    } else if (!abbreviation_point) {
      end_word();
      if (!is_space(s[i]) && s[i] != '^') out += s[i];
    }
  }
  end_word();
  return out;
}

}  // namespace fogwright::text
