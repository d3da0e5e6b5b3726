// SPDX-License-Identifier: Apache-2.0
/// What may not meet what. General inorganic chemistry, from memory; each product's data sheet, section 10,
/// governs.

#include <fmt/format.h>

#include <algorithm>

#include "fogwright/label.hpp"
#include "label/words.hpp"

namespace fogwright {
namespace {

struct Enemies {
  Chemistry one, other;
  std::string_view outcome;
};

using enum Chemistry;
constexpr Enemies enemies[] = {
    {hypochlorite, acid, "chlorine gas is given off"},
    {hypochlorite, peracid, "its acid drives chlorine gas out of the hypochlorite"},
    {hypochlorite, chlorite, "chlorine dioxide is given off, more than any label foresees"},
    {hypochlorite, peroxide, "oxygen is given off so fast that containers burst and liquid is thrown about"},
    {hypochlorite, quaternary_ammonium, "chloramines may be given off, how much is not known"},
    {hypochlorite, alcohol, "chlorinated organic vapours are given off, with heat"},
    {chlorite, acid, "chlorine dioxide is given off without the label's own mixing table to bound it"},
    {chlorite, peracid, "its acid drives chlorine dioxide out of the chlorite"},
    {chlorite, peroxide, "they react with each other, with oxygen and heat given off"},
    {chlorite, alcohol, "an oxidiser meets a fuel: fire"},
    {peroxide, acid, "peracids form, which no label foresees"},
    {peroxide, peracid, "a mix of peroxide and peracid arises that is not on either label"},
    {peroxide, alcohol, "an oxidiser meets a fuel: fire"},
    {peracid, alcohol, "an oxidiser meets a fuel: fire"},
};

const Enemies* enemies_among(Chemistry a, Chemistry b) {
  const auto* found = std::find_if(std::begin(enemies), std::end(enemies), [&](const Enemies& e) {
    return (e.one == a && e.other == b) || (e.one == b && e.other == a);
  });
  return found == std::end(enemies) ? nullptr : found;
}

/// What one label mixes by its own table is that label's business.
bool same_product(const Label& one, const Label& other) {
  return one.name == other.name && one.registration == other.registration;
}

}  // namespace

Result<void> may_meet(const Label& one, const Label& other) {
  if (same_product(one, other)) return {};
  for (const Chemistry a : one.chemistry)
    for (const Chemistry b : other.chemistry)
      if (const Enemies* pair = enemies_among(a, b))
        return fail(ErrorCode::incompatible_chemistry,
                    fmt::format("{} ({}) must not meet {} ({}): {}", one.name, profile::shown(a), other.name,
                                profile::shown(b), pair->outcome),
                    "chemistry", "use one of the two in this job, with foggers and measures of its own");
  return {};
}

}  // namespace fogwright
