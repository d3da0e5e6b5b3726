// SPDX-License-Identifier: Apache-2.0
#include "desk/csv_table.hpp"

#include <fmt/format.h>
#include <algorithm>

namespace fogwright {

std::string CsvRow::text(std::string_view column) const {
  const auto found = fields.find(column);
  return found == fields.end() ? std::string() : found->second;
}

CsvImport::CsvImport(std::string_view text, std::string_view file, const CsvColumns& columns)
    : file_(file), columns_(columns) {
  auto records = read_csv(text, file);
  if (!records) {
    for (Error& error : records.error()) faults_.emplace_back(0, std::move(error));
    return;
  }
  if (records->size() < 2) {
    fault(1, fmt::format("there is not {} in the file", columns.row),
          fmt::format("name the columns in the first line and write {} a line", columns.row));
    return;
  }
  const auto header = read_header(records->front());
  if (!clean()) return;
  for (const CsvRecord& record : std::span(*records).subspan(1)) read_row(record, header);
}

std::vector<std::string_view> CsvImport::read_header(const CsvRecord& record) {
  std::vector<std::string_view> header;
  for (const std::string& name : record.fields) {
    const auto known = std::find(columns_.all.begin(), columns_.all.end(), name);
    if (known == columns_.all.end())
      fault(record.line, fmt::format("\"{}\" is not a column", name),
            fmt::format("write columns out of {}", fmt::join(columns_.all, ", ")));
    else if (std::find(header.begin(), header.end(), *known) != header.end())
      fault(record.line, fmt::format("the column {} stands twice", *known), "leave one out");
    header.push_back(known == columns_.all.end() ? std::string_view() : *known);
  }
  for (const std::string_view name : columns_.needed)
    if (std::find(header.begin(), header.end(), name) == header.end())
      fault(record.line, fmt::format("the column {} is missing", name), "add it to the first line");
  return header;
}

void CsvImport::read_row(const CsvRecord& record, const std::vector<std::string_view>& header) {
  if (record.fields.size() != header.size())
    return fault(
        record.line,
        fmt::format("{} fields stand here, {} columns in the first line", record.fields.size(), header.size()),
        "write a comma for an empty field");
  CsvRow row{record.line, fmt::format("{}:{}", file_, record.line), {}};
  for (std::size_t i = 0; i < header.size(); ++i) row.fields[header[i]] = csv_unguarded(record.fields[i]);
  for (const std::string_view name : columns_.needed)
    if (row.text(name).empty()) fault(record.line, fmt::format("{} is missing", name), "fill it in");
  rows_.push_back(std::move(row));
}

void CsvImport::fault(int line, std::string message, std::string hint) {
  faults_.emplace_back(line, Error{ErrorCode::bad_import, std::move(message), fmt::format("{}:{}", file_, line),
                                   std::move(hint)});
}

void CsvImport::fault(const CsvRow& row, const Error& error) { fault(row.line, error.message, error.hint); }

Faults CsvImport::faults() && {
  std::stable_sort(faults_.begin(), faults_.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  Faults faults;
  for (auto& [line, error] : faults_) faults.push_back(std::move(error));
  return faults;
}

std::vector<std::string> csv_words(std::string_view field, std::string_view separators) {
  std::vector<std::string> words;
  for (std::size_t at = 0; at <= field.size();) {
    const std::size_t end = std::min(field.find_first_of(separators, at), field.size());
    const std::string_view part = field.substr(at, end - at);
    const auto first = part.find_first_not_of(' ');
    if (first != std::string_view::npos)
      words.emplace_back(part.substr(first, part.find_last_not_of(' ') - first + 1));
    at = end + 1;
  }
  return words;
}

}  // namespace fogwright
