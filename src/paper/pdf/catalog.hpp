// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

namespace fogwright::paper::pdf {

/// The PDF with its language set and its title shown by readers: an incremental update (ISO 32000-1, 7.5.6)
/// that replaces the catalog, for cairo 1.16 has no call for either. The bytes come back as they were where
/// they are not what cairo writes.
[[nodiscard]] std::string with_language(std::string pdf, std::string_view language);

}  // namespace fogwright::paper::pdf
