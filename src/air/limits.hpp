// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/air.hpp"

namespace fogwright::air {

/// The CAS number of what an active puts into the air: itself, or what it gives off.
[[nodiscard]] std::string_view airborne_cas(const Active& active);

/// What a limit comes to in mg/m3: ppm controls, and the smaller of the two readings is used. nullopt where ppm
/// is all there is and the molar mass is not known (nullptr).
[[nodiscard]] std::optional<double> limit_mg_per_m3(std::optional<double> ppm, std::optional<double> mg_per_m3,
                                                    const Substance* substance);

/// As the public governing_limit, for a substance that has been looked up already.
[[nodiscard]] std::optional<GoverningLimit> governing_limit(const Active& active, const Substance* substance,
                                                            LimitKind kind,
                                                            std::span<const EnteredLimit> entered);

/// The lower of two limits, either of which may be missing.
[[nodiscard]] const std::optional<GoverningLimit>& stricter(const std::optional<GoverningLimit>& one,
                                                            const std::optional<GoverningLimit>& other);

}  // namespace fogwright::air
