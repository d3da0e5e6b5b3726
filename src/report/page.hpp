// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "fogwright/report.hpp"

namespace fogwright {

enum class Emphasis { plain, strong, alarm, quiet };

/// Text laid out for a terminal: wraps words to the width, indents, emphasises where colour is on.
class Page {
 public:
  explicit Page(const TextStyle& style);

  void heading(std::string_view text);
  /// One paragraph, wrapped; `first` opens its first line, the other lines are indented as deep.
  void paragraph(std::string_view text, std::string_view first = "  ", Emphasis emphasis = Emphasis::plain);
  /// "  label     text": the label column is `label_width` wide; on a narrow page the text goes below the
  /// label.
  void field(std::string_view label, std::string_view text, Emphasis emphasis = Emphasis::plain);
  /// One field an item; the label stands beside the first only.
  void list(std::string_view label, const std::vector<std::string>& items);
  void line(std::string_view text, Emphasis emphasis = Emphasis::plain);
  void blank() { out_ += '\n'; }

  [[nodiscard]] std::string take() && { return std::move(out_); }
  [[nodiscard]] const TextStyle& style() const { return style_; }
  [[nodiscard]] bool narrow() const { return style_.width < 60; }

 private:
  void put(std::string_view text, Emphasis emphasis);
  TextStyle style_;
  std::string out_;
};

/// Columns a text takes: code points, which is right for the scripts our labels use.
[[nodiscard]] std::size_t display_width(std::string_view text);

}  // namespace fogwright
