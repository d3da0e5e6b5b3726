// SPDX-License-Identifier: Apache-2.0
#pragma once

/// The fixed words of a profile, each beside its value and the way it is shown to a person.

#include <algorithm>
#include <span>
#include <string_view>
#include <vector>

#include "fogwright/label.hpp"

namespace fogwright::profile {

template <class E>
struct Word {
  E value;
  std::string_view written;  ///< in a profile
  std::string_view shown;    ///< to a person
};

// clang-format off
inline constexpr Word<SignalWord> signal_words[] = {
    {SignalWord::danger, "danger", "DANGER"}, {SignalWord::warning, "warning", "WARNING"},
    {SignalWord::caution, "caution", "CAUTION"}, {SignalWord::none, "none", ""}};
inline constexpr Word<StrengthClass> strengths[] = {
    {StrengthClass::ready_to_use, "ready-to-use", "ready-to-use"},
    {StrengthClass::dilutable, "dilutable", "dilutable"},
    {StrengthClass::high_strength_oxidiser, "high-strength-oxidiser", "high-strength-oxidiser"}};
inline constexpr Word<UseSite> use_sites[] = {
    {UseSite::hvac_ductwork, "hvac-ductwork", "HVAC ductwork"}, {UseSite::hard_surface, "hard-surface", "hard surfaces"},
    {UseSite::room_air, "room-air", "room air"}, {UseSite::other, "other", "other"}};
inline constexpr Word<Method> methods[] = {
    {Method::fogging, "fogging", "fogging"}, {Method::spraying, "spraying", "spraying"},
    {Method::wiping, "wiping", "wiping"}, {Method::other, "other", "other"}};
inline constexpr Word<DuctMaterial> duct_materials[] = {
    {DuctMaterial::bare_metal, "bare-metal", "bare metal"}, {DuctMaterial::flexible, "flexible", "flexible duct"},
    {DuctMaterial::duct_board, "duct-board", "duct board"}, {DuctMaterial::lined, "lined", "lined duct"}};
inline constexpr Word<Release> releases[] = {{Release::vapour, "vapour", "vapour"}, {Release::mist, "mist", "mist"}};
inline constexpr Word<Chemistry> chemistries[] = {
    {Chemistry::hypochlorite, "hypochlorite", "hypochlorite"}, {Chemistry::chlorite, "chlorite", "chlorite"},
    {Chemistry::acid, "acid", "acid"}, {Chemistry::peroxide, "peroxide", "peroxide"},
    {Chemistry::peracid, "peracid", "peracid"},
    {Chemistry::quaternary_ammonium, "quaternary-ammonium", "quaternary ammonium"},
    {Chemistry::alcohol, "alcohol", "alcohol"}, {Chemistry::none, "none", "none of these"}};
inline constexpr Word<Facepiece> facepieces[] = {
    {Facepiece::none, "none", "none"}, {Facepiece::filtering, "filtering", "filtering facepiece"},
    {Facepiece::half_mask, "half-mask", "half mask"}, {Facepiece::full_facepiece, "full-facepiece", "full facepiece"},
    {Facepiece::powered, "powered", "powered air-purifying"}, {Facepiece::supplied_air, "supplied-air", "supplied air"},
    {Facepiece::self_contained, "self-contained", "self-contained"}};
// clang-format on

constexpr std::span<const Word<SignalWord>> words_of(SignalWord) { return signal_words; }
constexpr std::span<const Word<StrengthClass>> words_of(StrengthClass) { return strengths; }
constexpr std::span<const Word<UseSite>> words_of(UseSite) { return use_sites; }
constexpr std::span<const Word<Method>> words_of(Method) { return methods; }
constexpr std::span<const Word<DuctMaterial>> words_of(DuctMaterial) { return duct_materials; }
constexpr std::span<const Word<Release>> words_of(Release) { return releases; }
constexpr std::span<const Word<Chemistry>> words_of(Chemistry) { return chemistries; }
constexpr std::span<const Word<Facepiece>> words_of(Facepiece) { return facepieces; }

template <class E>
[[nodiscard]] constexpr std::string_view shown(E value) {
  const auto words = words_of(value);
  return std::find_if(words.begin(), words.end(), [&](const Word<E>& word) { return word.value == value; })
      ->shown;
}

template <class E>
[[nodiscard]] std::vector<std::string_view> written_words() {
  std::vector<std::string_view> all;
  for (const auto& word : words_of(E{})) all.push_back(word.written);
  return all;
}

}  // namespace fogwright::profile
