// SPDX-License-Identifier: Apache-2.0
#include "store/inserts.hpp"

#include <fmt/format.h>

namespace fogwright::sqlite {
namespace {

/// "(?,?),(?,?)" for two rows of two columns.
std::string places_of(std::size_t rows, int columns) {
  std::string row = "(";
  for (int i = 0; i < columns; ++i) row += "?,";
  row.back() = ')';
  std::string all = row;
  while (--rows > 0) all += ',' + row;
  return all;
}

}  // namespace

Inserts::Inserts(const Connection& connection, std::string into, int columns, std::string conflict)
    : connection_(connection), into_(std::move(into)), conflict_(std::move(conflict)), columns_(columns) {}

Statement& Inserts::prepared(std::optional<Statement>& statement, std::size_t rows) {
  if (!statement)
    statement = connection_.prepare(
        fmt::format("INSERT INTO {} VALUES{} {}", into_, places_of(rows, columns_), conflict_));
  return *statement;
}

}  // namespace fogwright::sqlite
