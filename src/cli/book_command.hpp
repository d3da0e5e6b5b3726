// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.hpp"
#include "fogwright/store.hpp"

namespace fogwright {

/// The rows of `fogwright book ...`, for the command table.
[[nodiscard]] std::vector<Command> book_commands();
/// `book correct`, `book note`
[[nodiscard]] std::vector<Command> book_correct_commands();
/// `book verify`
[[nodiscard]] std::vector<Command> book_verify_commands();
/// `book checkpoint`, `cosigned`, `prove`
[[nodiscard]] std::vector<Command> book_checkpoint_commands();
/// `book bundle`
[[nodiscard]] std::vector<Command> book_bundle_commands();
/// `witness key`, `sign`
[[nodiscard]] std::vector<Command> witness_commands();

// Shared by them.
extern const OptionRow key_row, vkey_row, out_row;
[[nodiscard]] tl::unexpected<Faults> refuse_missing(std::string message, std::string where, std::string hint);
/// The number of the entry that was named by number or by id. Errors: not_found.
[[nodiscard]] Result<std::int64_t> entry_named(Store& store, const std::string& typed);
/// To the new file of --out, else to the output; with --json as the member `what`.
[[nodiscard]] Outcome write_or_print(const Call& call, const std::string& text, std::string_view what);

}  // namespace fogwright
