// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/book_session.hpp"
#include "fogwright/book/checkpoint.hpp"

namespace fogwright {

/// Where the book's secret signing key is: --key, else FOGWRIGHT_KEY, else beside the book (BOOK.key). Its
/// public half is beside the book as BOOK.vkey, for those who verify.
[[nodiscard]] Result<std::string> key_path(const Call& call);

/// Makes and writes both; nothing is overwritten. Returns the public half.
[[nodiscard]] Result<VerifierKey> make_key(const Call& call, const std::string& origin);
[[nodiscard]] Result<SignerKey> load_key(const Call& call);
/// The public key to check by: --vkey (text or file), else BOOK.vkey. Errors: not_found where there is none.
[[nodiscard]] Result<VerifierKey> load_vkey(const Call& call);

/// Signs the book as it is now, keeps the checkpoint in it, and returns the note.
[[nodiscard]] Result<std::string> checkpoint_now(const Call& call, Store& store);

}  // namespace fogwright
