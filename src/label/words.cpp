// SPDX-License-Identifier: Apache-2.0
#include "label/words.hpp"

namespace fogwright {

std::string_view signal_word_name(SignalWord word) noexcept { return profile::shown(word); }
std::string_view strength_name(StrengthClass strength) noexcept { return profile::shown(strength); }
std::string_view duct_material_name(DuctMaterial material) noexcept { return profile::shown(material); }
std::string_view facepiece_name(Facepiece facepiece) noexcept { return profile::shown(facepiece); }

}  // namespace fogwright
