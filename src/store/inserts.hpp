// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <span>
#include <string>
#include <tuple>

#include "store/sqlite.hpp"

namespace fogwright::sqlite {

/// Inserts rows into one table, many of them with one statement: a statement of its own costs a row as much as
/// its place in the table.
class Inserts {
 public:
  /// `into`: the table and its columns, as in "meta(name, value)". `conflict`: what stands behind the rows.
  /// Prepared when they are first used. Precondition: the connection outlives this.
  Inserts(const Connection& connection, std::string into, int columns, std::string conflict = {});

  /// `values_of(row)` gives the values of a row, in the order of the columns, as a tuple.
  template <class Row, class ValuesOf>
  void run(std::span<const Row> rows, ValuesOf values_of) {
    for (; rows.size() >= at_once; rows = rows.subspan(at_once))
      run(prepared(many_, at_once), rows.first(at_once), values_of);
    for (; !rows.empty(); rows = rows.subspan(1)) run(prepared(one_, 1), rows.first(1), values_of);
  }

 private:
  static constexpr std::size_t at_once = 16;

  template <class Row, class ValuesOf>
  static void run(Statement& statement, std::span<const Row> rows, ValuesOf values_of) {
    int index = 1;
    for (const Row& row : rows)
      index = std::apply([&](auto... values) { return statement.bind_from(index, values...); }, values_of(row));
    statement.run();
  }
  Statement& prepared(std::optional<Statement>& statement, std::size_t rows);

  const Connection& connection_;
  std::string into_, conflict_;
  int columns_;
  std::optional<Statement> one_, many_;
};

}  // namespace fogwright::sqlite
