// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

#include "fogwright/book/documents.hpp"
#include "fogwright/book/uuid.hpp"

namespace fogwright {

/// What can happen where there is no network. People, credentials, labels and registers wait for it.
[[nodiscard]] bool made_offline(std::string_view kind);

/// A name for a "job", "container" or "batch" that is made away from the book, where others may count to the
/// same number meanwhile: the next number, and the end of its entry's id ("J12-4f09a1").
[[nodiscard]] std::string name_offline(const Documents& now, const std::string& kind, const Uuid& id);

}  // namespace fogwright
