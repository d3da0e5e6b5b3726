// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <string>

#include "store/options.hpp"

namespace fogwright {

/// A file with the one name and durable, or none: it is made under another name beside it and gets its own when
/// all of it is on the disk. Both throw StorageFault (already_exists if the target is there).

/// Makes the file of a new book without entries.
void make_book_file(const std::string& path, std::string_view origin, std::int64_t created_ms);

/// Makes the file of a book; `fill` is handed its path while it has another name.
void make_book_file(const std::string& path, std::string_view origin, std::int64_t created_ms,
                    const std::function<void(const std::string& draft)>& fill);

/// Copies a book as it is at one moment, while others go on writing. `progress` counts pages.
void copy_book_file(const std::string& path, const std::string& target, const SqliteOptions& options,
                    const Progress& progress);

}  // namespace fogwright
