// SPDX-License-Identifier: Apache-2.0
#include "paper/pdf/rows.hpp"

#include <algorithm>
#include <numeric>

namespace fogwright::paper::pdf {
namespace {

void rule(cairo_t* to, double left, double width, double y, Ink ink, double thick) {
  use_ink(to, ink);
  cairo_set_line_width(to, thick);
  cairo_move_to(to, left, y);
  cairo_line_to(to, left + width, y);
  cairo_stroke(to);
}

/// First line of a cell behind those that fit, from `at`; at least one, so that even a giant line is not lost.
std::size_t end_of_part(const Set& cell, std::size_t at, double room) {
  std::size_t end = at;
  while (end < cell.lines.size() && (end == at || cell.lines[end].bottom - cell.lines[at].top <= room)) ++end;
  return end;
}

}  // namespace

double Rows::height_of(const std::vector<Set>& cells, double pad) {
  double height = 0;
  for (const auto& cell : cells) height = std::max(height, cell.height());
  return height + 2 * pad;
}

void Rows::put_part(const std::vector<Set>& cells, std::vector<std::size_t>& at, double room,
                    const char* element) {
  const auto from = at;
  double height = 0;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    at[i] = end_of_part(cells[i], from[i], room - 2 * pad_);
    if (at[i] > from[i])
      height = std::max(height, cells[i].lines[at[i] - 1].bottom - cells[i].lines[from[i]].top);
  }
  height += 2 * pad_;
  const bool heads = element[1] == 'H';
  sheet_.open("TR");
  sheet_.put(height, [=, pad = pad_, this_width = width_, lefts = lefts_, left = sheet_.area().left,
                      to_line = at](cairo_t* to, double y) {
    for (std::size_t i = 0; i < cells.size(); ++i) {
      cairo_tag_begin(to, element, nullptr);
      for (std::size_t line = from[i]; line < to_line[i]; ++line)
        cells[i].draw(to, line, lefts[i], y + pad + cells[i].lines[line].top - cells[i].lines[from[i]].top);
      cairo_tag_end(to, element);
    }
    rule(to, left, this_width, y + height, heads ? Ink::black : Ink::faint, heads ? 1 : 0.6);
  });
  sheet_.close();
}

void Rows::put_head() {
  if (!head_) return;
  std::vector<std::size_t> at(head_->size(), 0);
  put_part(*head_, at, sheet_.area().height(), "TH");
}

void Rows::next_page() {
  sheet_.next_page();
  put_head();
}

void Rows::put(const std::vector<Set>& cells) {
  const double whole_page = sheet_.area().height() - head_height();
  const double height = height_of(cells, pad_);
  if (height > sheet_.room() && height <= whole_page) next_page();
  std::vector<std::size_t> at(cells.size(), 0);
  const auto left_over = [&] {
    for (std::size_t i = 0; i < cells.size(); ++i)
      if (at[i] < cells[i].lines.size()) return true;
    return false;
  };
  while (left_over()) {
    if (sheet_.room() < 2 * pad_ + 14) next_page();
    put_part(cells, at, sheet_.room(), "TD");
  }
}

std::vector<double> column_widths(std::vector<double> natural, std::vector<double> least,
                                  const std::vector<double>& shares, double width) {
  const auto sum = [](const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
  };
  for (std::size_t i = 0; i < natural.size(); ++i)
    if (shares[i] > 0) natural[i] = least[i] = shares[i] * width;
  const double wanted = sum(natural);
  if (wanted <= width) {
    const double stretch = std::min(width / wanted, 1.6);
    for (auto& column : natural) column *= stretch;
    return natural;
  }
  // Short columns (a date, a number) are kept whole as long as that leaves the long ones half of the width.
  auto whole = least;
  for (std::size_t i = 0; i < natural.size(); ++i)
    if (natural[i] < width / 7) whole[i] = natural[i];
  if (sum(whole) < width / 2) least = whole;
  const double need = sum(least);
  for (std::size_t i = 0; i < natural.size(); ++i)
    natural[i] = need >= width ? least[i] * width / need
                               : least[i] + (natural[i] - least[i]) * (width - need) / (wanted - need);
  return natural;
}

}  // namespace fogwright::paper::pdf
