// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

#include "fogwright/error.hpp"

namespace fogwright::server {

/// A file that only its owner may read. Empty where there is none. Errors: file_fault, also where others may
/// read it.
[[nodiscard]] Result<std::string> read_private_file(const std::string& path);
/// Puts a new file in the place of the old one; it is durable before it has the name. Throws StorageFault.
void replace_private_file(const std::string& path, std::string_view bytes);

}  // namespace fogwright::server
