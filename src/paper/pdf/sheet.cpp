// SPDX-License-Identifier: Apache-2.0
#include "paper/pdf/sheet.hpp"

namespace fogwright::paper::pdf {
namespace {

constexpr double mm = 72 / 25.4;

Drawer begin_of(const std::string& element) {
  return [element](cairo_t* to, double) { cairo_tag_begin(to, element.c_str(), nullptr); };
}
Drawer end_of(const std::string& element) {
  return [element](cairo_t* to, double) { cairo_tag_end(to, element.c_str()); };
}

Area with_margins(double width, double height, double side, double top, double bottom) {
  return {width, height, side, width - side, top, height - bottom};
}

}  // namespace

Area area_of(PageSize size) {
  switch (size) {
    case PageSize::letter:
      return with_margins(612, 792, 19 * mm, 22 * mm, 22 * mm);
    case PageSize::a4:
      return with_margins(210 * mm, 297 * mm, 19 * mm, 22 * mm, 22 * mm);
    case PageSize::label:
      return with_margins(288, 216, 4 * mm, 4 * mm, 4 * mm);
  }
  return {};
}

void Sheet::next_page() {
  for (auto element = elements_.rbegin(); element != elements_.rend(); ++element)
    pages_.back().push_back({0, end_of(*element)});
  pages_.emplace_back();
  y_ = area_.top;
  for (const auto& element : elements_) pages_.back().push_back({0, begin_of(element)});
}

void Sheet::need(double height) {
  if (height > room() && !at_top()) next_page();
}

void Sheet::put(double height, Drawer drawer) {
  pages_.back().push_back({y_, std::move(drawer)});
  y_ += height;
}

void Sheet::open(const std::string& element) {
  elements_.push_back(element);
  pages_.back().push_back({0, begin_of(element)});
}

void Sheet::close() {
  pages_.back().push_back({0, end_of(elements_.back())});
  elements_.pop_back();
}

void Sheet::draw_page(std::size_t page, cairo_t* to) const {
  for (const auto& piece : pages_[page]) piece.drawer(to, piece.y);
}

}  // namespace fogwright::paper::pdf
