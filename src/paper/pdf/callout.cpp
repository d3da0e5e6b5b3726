// SPDX-License-Identifier: Apache-2.0
/// Boxes that stay together with their heading.

#include <algorithm>

#include "paper/pdf/setter.hpp"
#include "paper/words.hpp"

namespace fogwright::paper::pdf {
namespace {

constexpr double pad = 8, bar = 4, inset = 14, bullet = 10;

Ink ink_of(Tone tone) { return tone == Tone::caution ? Ink::red : Ink::blue; }

std::vector<Piece> pieces_of(const Callout& block, const Typesetter& type, double width) {
  const Face face{9.5, 400, Ink::black, PANGO_ALIGN_LEFT};
  const double indent = block.items.size() > 1 ? bullet : 0;  // one alone is no list
  std::vector<Piece> pieces;
  for (const auto& item : block.items) add_pieces(pieces, type.set(item, face, width - indent), indent, 3);
  return pieces;
}

/// Background, bar, heading, and pieces [from, to) below it.
Drawer box(const Area& area, Tone tone, const Set& heading, std::vector<Piece> pieces, double height,
           const Set& mark) {
  return [=, pieces = std::move(pieces)](cairo_t* to, double y) {
    const double shade = tone == Tone::caution ? 0.955 : 0.97;
    cairo_set_source_rgb(to, tone == Tone::caution ? 0.99 : 0.955, shade, tone == Tone::caution ? 0.95 : 0.985);
    cairo_rectangle(to, area.left, y, area.width(), height);
    cairo_fill(to);
    use_ink(to, ink_of(tone));
    cairo_rectangle(to, area.left, y, bar, height);
    cairo_fill(to);
    cairo_tag_begin(to, "H3", nullptr);
    heading.draw(to, area.left + inset, y + pad);
    cairo_tag_end(to, "H3");
    cairo_tag_begin(to, "P", nullptr);
    double at = y + pad + heading.height();
    for (const auto& piece : pieces) {
      at += piece.before;
      if (piece.line == 0 && piece.indent > 0) mark.draw(to, area.left + inset, at);
      piece.words.draw(to, piece.line, area.left + inset + piece.indent, at);
      at += piece.height();
    }
    cairo_tag_end(to, "P");
  };
}

}  // namespace

void Setter::set(const Callout& block) {
  const Area& area = sheet_.area();
  const double width = area.width() - inset - pad;
  const Face strong{10.5, 700, ink_of(block.tone), PANGO_ALIGN_LEFT};
  auto heading = type_.set(block.heading, strong, width);
  const auto mark = type_.set("•", {9.5, 400, ink_of(block.tone), PANGO_ALIGN_LEFT}, bullet);
  auto pieces = pieces_of(block, type_, width);
  sheet_.space(2);
  sheet_.need(std::min(heading.height() + height_of(pieces) + 2 * pad, area.height()));
  std::size_t at = 0;
  do {  // once, unless the box is longer than a page
    std::vector<Piece> here;
    double height = heading.height() + 2 * pad;
    while (at < pieces.size() &&
           (here.empty() || height + pieces[at].before + pieces[at].height() <= sheet_.room())) {
      height += pieces[at].before + pieces[at].height();
      here.push_back(pieces[at++]);
    }
    sheet_.put(height, box(area, block.tone, heading, std::move(here), height, mark));
    if (at < pieces.size()) {
      sheet_.next_page();
      heading = type_.set(word(paper_.language, Word::continued, block.heading), strong, width);
    }
  } while (at < pieces.size());
  sheet_.space(10);
}

}  // namespace fogwright::paper::pdf
