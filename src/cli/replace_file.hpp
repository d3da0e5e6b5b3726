// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

#include "fogwright/error.hpp"

namespace fogwright {

/// Writes a file over one that may be there: whoever opens it finds the old bytes or the new ones, whole, also
/// after a crash. Errors: file_fault.
[[nodiscard]] Result<void> replace_file(const std::string& path, std::string_view bytes);

}  // namespace fogwright
