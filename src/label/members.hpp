// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What a product profile may hold, as facts. The rows that read a profile carry these facts, so that the
/// reference (docs/labels.md, docs/label.schema.json) is held against the reader itself.

#include <string_view>
#include <vector>

namespace fogwright::profile {

/// How a member is written.
enum class Shape {
  format,      ///< the integer 1
  text,        ///< a short line: a name, a source
  statement,   ///< a line in the label's words
  quantity,    ///< text with a unit
  fraction,    ///< text with % or ppm
  number,      ///< a bare number
  flag,        ///< true or false
  date,        ///< text, year-month-day
  cas,         ///< text, a CAS registry number
  un_number,   ///< text, UN and four digits
  word,        ///< one of a list
  words,       ///< a list of those, none twice
  statements,  ///< a list of statements
  table,       ///< one table of its own
  tables,      ///< any number of them
};

inline constexpr std::size_t longest_text = 200;         ///< characters
inline constexpr std::size_t longest_statement = 2000;   ///< characters
inline constexpr std::size_t longest_profile = 1 << 20;  ///< bytes

struct MemberFacts {
  std::string_view name;
  Shape shape{};
  bool required = false;
  std::string_view example;  ///< the right-hand side, as TOML
  std::string_view doc;
  std::vector<std::string_view> (*words)() = nullptr;  ///< with Shape::word and Shape::words
  std::string_view table{};  ///< with Shape::table and Shape::tables: the table's name
};

struct TableFacts {
  std::string_view name;    ///< unique: "active", "printed limit"
  std::string_view header;  ///< as it stands in a profile: "[[active]]"
  std::string_view doc;
  std::vector<MemberFacts> members;
};

/// Every table of a profile, the top level first.
[[nodiscard]] const std::vector<TableFacts>& label_member_table();

/// Shape::table and Shape::tables are written under a header of their own, not as `name = ...`.
[[nodiscard]] constexpr bool is_table(Shape shape) { return shape == Shape::table || shape == Shape::tables; }

}  // namespace fogwright::profile
