// SPDX-License-Identifier: Apache-2.0
#pragma once

/// A CSV file whose first line names its columns, and the faults of an import, each with its line.

#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "desk/csv.hpp"

namespace fogwright {

/// What a kind of import knows.
struct CsvColumns {
  std::span<const std::string_view> all, needed;
  std::string_view row;  ///< what one line is: "a delivery"
};

struct CsvRow {
  int line = 1;
  std::string where;  ///< "file:3"
  std::map<std::string_view, std::string> fields;

  /// Empty where the column is not there.
  [[nodiscard]] std::string text(std::string_view column) const;
};

/// Reads the rows and gathers every fault; whatever its own code, each is one of the import (bad_import).
class CsvImport {
 public:
  /// Precondition: `columns` outlives this.
  CsvImport(std::string_view text, std::string_view file, const CsvColumns& columns);

  /// The rows that have as many fields as the header; none where the header has a fault.
  [[nodiscard]] const std::vector<CsvRow>& rows() const { return rows_; }
  void fault(const CsvRow& row, const Error& error);
  /// The value, or a default one and the fault kept.
  template <class T>
  T take(const CsvRow& row, Result<T> result) {
    if (result) return std::move(*result);
    fault(row, result.error());
    return T{};
  }
  [[nodiscard]] bool clean() const { return faults_.empty(); }
  /// In the order of lines.
  [[nodiscard]] Faults faults() &&;

 private:
  void fault(int line, std::string message, std::string hint);
  std::vector<std::string_view> read_header(const CsvRecord& record);
  void read_row(const CsvRecord& record, const std::vector<std::string_view>& header);

  std::string file_;
  const CsvColumns& columns_;
  std::vector<CsvRow> rows_;
  std::vector<std::pair<int, Error>> faults_;
};

/// "a; b" or "a, b": the words of a field that holds several, spaces taken off.
[[nodiscard]] std::vector<std::string> csv_words(std::string_view field, std::string_view separators = ";,");

}  // namespace fogwright
