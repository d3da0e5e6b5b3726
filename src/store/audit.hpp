// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

#include "store/options.hpp"

namespace fogwright {

struct AuditedBook {
  const std::string& path;
  const SqliteOptions& options;
  const std::string& origin;
  Fold fold;
};

/// Store::verify for a book in a file, over connections of its own. Throws StorageFault if the file cannot be
/// read.
[[nodiscard]] Verification audit_book(const AuditedBook& book, std::string_view trusted_vkey, VerifyDepth depth,
                                      const Progress& progress);

}  // namespace fogwright
