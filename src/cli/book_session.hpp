// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.hpp"
#include "fogwright/desk/context.hpp"
#include "fogwright/desk/job.hpp"
#include "fogwright/store.hpp"

namespace fogwright {

/// --book, --by: what every command that works on a book takes besides its own options.
[[nodiscard]] const std::vector<OptionRow>& book_options();
[[nodiscard]] std::vector<OptionRow> with_book_options(std::vector<OptionRow> rows);

/// Where this program keeps things of the user (XDG base directories); none without a home folder.
[[nodiscard]] std::optional<std::string> data_folder(const Call& call);

/// Where the book is: --book, else FOGWRIGHT_BOOK, else in the user's data folder. A path, or an address that
/// may hold a password: shown_address() is for printing.
[[nodiscard]] Result<std::string> book_path(const Call& call);

/// Opens that book. Errors: those of the store's open_book.
[[nodiscard]] tl::expected<std::unique_ptr<Store>, Faults> open_book(const Call& call);
/// The one at this address.
[[nodiscard]] tl::expected<std::unique_ptr<Store>, Faults> open_book(const Call& call,
                                                                     const std::string& address);

/// Who asks (--by, else FOGWRIGHT_BY), on which device, when.
[[nodiscard]] DeskContext make_context(const Call& call, const Documents& now);

using Request = std::function<Result<Drafts>(const DeskContext& context)>;
/// Lets the desk decide under the writers' lock and appends what it decides. Errors: the desk's; missing_value
/// without --by.
[[nodiscard]] tl::expected<std::vector<Receipt>, Faults> submit(const Call& call, Store& store,
                                                                const Request& request);

using Deciding = std::function<Result<Decision>(const DeskContext& context)>;
/// The same for what may be refused and written down at once: the entries are appended, then the refusal is the
/// outcome.
[[nodiscard]] tl::expected<std::vector<Receipt>, Faults> submit_decision(const Call& call, Store& store,
                                                                         const Deciding& decide);

}  // namespace fogwright
