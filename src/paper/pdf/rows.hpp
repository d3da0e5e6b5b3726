// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>

#include "paper/pdf/sheet.hpp"
#include "paper/pdf/typeset.hpp"

namespace fogwright::paper::pdf {

/// Rows of cells below each other. A row that fits on a page is not split; a longer one goes on over as many
/// pages as it takes. The head comes again on each.
class Rows {
 public:
  Rows(Sheet& sheet, std::vector<double> lefts, double width, double pad)
      : sheet_(sheet), lefts_(std::move(lefts)), width_(width), pad_(pad) {}

  void head(std::vector<Set> cells) { head_ = std::move(cells); }
  void put_head();
  void put(const std::vector<Set>& cells);

  [[nodiscard]] static double height_of(const std::vector<Set>& cells, double pad);

 private:
  /// The lines from `at` on that fit into `room`, at least one where `any`; moves `at` behind them.
  void put_part(const std::vector<Set>& cells, std::vector<std::size_t>& at, double room, const char* element);
  void next_page();
  [[nodiscard]] double head_height() const { return head_ ? height_of(*head_, pad_) : 0; }

  Sheet& sheet_;
  std::vector<double> lefts_;
  double width_;
  double pad_;  ///< above and below the words of a row
  std::optional<std::vector<Set>> head_;
};

/// Widths of columns: `natural` where all of it fits, else what is left is shared by need, and no column gets
/// less than its widest word as long as those fit.
[[nodiscard]] std::vector<double> column_widths(std::vector<double> natural, std::vector<double> least,
                                                const std::vector<double>& shares, double width);

}  // namespace fogwright::paper::pdf
