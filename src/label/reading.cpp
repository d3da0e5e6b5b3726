// SPDX-License-Identifier: Apache-2.0
#include "label/reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "label/nearest.hpp"

namespace fogwright::profile {
namespace {

std::vector<std::string_view> names_of(const TableFacts& table) {
  std::vector<std::string_view> names;
  for (const MemberFacts& member : table.members) names.push_back(member.name);
  return names;
}

/// The header of the first table that has a member of this name.
std::string_view home_of(std::string_view name) {
  for (const TableFacts& table : label_member_table())
    for (const MemberFacts& member : table.members)
      if (member.name == name) return table.header;
  return {};
}

}  // namespace

void Reading::fault(toml::source_position at, std::string message, std::string hint) {
  faults_.push_back({at, Error{ErrorCode::bad_label, std::move(message), where(at), std::move(hint)}});
}

void Reading::fault(const Spot& spot, std::string_view message, std::string hint) {
  if (hint.empty()) hint = write_hint(spot.name, spot.example, spot.shape);
  fault(spot.at(), fmt::format("{}: {}", spot.name, message), std::move(hint));
}

void Reading::wrong_type(const Spot& spot, std::string_view expected) {
  fault(spot, fmt::format("{} is expected here", expected));
}

void Reading::unknown_member(const toml::key& key, const TableFacts& table) {
  const auto names = names_of(table);
  std::string hint;
  if (const auto home = home_of(key.str()); !home.empty())
    hint = fmt::format("{} belongs in {}", key.str(), home);
  else if (const auto near = nearest(key.str(), names))
    hint = fmt::format("did you mean {}?", *near);
  else
    hint = fmt::format("members here are: {}", listed(names));
  fault(key.source().begin, fmt::format("unknown member {}", in_quotes(key.str())), std::move(hint));
}

void Reading::missing_member(toml::source_position at, std::string_view header, std::string_view name,
                             std::string_view example, Shape shape) {
  if (whole_) fault(at, fmt::format("{} lacks {}", header, name), write_hint(name, example, shape));
}

std::string Reading::where(toml::source_position at) const {
  return fmt::format("{}:{}:{}", file_, at.line, at.column);
}

Faults Reading::take() {
  std::stable_sort(faults_.begin(), faults_.end(), [](const Placed& a, const Placed& b) {
    return std::tie(a.at.line, a.at.column) < std::tie(b.at.line, b.at.column);
  });
  Faults sorted;
  for (Placed& placed : faults_) sorted.push_back(std::move(placed.error));
  return sorted;
}

std::string write_hint(std::string_view name, std::string_view example, Shape shape) {
  return is_table(shape) ? fmt::format("add a table {}", example)
                         : fmt::format("write for example {} = {}", name, example);
}

}  // namespace fogwright::profile
