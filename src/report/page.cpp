// SPDX-License-Identifier: Apache-2.0
#include "report/page.hpp"

#include <algorithm>
#include <vector>

namespace fogwright {
namespace {

constexpr int least_width = 32;
constexpr std::size_t label_width = 14;

std::string_view code(Emphasis emphasis) {
  switch (emphasis) {
    case Emphasis::strong:
      return "\x1b[1m";
    case Emphasis::alarm:
      return "\x1b[1;31m";
    case Emphasis::quiet:
      return "\x1b[2m";
    case Emphasis::plain:
      break;
  }
  return {};
}

bool is_continuation(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

/// Breaks a text at spaces; a word longer than a line is cut, so that nothing is lost off the edge.
std::vector<std::string> wrap(std::string_view text, std::size_t width) {
  std::vector<std::string> lines(1);
  std::size_t used = 0;
  while (!text.empty()) {
    const auto end = std::min(text.find(' '), text.size());
    std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (used > 0 && used + 1 + display_width(word) > width) {
      lines.emplace_back();
      used = 0;
    }
    while (display_width(word) > width) {
      std::size_t cut = 0;
      for (std::size_t columns = 0; columns < width; ++columns) {
        ++cut;
        while (cut < word.size() && is_continuation(word[cut])) ++cut;
      }
      lines.back() = std::string(word.substr(0, cut));
      word.remove_prefix(cut);
      lines.emplace_back();
    }
    if (used > 0) lines.back() += ' ';
    lines.back() += word;
    used = display_width(lines.back());
  }
  return lines;
}

}  // namespace

std::size_t display_width(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return !is_continuation(c); }));
}

Page::Page(const TextStyle& style) : style_(style) { style_.width = std::max(style.width, least_width); }

void Page::put(std::string_view text, Emphasis emphasis) {
  const std::string_view on = style_.colour ? code(emphasis) : std::string_view{};
  out_ += on;
  out_ += text;
  if (!on.empty()) out_ += "\x1b[0m";
}

void Page::line(std::string_view text, Emphasis emphasis) {
  put(text, emphasis);
  out_ += '\n';
}

void Page::heading(std::string_view text) {
  if (!out_.empty()) blank();
  paragraph(text, "", Emphasis::strong);
}

void Page::paragraph(std::string_view text, std::string_view first, Emphasis emphasis) {
  const std::size_t indent = display_width(first);
  const auto lines = wrap(text, static_cast<std::size_t>(style_.width) - indent);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    out_ += i == 0 ? std::string(first) : std::string(indent, ' ');
    line(lines[i], emphasis);
  }
}

void Page::list(std::string_view label, const std::vector<std::string>& items) {
  for (std::size_t i = 0; i < items.size(); ++i)
    if (narrow() && i > 0)
      paragraph(items[i], "    ");
    else
      field(i == 0 ? label : "", items[i]);
}

void Page::field(std::string_view label, std::string_view text, Emphasis emphasis) {
  if (narrow()) {
    paragraph(label, "  ", Emphasis::quiet);
    paragraph(text, "    ", emphasis);
    return;
  }
  const std::size_t gap = display_width(label) < label_width ? label_width - display_width(label) : 1;
  paragraph(text, "  " + std::string(label) + std::string(gap, ' '), emphasis);
}

}  // namespace fogwright
