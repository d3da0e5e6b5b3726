// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cairo.h>

#include <functional>
#include <string>
#include <vector>

#include "fogwright/paper/document.hpp"

namespace fogwright::paper::pdf {

/// Where words may stand on a page.
struct Area {
  double page_width = 0, page_height = 0;
  double left = 0, right = 0, top = 0, bottom = 0;
  [[nodiscard]] double width() const { return right - left; }
  [[nodiscard]] double height() const { return bottom - top; }
};
[[nodiscard]] Area area_of(PageSize size);

/// Draws something whose top is at y.
using Drawer = std::function<void(cairo_t*, double y)>;

/// Pages being filled from the top. What is put on them is drawn later, when the number of pages is known.
class Sheet {
 public:
  explicit Sheet(const Area& area) : area_(area), y_(area.top), pages_(1) {}

  [[nodiscard]] const Area& area() const { return area_; }
  /// Height left on this page.
  [[nodiscard]] double room() const { return area_.bottom - y_; }
  [[nodiscard]] bool at_top() const { return y_ <= area_.top; }
  void next_page();
  /// Goes to the next page where less than `height` is left; no more than a page can be had.
  void need(double height);
  /// A gap; none at the top of a page.
  void space(double height) {
    if (!at_top()) y_ += height;
  }
  void put(double height, Drawer drawer);

  /// Structure for those who listen: what is put until close() belongs to an element ("H1", "P", "Table"). An
  /// element that runs over a page is closed and opened again.
  void open(const std::string& element);
  void close();

  [[nodiscard]] std::size_t pages() const { return pages_.size(); }
  void draw_page(std::size_t page, cairo_t* to) const;

 private:
  struct Placed {
    double y;
    Drawer drawer;
  };
  Area area_;
  double y_;
  std::vector<std::vector<Placed>> pages_;
  std::vector<std::string> elements_;
};

}  // namespace fogwright::paper::pdf
