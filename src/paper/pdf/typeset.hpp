// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <pango/pangocairo.h>

#include <memory>
#include <string>
#include <vector>

#include "fogwright/paper/document.hpp"
#include "paper/drawing.hpp"

namespace fogwright::paper::pdf {

/// How words are set. Sizes are points, as is every length of this folder; y goes down.
struct Face {
  double size = 10;
  int weight = 400;
  Ink ink = Ink::black;
  PangoAlignment align = PANGO_ALIGN_LEFT;
};

using Layout = std::shared_ptr<PangoLayout>;

/// A line of a layout: where it stands from the layout's top.
struct Line {
  PangoLayoutLine* line = nullptr;
  double x = 0, top = 0, baseline = 0, bottom = 0;
  [[nodiscard]] double height() const { return bottom - top; }
};
/// Words broken into lines; keeps what the lines point into.
struct Set {
  Layout layout;
  Ink ink = Ink::black;
  std::vector<Line> lines;
  [[nodiscard]] double height() const { return lines.empty() ? 0 : lines.back().bottom; }
  /// Draws one line with its top at y.
  void draw(cairo_t* to, std::size_t line, double x, double y) const;
  /// Draws them all.
  void draw(cairo_t* to, double x, double y) const;
};

/// Makes layouts in one language with one set of fonts.
class Typesetter {
 public:
  explicit Typesetter(Language language);
  /// Breaks words over lines no wider than `width`, inside a word only where it is wider by itself; no hyphen
  /// is put in, so that a number read off the paper is the number.
  [[nodiscard]] Set set(const Text& text, const Face& face, double width) const;
  /// Width on one line, and of the widest word.
  [[nodiscard]] double natural_width(const Text& text, const Face& face) const;
  [[nodiscard]] double widest_word(const Text& text, const Face& face) const;

 private:
  [[nodiscard]] Layout layout(const Text& text, const Face& face) const;
  std::shared_ptr<PangoContext> context_;
};

void use_ink(cairo_t* to, Ink ink);

}  // namespace fogwright::paper::pdf
