// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What the imports share: all of a file or nothing, each fault with its line, and a dry run.

#include "cli/desk_call.hpp"

namespace fogwright {

/// --dry-run, which every import takes.
extern const OptionRow dry_run_row;

/// The file that the only operand names, up to 10 MB. Errors: missing_value, those of read_file.
[[nodiscard]] Result<std::string> read_import(const Call& call);

using Importing = std::function<tl::expected<Drafts, Faults>(const DeskContext& context)>;
/// Writes what `make` decides and tells it as write_to_book does. With --dry-run nothing is written: it tells
/// what would be, and every departure it would raise. JSON then has `dry_run`: true, and entries without seq.
[[nodiscard]] Outcome import_to_book(const Call& call, Store& store, const Importing& make, const Told& told);

}  // namespace fogwright
