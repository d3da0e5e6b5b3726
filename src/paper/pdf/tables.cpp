// SPDX-License-Identifier: Apache-2.0
/// Tables, and facts: names and values.

#include <algorithm>

#include "paper/pdf/rows.hpp"
#include "paper/pdf/setter.hpp"

namespace fogwright::paper::pdf {
namespace {

constexpr double pad = 3;  // above and below the words of a row
constexpr double gap = 9;  // between columns
constexpr std::size_t looked_at =
    200;  // rows that decide the widths: words break, so a wider one later is no fault
const Face body{8.5, 400, Ink::black, PANGO_ALIGN_LEFT};
const Face title{8.5, 700, Ink::black, PANGO_ALIGN_LEFT};

Face aligned(Face face, Align align) {
  if (align == Align::right) face.align = PANGO_ALIGN_RIGHT;
  return face;
}

const std::string& cell_of(const std::vector<std::string>& row, std::size_t column) {
  static const std::string empty;
  return column < row.size() ? row[column] : empty;
}

std::vector<double> widths_of(const Table& table, const Typesetter& type, double width) {
  std::vector<double> natural, least, shares;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    natural.push_back(type.natural_width(table.columns[i].title, title) + 0.5);
    least.push_back(type.widest_word(table.columns[i].title, title) + 0.5);
    for (std::size_t row = 0; row < std::min(table.rows.size(), looked_at); ++row) {
      natural[i] = std::max(natural[i], type.natural_width(cell_of(table.rows[row], i), body) + 0.5);
      least[i] = std::max(least[i], type.widest_word(cell_of(table.rows[row], i), body) + 0.5);
    }
    least[i] = std::min(least[i], 0.3 * width);
    shares.push_back(table.columns[i].share);
  }
  return column_widths(natural, least, shares, width);
}

/// A table ready to be put down row by row.
struct Ready {
  std::vector<double> widths, lefts;
  double width = 0;

  Ready(const Table& table, const Typesetter& type, const Area& area) {
    const auto gaps = gap * static_cast<double>(table.columns.size() - 1);
    widths = widths_of(table, type, area.width() - gaps);
    double x = area.left;
    for (const double column : widths) {
      lefts.push_back(x);
      x += column + gap;
    }
    width = x - gap - area.left;
  }
};

std::vector<Set> head_of(const Table& table, const Ready& ready, const Typesetter& type) {
  std::vector<Set> cells;
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    cells.push_back(type.set(table.columns[i].title, aligned(title, table.columns[i].align), ready.widths[i]));
  return cells;
}

std::vector<Set> row_of(const Table& table, const std::vector<std::string>& row, const Ready& ready,
                        const Typesetter& type) {
  std::vector<Set> cells;
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    cells.push_back(type.set(cell_of(row, i), aligned(body, table.columns[i].align), ready.widths[i]));
  return cells;
}

}  // namespace

void Setter::set(const Table& block) {
  if (block.columns.empty()) return;
  if (block.rows.empty()) return set(Paragraph{block.when_empty});
  const Ready ready(block, type_, sheet_.area());
  Rows rows(sheet_, ready.lefts, ready.width, pad);
  rows.head(head_of(block, ready, type_));
  const double beginning = Rows::height_of(head_of(block, ready, type_), pad) +
                           Rows::height_of(row_of(block, block.rows.front(), ready, type_), pad);
  sheet_.need(std::min(beginning, sheet_.area().height()));
  sheet_.open("Table");
  rows.put_head();
  for (const auto& row : block.rows) rows.put(row_of(block, row, ready, type_));
  sheet_.close();
  sheet_.space(10);
}

void Setter::set(const Facts& block) {
  const double size = small_page() ? 7.5 : 9.5, width = sheet_.area().width();
  const Face names{size, 400, Ink::grey, PANGO_ALIGN_LEFT}, values{size, 400, Ink::black, PANGO_ALIGN_LEFT};
  double name_width = 0;
  for (const auto& row : block.rows)
    name_width = std::max(name_width, type_.natural_width(row.name, names) + 0.5);
  name_width = std::clamp(name_width, small_page() ? 0 : 0.24 * width, 0.38 * width);
  const double left = sheet_.area().left + name_width + 12;
  Rows rows(sheet_, {sheet_.area().left, left}, width, small_page() ? 1.5 : pad);
  sheet_.open("Table");
  for (const auto& row : block.rows)
    rows.put(
        {type_.set(row.name, names, name_width), type_.set(row.value, values, sheet_.area().right - left)});
  sheet_.close();
  sheet_.space(small_page() ? 4 : 10);
}

}  // namespace fogwright::paper::pdf
