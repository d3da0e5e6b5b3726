// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "cli/outside.hpp"
#include "fogwright/label.hpp"

namespace fogwright {

/// Folders searched for a profile by name: FOGWRIGHT_LABELS, else the user's data folder (XDG base
/// directories).
[[nodiscard]] std::vector<std::string> label_folders(const Outside& outside);

/// Profile files of a folder, sorted by name; empty where the folder cannot be read.
[[nodiscard]] std::vector<std::string> profile_files(const std::string& folder);

/// Reads a profile by file, or by name from the label folders. Errors: file_fault, not_found, bad_label.
[[nodiscard]] tl::expected<std::shared_ptr<const Label>, Faults> load_label(const std::string& file_or_name,
                                                                            const Outside& outside);

}  // namespace fogwright
