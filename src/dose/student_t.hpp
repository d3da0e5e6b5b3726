// SPDX-License-Identifier: Apache-2.0
#pragma once

namespace fogwright {

/// Student's t for a two-sided 95 % interval. Precondition: at least one degree of freedom.
/// To 6 significant digits or better.
[[nodiscard]] double student_t_95(int degrees_of_freedom) noexcept;

}  // namespace fogwright
