// SPDX-License-Identifier: Apache-2.0
/// Headings and running words.

#include "paper/pdf/setter.hpp"

#include <algorithm>

#include "paper/words.hpp"

namespace fogwright::paper::pdf {
namespace {

Face body_face(Size size) {
  switch (size) {
    case Size::small:
      return {7.5, 400, Ink::grey, PANGO_ALIGN_LEFT};
    case Size::body:
      return {10, 400, Ink::black, PANGO_ALIGN_LEFT};
    case Size::lead:
      return {12.5, 400, Ink::black, PANGO_ALIGN_LEFT};
  }
  return {};
}

}  // namespace

void add_pieces(std::vector<Piece>& to, const Set& words, double indent, double before) {
  for (std::size_t line = 0; line < words.lines.size(); ++line)
    to.push_back({words, line, indent, line == 0 ? before : 0});
}

double height_of(const std::vector<Piece>& pieces) {
  double height = 0;
  for (const auto& piece : pieces) height += piece.before + piece.height();
  return height;
}

Setter::Setter(const Paper& paper, Typesetter& type, Sheet& sheet)
    : paper_(paper), type_(type), sheet_(sheet) {}

struct BlockSetter {
  Setter& setter;
  template <class T>
  void operator()(const T& block) const {
    setter.set(block);
  }
};

void Setter::set_all() {
  for (std::size_t i = 0; i < paper_.blocks.size(); ++i) {
    if (std::holds_alternative<Heading>(paper_.blocks[i]))
      sheet_.need(std::min(needed_from(i), sheet_.area().height()));
    std::visit(BlockSetter{*this}, paper_.blocks[i]);
  }
}

/// A heading, those right below it, and the beginning of what they head.
double Setter::needed_from(std::size_t block) const {
  double height = 0;
  for (; block < paper_.blocks.size(); ++block) {
    height += least(paper_.blocks[block]);
    if (!std::holds_alternative<Heading>(paper_.blocks[block])) break;
  }
  return height;
}

Face Setter::heading_face(int level) const {
  constexpr double sizes[] = {21, 12.5, 10.5};
  return {sizes[std::clamp(level, 1, 3) - 1], 700, Ink::black, PANGO_ALIGN_LEFT};
}

/// Never one line alone, at the foot of a page or at the head of the next, where the words have more.
void Setter::words(const Set& words, double indent, const char* element) {
  const std::size_t count = words.lines.size();
  sheet_.open(element);
  for (std::size_t i = 0; i < count; ++i) {
    const auto& line = words.lines[i];
    const bool keeps_next = i + 1 < count && (i == 0 || i + 2 == count);
    sheet_.need(keeps_next ? words.lines[i + 1].bottom - line.top : line.height());
    sheet_.put(line.height(),
               [words, i, x = sheet_.area().left + indent](cairo_t* to, double y) { words.draw(to, i, x, y); });
  }
  sheet_.close();
}

void Setter::set(const Heading& block) {
  sheet_.space(block.level == 1 ? 4 : 6);
  const std::string element = "H" + std::to_string(std::clamp(block.level, 1, 3));
  words(type_.set(block.text, heading_face(block.level), sheet_.area().width()), 0, element.c_str());
  sheet_.space(block.level == 1 ? 8 : 3);
}

void Setter::set(const Paragraph& block) {
  words(type_.set(block.text, body_face(block.size), sheet_.area().width()), 0, "P");
  sheet_.space(block.size == Size::lead ? 10 : 7);
}

void Setter::set(const List& block) {
  constexpr double indent = 16;
  sheet_.open("L");
  int number = 0;
  for (const auto& item : block.items) {
    const auto mark =
        type_.set(block.numbered ? std::to_string(++number) + "." : "•", body_face(Size::body), indent);
    const auto text = type_.set(item, body_face(Size::body), sheet_.area().width() - indent);
    sheet_.need(std::min(text.height(), 2 * text.lines.front().height()));
    sheet_.put(0, [mark, x = sheet_.area().left](cairo_t* to, double y) { mark.draw(to, x, y); });
    words(text, indent, "LI");
    sheet_.space(3);
  }
  sheet_.close();
  sheet_.space(5);
}

void Setter::set(const PageBreak&) {
  if (!sheet_.at_top()) sheet_.next_page();
}

}  // namespace fogwright::paper::pdf
