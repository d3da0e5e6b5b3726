// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Reads members of a JSON object one by one, notes every fault with its place, and names members nobody asked
/// for. A site file, a request over the network and the options of the command line all go through here.

#include <functional>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <string>

#include "fogwright/quantity.hpp"

namespace fogwright {

/// Where a member was written: "file:line:column", an option, a JSON pointer.
struct Place {
  std::string shown;
  ErrorCode code = ErrorCode::not_understood;  ///< of a fault there: bad_site in a file
};

/// What all tables of one reading share.
struct MemberReading {
  std::function<Place(const std::string& pointer)> place;
  Faults faults;

  void fault(const std::string& pointer, std::string message, std::string hint) {
    Place at = place(pointer);
    faults.push_back({at.code, std::move(message), std::move(at.shown), std::move(hint)});
  }
};

class TableReader {
 public:
  TableReader(const nlohmann::json& object, std::string pointer, MemberReading& reading)
      : object_(object), pointer_(std::move(pointer)), reading_(reading) {}

  std::optional<std::string> text(const char* name);
  std::optional<bool> flag(const char* name);
  std::optional<std::int64_t> whole(const char* name, std::int64_t low, std::int64_t high);
  std::optional<double> number(const char* name, double low, double high);

  /// A quantity written as text with its unit; `bare` names the unit of a number without one, if that is
  /// allowed.
  template <class Q>
  std::optional<Q> quantity(const char* name, Result<Q> (*read)(std::string_view, std::string_view, BareUnit),
                            std::string_view bare = {}) {
    const auto written = quantity_text(name);
    if (!written) return std::nullopt;
    auto value = read(*written, {}, BareUnit{bare});
    if (value) return *value;
    fault(name, std::move(value.error().message), std::move(value.error().hint));
    return std::nullopt;
  }

  /// One of a few words.
  template <class E, std::size_t N>
  std::optional<E> choice(const char* name, const std::pair<std::string_view, E> (&words)[N]) {
    const auto written = text(name);
    if (!written) return std::nullopt;
    std::string accepted;
    for (const auto& [word, value] : words) {
      if (word == *written) return value;
      accepted += (accepted.empty() ? "" : ", ") + std::string(word);
    }
    fault(name, "\"" + *written + "\" is not a known choice", "write one of: " + accepted);
    return std::nullopt;
  }

  /// The member as a table of its own, if present.
  std::optional<TableReader> table(const char* name);
  /// Calls `read` with each table of an array of tables.
  void tables(const char* name, const std::function<void(TableReader&)>& read);

  [[nodiscard]] bool has(const char* name) const { return object_.contains(name); }
  void fault(const char* name, std::string message, std::string hint) {
    reading_.fault(at(name), std::move(message), std::move(hint));
  }
  /// Names the members that nobody asked for.
  void finish();

 private:
  const nlohmann::json* member(const char* name);
  std::optional<std::string> quantity_text(const char* name);
  [[nodiscard]] std::string at(const std::string& name) const { return pointer_ + "/" + name; }

  const nlohmann::json& object_;
  std::string pointer_;
  MemberReading& reading_;
  std::set<std::string> known_;
};

}  // namespace fogwright
