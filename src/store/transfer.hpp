// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "fogwright/store.hpp"

namespace fogwright {

/// Writes all that one book holds into another one of the same name that has no entries: entries byte for byte,
/// checkpoints, private bytes; its documents follow from the entries. In one transaction. Then reads all of the
/// other one again. Returns what was proved. Faults: already_exists if the target is not empty, bad_book if
/// source or copy do not hold together.
[[nodiscard]] tl::expected<Transferred, Faults> transfer(Store& from, Store& to, const Progress& progress);

/// The same into a new SQLite file, which gets its name when all of it is there and durable. Throws
/// StorageFault (already_exists if the name is taken).
[[nodiscard]] tl::expected<Transferred, Faults> copy_to_file(Store& from, const std::string& path, Fold fold,
                                                             const Clock& clock, const Progress& progress);

}  // namespace fogwright
