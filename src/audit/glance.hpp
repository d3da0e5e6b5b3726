// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Reads a few members of a JSON object without taking the rest apart: the audit looks at every departure of a
/// book and lists few of them.

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace fogwright {

/// The members of one object, as their texts; views into the text given. It must be well-formed JSON as the
/// store keeps it; of anything else some members may be missing, and nothing outside the text is read. Holds
/// the first 32 members.
class Glance {
 public:
  explicit Glance(std::string_view object);

  /// The text of a value: `"J1"` with its quotes, `12`, `[...]`; empty where there is none.
  [[nodiscard]] std::string_view raw(std::string_view name) const;
  /// A string without its quotes, as it stands: right for ids and words without escapes.
  [[nodiscard]] std::string_view word(std::string_view name) const;
  [[nodiscard]] std::string text(std::string_view name) const;  ///< with escapes undone
  [[nodiscard]] std::optional<std::int64_t> integer(std::string_view name) const;

 private:
  struct Member {
    std::string_view name, value;
  };
  std::array<Member, 32> members_;
  std::size_t count_ = 0;
};

/// nullopt where the text is no whole number.
[[nodiscard]] std::optional<std::int64_t> integer_in(std::string_view value);

/// The elements of an array, one after the other.
void each_element(std::string_view array, const std::function<void(std::string_view element)>& visit);

}  // namespace fogwright
