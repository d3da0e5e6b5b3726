// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>
#include <string_view>

namespace fogwright {

/// The document of a stored text. Throws StorageFault (bad_book) if it is none.
[[nodiscard]] nlohmann::json document_of(std::string_view kind, std::string_view key, std::string_view text);

}  // namespace fogwright
