// SPDX-License-Identifier: Apache-2.0
/// What is drawn rather than written: giant words, lines to sign on, codes, charts.

#include <algorithm>

#include "paper/pdf/setter.hpp"

namespace fogwright::paper::pdf {
namespace {

constexpr double mm = 72 / 25.4;

struct ShapeDrawer {
  cairo_t* to;
  const Typesetter& type;

  void draw_halo(const Set& set, double left, double baseline) const {
    cairo_save(to);
    cairo_set_source_rgb(to, 1, 1, 1);
    cairo_set_line_width(to, 2.5);
    cairo_set_dash(to, nullptr, 0, 0);
    cairo_set_line_join(to, CAIRO_LINE_JOIN_ROUND);
    cairo_new_path(to);
    cairo_move_to(to, left, baseline);
    pango_cairo_layout_line_path(to, set.lines.front().line);
    cairo_stroke(to);
    cairo_restore(to);
  }

  void operator()(const Stroke& stroke) const {
    use_ink(to, stroke.ink);
    cairo_set_line_width(to, stroke.width);
    cairo_set_dash(to, stroke.dashes.data(), static_cast<int>(stroke.dashes.size()), 0);
    cairo_new_path(to);  // words leave their end as the current point
    for (const auto& point : stroke.points) cairo_line_to(to, point.x, point.y);
    cairo_stroke(to);
  }
  void operator()(const Box& box) const {
    use_ink(to, box.ink);
    cairo_rectangle(to, box.x, box.y, box.width, box.height);
    cairo_fill(to);
  }
  void operator()(const Dot& dot) const {
    use_ink(to, dot.ink);
    cairo_set_dash(to, nullptr, 0, 0);
    cairo_set_line_width(to, 1.4);
    cairo_new_sub_path(to);
    cairo_arc(to, dot.at.x, dot.at.y, dot.radius, 0, 6.2832);
    dot.ring ? cairo_stroke(to) : cairo_fill(to);
  }
  void operator()(const Words& words) const {
    const Face face{words.size, words.strong ? 700 : 400, words.ink, PANGO_ALIGN_LEFT};
    const double width = type.natural_width(words.text, face);
    const double shift = words.anchor == Anchor::start ? 0 : words.anchor == Anchor::middle ? width / 2 : width;
    const Set set = type.set(words.text, face, width + 1);
    const double left = words.at.x - shift;
    if (words.halo) draw_halo(set, left, words.at.y);
    set.draw(to, left, words.at.y - set.lines.front().baseline);
  }
};

/// Each row as strokes from the first dark module to the last one in a row: a square by itself has four
/// corners, and a large code thousands of squares.
void draw_modules(cairo_t* to, const Qr& qr, double left, double top) {
  const double module =
      qr.side_mm * mm / static_cast<double>(qr.modules.size() + 8);  // four of quiet zone a side
  const auto x_of = [&](std::size_t column) { return left + (static_cast<double>(column) + 4) * module; };
  cairo_set_source_rgb(to, 0, 0, 0);
  cairo_set_line_width(to, module);
  cairo_set_line_cap(to, CAIRO_LINE_CAP_BUTT);
  cairo_set_dash(to, nullptr, 0, 0);
  cairo_new_path(to);
  for (std::size_t row = 0; row < qr.modules.size(); ++row) {
    const std::string& modules = qr.modules[row];
    const double y = top + (static_cast<double>(row) + 4.5) * module;
    for (std::size_t from = modules.find('1'); from != modules.npos;) {
      const std::size_t end = std::min(modules.find('0', from), modules.size());
      cairo_move_to(to, x_of(from), y);
      cairo_line_to(to, x_of(end), y);
      from = modules.find('1', end);
    }
  }
  cairo_stroke(to);
}

}  // namespace

/// As large as asked for, or as fits the width on one line.
void Setter::set(const Display& block) {
  const double width = sheet_.area().width();
  Face face{block.points, 800, Ink::black, PANGO_ALIGN_CENTER};
  face.size *= std::min(1.0, 0.99 * width / type_.natural_width(block.text, face));
  const Set giant = type_.set(block.text, face, width);
  const Set caption = type_.set(block.caption, {15, 600, Ink::black, PANGO_ALIGN_CENTER}, width);
  const double below = block.caption.empty() ? 0 : caption.height();
  const double cut = 0.12 * giant.height();  // a giant line's own leading is air
  sheet_.need(giant.height() + below);
  sheet_.open("P");
  sheet_.put(below + giant.height() - cut, [=, left = sheet_.area().left](cairo_t* to, double y) {
    if (below > 0) caption.draw(to, left, y);
    giant.draw(to, left, y + below - cut / 2);
  });
  sheet_.close();
  sheet_.space(6);
}

void Setter::set(const Signature& block) {
  if (block.captions.empty()) return;
  constexpr double above = 40, gap = 18;
  const auto count = static_cast<double>(block.captions.size());
  const double width = (sheet_.area().width() - gap * (count - 1)) / count;
  std::vector<Set> captions;
  double height = 0;
  for (const auto& caption : block.captions) {
    captions.push_back(type_.set(caption, {8, 400, Ink::grey, PANGO_ALIGN_LEFT}, width));
    height = std::max(height, captions.back().height());
  }
  sheet_.need(above + height);
  sheet_.open("P");
  sheet_.put(above + height, [=, left = sheet_.area().left](cairo_t* to, double y) {
    double x = left;
    for (const auto& caption : captions) {
      use_ink(to, Ink::black);
      cairo_set_line_width(to, 0.8);
      cairo_move_to(to, x, y + above - 3);
      cairo_line_to(to, x + width, y + above - 3);
      cairo_stroke(to);
      caption.draw(to, x, y + above);
      x += width + gap;
    }
  });
  sheet_.close();
  sheet_.space(8);
}

void Setter::set(const Qr& block) {
  const double side = block.side_mm * mm, left = sheet_.area().left;
  std::vector<Piece> lines;
  for (const auto& line : block.beside)
    add_pieces(lines,
               type_.set(line, {small_page() ? 11.0 : 10.0, 400, Ink::black, PANGO_ALIGN_LEFT},
                         sheet_.area().width() - side - 8),
               0, 2);
  const double height = std::max(side, height_of(lines));
  sheet_.need(height);
  sheet_.open("P");
  sheet_.put(height, [=](cairo_t* to, double y) {
    draw_modules(to, block, left, y + (height - side) / 2);
    double at = y + (height - height_of(lines)) / 2;
    for (const auto& piece : lines) {
      at += piece.before;
      piece.words.draw(to, piece.line, left + side + 8, at);
      at += piece.height();
    }
  });
  sheet_.close();
  sheet_.space(6);
}

void Setter::set(const Chart& block) {
  const Drawing drawing = draw(block);
  const double scale = sheet_.area().width() / drawing.width;
  const Set summary = type_.set(block.summary, {8, 400, Ink::grey, PANGO_ALIGN_LEFT}, sheet_.area().width());
  const double height = drawing.height * scale + summary.height();
  sheet_.need(height);
  sheet_.open("Figure");
  sheet_.put(height, [=, type = &type_, left = sheet_.area().left](cairo_t* to, double y) {
    cairo_save(to);
    cairo_translate(to, left, y);
    cairo_scale(to, scale, scale);
    for (const auto& shape : drawing.shapes) std::visit(ShapeDrawer{to, *type}, shape);
    cairo_restore(to);
    summary.draw(to, left, y + drawing.height * scale);
  });
  sheet_.close();
  sheet_.space(12);
}

}  // namespace fogwright::paper::pdf
