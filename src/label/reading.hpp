// SPDX-License-Identifier: Apache-2.0
#pragma once

/// The notes of one reading: every fault with its place.

#include <toml++/toml.h>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/error.hpp"
#include "label/members.hpp"

namespace fogwright::profile {

/// A member's value and what is needed to speak about it.
struct Spot {
  std::string_view name;     ///< of the member
  std::string_view example;  ///< of the member
  Shape shape{};
  const toml::node* node = nullptr;
  [[nodiscard]] toml::source_position at() const { return node->source().begin; }
};

class Reading {
 public:
  /// `whole` is false when syntax errors took members away: what is missing then says nothing about the
  /// profile.
  Reading(std::string_view file, bool whole) : file_(file), whole_(whole) {}

  void fault(toml::source_position at, std::string message, std::string hint);
  /// "name: message"; without a hint, how to write the member.
  void fault(const Spot& spot, std::string_view message, std::string hint = {});
  void wrong_type(const Spot& spot, std::string_view expected);
  void unknown_member(const toml::key& key, const TableFacts& table);
  void missing_member(toml::source_position at, std::string_view header, std::string_view name,
                      std::string_view example, Shape shape);

  [[nodiscard]] bool whole() const { return whole_; }
  [[nodiscard]] std::string where(toml::source_position at) const;  ///< "file:line:column"
  /// In order of place.
  [[nodiscard]] Faults take();

 private:
  struct Placed {
    toml::source_position at;
    Error error;
  };
  std::string file_;
  bool whole_;
  std::vector<Placed> faults_;
};

/// "write for example empty_time = "60 min""
[[nodiscard]] std::string write_hint(std::string_view name, std::string_view example, Shape shape);

}  // namespace fogwright::profile
