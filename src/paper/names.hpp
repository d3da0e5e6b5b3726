// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "fogwright/paper/document.hpp"

namespace fogwright::paper {

/// The words by which JSON and HTML call the members of an enum, in its order.
template <class Enum>
inline constexpr std::array<std::string_view, 0> names_of;
template <>
inline constexpr std::array<std::string_view, 2> names_of<Language>{"en", "es"};
template <>
inline constexpr std::array<std::string_view, 3> names_of<PageSize>{"letter", "A4", "label"};
template <>
inline constexpr std::array<std::string_view, 3> names_of<Emphasis>{"plain", "strong", "soft"};
template <>
inline constexpr std::array<std::string_view, 3> names_of<Size>{"small", "body", "lead"};
template <>
inline constexpr std::array<std::string_view, 2> names_of<Align>{"left", "right"};
template <>
inline constexpr std::array<std::string_view, 2> names_of<Tone>{"caution", "notice"};
template <>
inline constexpr std::array<std::string_view, 4> names_of<Look>{"line", "dashed", "steps", "dots"};

template <class Enum>
[[nodiscard]] constexpr std::string_view name_of(Enum value) {
  return names_of<Enum>[static_cast<std::size_t>(value)];
}
template <class Enum>
[[nodiscard]] constexpr std::optional<Enum> named(std::string_view name) {
  for (std::size_t i = 0; i < names_of<Enum>.size(); ++i)
    if (names_of<Enum>[i] == name) return static_cast<Enum>(i);
  return std::nullopt;
}

}  // namespace fogwright::paper
