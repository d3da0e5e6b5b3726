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

/// What governs of each kind.
class GoverningLimits {
 public:
  GoverningLimits(const Active& active, const Substance* substance, std::span<const EnteredLimit> entered);
  [[nodiscard]] const std::optional<GoverningLimit>& of(LimitKind kind) const {
    return lowest_[static_cast<std::size_t>(kind)];
  }

 private:
  void keep_lower(LimitKind kind, std::optional<double> mg_per_m3, std::string_view authority,
                  std::string_view source);
  void add_printed(LimitKind kind, const std::optional<PrintedLimit>& printed, const Substance* substance);

  std::array<std::optional<GoverningLimit>, 4> lowest_;  ///< in the order of LimitKind
};

/// The lower of two limits, either of which may be missing.
[[nodiscard]] const std::optional<GoverningLimit>& stricter(const std::optional<GoverningLimit>& one,
                                                            const std::optional<GoverningLimit>& other);

}  // namespace fogwright::air
