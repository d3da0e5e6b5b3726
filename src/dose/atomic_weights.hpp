// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Abridged standard atomic weights, IUPAC, in g/mol (from memory).
namespace fogwright::atomic_weight {

inline constexpr double oxygen = 15.999;
inline constexpr double sodium = 22.98976928;
inline constexpr double chlorine = 35.45;

}  // namespace fogwright::atomic_weight
