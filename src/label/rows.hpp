// SPDX-License-Identifier: Apache-2.0
#pragma once

/// The rows of a profile's tables. A row holds a member's facts and the function that reads it, made together
/// by one call, so that the two cannot disagree.

#include <algorithm>
#include <set>
#include <span>

#include "label/values.hpp"

namespace fogwright::profile {

enum Need : bool { optional = false, required = true };

template <class T>
struct Row {
  MemberFacts facts;
  void (*read)(Reading&, const Spot&, T&);
};

template <class T>
struct Table {
  std::string_view name, header, doc;
  std::span<const Row<T>> rows;
  /// What holds between members; called when the members have been read. May be null.
  void (*check)(Reading&, const toml::table&, const T&) = nullptr;

  [[nodiscard]] TableFacts facts() const {
    TableFacts all{name, header, doc, {}};
    for (const Row<T>& row : rows) all.members.push_back(row.facts);
    return all;
  }
};

template <class T>
void read_table(Reading& reading, const Table<T>& table, std::string_view header, const toml::table& node,
                toml::source_position at, T& into) {
  for (const auto& [key, member] : node) {
    const auto row = std::find_if(table.rows.begin(), table.rows.end(),
                                  [name = key.str()](const Row<T>& r) { return r.facts.name == name; });
    if (row == table.rows.end())
      reading.unknown_member(key, table.facts());
    else
      row->read(reading, Spot{row->facts.name, row->facts.example, row->facts.shape, &member}, into);
  }
  for (const Row<T>& row : table.rows)
    if (row.facts.required && !node.contains(row.facts.name))
      reading.missing_member(at, header, row.facts.name, row.facts.example, row.facts.shape);
  if (table.check != nullptr && reading.whole()) table.check(reading, node, into);
}

namespace detail {
template <class M>
struct FieldOf;
template <class Owner_, class Value_>
struct FieldOf<Value_ Owner_::*> {
  using Owner = Owner_;
  using Value = Value_;
};
template <class V>
struct Bare {
  using type = V;
};
template <class V>
struct Bare<std::optional<V>> {
  using type = V;
};
template <class V>
struct Bare<std::vector<V>> {
  using type = V;
};

template <auto Field>
using Owner = typename FieldOf<decltype(Field)>::Owner;
/// The field's own type, without its optional or vector.
template <auto Field>
using Value = typename Bare<typename FieldOf<decltype(Field)>::Value>::type;

template <auto Field, class V>
void store(Owner<Field>& owner, std::optional<V> value) {
  if (value) owner.*Field = std::move(*value);
}

/// Calls `each` with every item of a list that is not empty.
template <class Each>
void for_each_item(Reading& reading, const Spot& spot, Each each) {
  const auto* list = spot.node->as_array();
  if (list == nullptr) return reading.wrong_type(spot, "a list in square brackets");
  if (list->empty()) return reading.fault(spot, "the list is empty");
  for (const toml::node& item : *list) each(Spot{spot.name, spot.example, spot.shape, &item});
}
}  // namespace detail

template <auto Field>
constexpr Row<detail::Owner<Field>> text(std::string_view name, Need need, std::string_view example,
                                         std::string_view doc) {
  return {{name, Shape::text, need, example, doc}, [](Reading& r, const Spot& s, detail::Owner<Field>& owner) {
            detail::store<Field>(owner, read_line(r, s, longest_text));
          }};
}

template <auto Field>
constexpr Row<detail::Owner<Field>> statement(std::string_view name, Need need, std::string_view example,
                                              std::string_view doc) {
  return {{name, Shape::statement, need, example, doc},
          [](Reading& r, const Spot& s, detail::Owner<Field>& owner) {
            detail::store<Field>(owner, read_line(r, s, longest_statement));
          }};
}

template <auto Field>
constexpr Row<detail::Owner<Field>> statements(std::string_view name, Need need, std::string_view example,
                                               std::string_view doc) {
  return {{name, Shape::statements, need, example, doc},
          [](Reading& r, const Spot& s, detail::Owner<Field>& owner) {
            detail::for_each_item(r, s, [&](const Spot& item) {
              if (auto line = read_line(r, item, longest_statement)) (owner.*Field).push_back(std::move(*line));
            });
          }};
}

/// `Read` is the reader of the field's quantity, from fogwright/quantity.hpp.
template <auto Field, auto Read>
constexpr Row<detail::Owner<Field>> quantity(std::string_view name, Need need, std::string_view example,
                                             std::string_view doc) {
  return {{name, Shape::quantity, need, example, doc},
          [](Reading& r, const Spot& s, detail::Owner<Field>& owner) {
            detail::store<Field>(owner, read_quantity<detail::Value<Field>>(r, s, Read));
          }};
}

/// A value whose reader is one of values.hpp.
template <auto Field, auto Read>
constexpr Row<detail::Owner<Field>> value(std::string_view name, Shape shape, Need need,
                                          std::string_view example, std::string_view doc) {
  return {{name, shape, need, example, doc}, [](Reading& r, const Spot& s, detail::Owner<Field>& owner) {
            detail::store<Field>(owner, Read(r, s));
          }};
}

template <auto Field>
constexpr Row<detail::Owner<Field>> word(std::string_view name, Need need, std::string_view example,
                                         std::string_view doc) {
  using E = detail::Value<Field>;
  return {{name, Shape::word, need, example, doc, written_words<E>},
          [](Reading& r, const Spot& s, detail::Owner<Field>& owner) {
            detail::store<Field>(owner, read_word<E>(r, s));
          }};
}

template <auto Field>
constexpr Row<detail::Owner<Field>> words(std::string_view name, Need need, std::string_view example,
                                          std::string_view doc) {
  using E = detail::Value<Field>;
  return {{name, Shape::words, need, example, doc, written_words<E>},
          [](Reading& r, const Spot& s, detail::Owner<Field>& owner) {
            std::set<E> seen;
            detail::for_each_item(r, s, [&](const Spot& item) {
              const auto chosen = read_word<E>(r, item);
              if (!chosen) return;
              if (seen.insert(*chosen).second)
                (owner.*Field).push_back(*chosen);
              else
                r.fault(item, "listed twice", "delete one of the two");
            });
          }};
}

namespace detail {
/// Reads the member as one table into `into`; `header` is how a profile writes it. False when it is no table.
template <class T>
bool read_inner(Reading& reading, const Table<T>& inner, const Spot& spot, T& into) {
  const auto* node = spot.node->as_table();
  if (node == nullptr)
    reading.fault(spot, "a table is expected here");
  else
    read_table(reading, inner, spot.example, *node, spot.at(), into);
  return node != nullptr;
}
}  // namespace detail

/// A table of its own, read into a field. `kind` is the inner table's name.
template <auto Field, const auto* Inner>
constexpr Row<detail::Owner<Field>> table(std::string_view name, Need need, std::string_view header,
                                          std::string_view kind, std::string_view doc) {
  return {{name, Shape::table, need, header, doc, nullptr, kind},
          [](Reading& r, const Spot& s, detail::Owner<Field>& owner) {
            detail::Value<Field> inner;
            if (detail::read_inner(r, *Inner, s, inner)) owner.*Field = std::move(inner);
          }};
}

/// A table of its own whose members are fields of the owner.
template <class T, const Table<T>* Inner>
constexpr Row<T> group(std::string_view name, Need need, std::string_view header, std::string_view kind,
                       std::string_view doc) {
  return {{name, Shape::table, need, header, doc, nullptr, kind},
          [](Reading& r, const Spot& s, T& owner) { detail::read_inner(r, *Inner, s, owner); }};
}

/// Any number of tables, at least one.
template <auto Field, const auto* Inner>
constexpr Row<detail::Owner<Field>> tables(std::string_view name, Need need, std::string_view header,
                                           std::string_view kind, std::string_view doc) {
  return {{name, Shape::tables, need, header, doc, nullptr, kind},
          [](Reading& r, const Spot& s, detail::Owner<Field>& owner) {
            detail::for_each_item(r, s, [&](const Spot& item) {
              detail::Value<Field> inner;
              if (detail::read_inner(r, *Inner, item, inner)) (owner.*Field).push_back(std::move(inner));
            });
          }};
}

}  // namespace fogwright::profile
