// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/book_session.hpp"
#include "fogwright/book/checkpoint.hpp"
#include "fogwright/book/merkle.hpp"

namespace fogwright {

/// What the names of a book's keys begin with: the path of its file, or for a book on a server a name in the
/// user's data folder.
[[nodiscard]] Result<std::string> keys_of(const Call& call, const std::string& book);

/// Where the book's secret signing key is: --key, else FOGWRIGHT_KEY, else with the book (keys_of, .key). Its
/// public half is there as .vkey, for those who verify.
[[nodiscard]] Result<std::string> key_path(const Call& call);

/// A key of random bytes. Errors: not_understood for a name that no key may have.
[[nodiscard]] Result<SignerKey> new_key(const Call& call, const std::string& name, KeyKind kind);
/// Writes both halves, the secret one for its owner only; nothing is overwritten. Returns the public one.
[[nodiscard]] Result<VerifierKey> write_key_pair(const SignerKey& key, const std::string& secret,
                                                 const std::string& open);
[[nodiscard]] Result<SignerKey> read_key_file(const std::string& path, std::string hint);

/// Makes and writes the keys of a book. Returns the public half.
[[nodiscard]] Result<VerifierKey> make_key(const Call& call, const std::string& origin);
/// Takes away what make_key() just wrote, for a book that could not be made.
void remove_key(const Call& call);
[[nodiscard]] Result<SignerKey> load_key(const Call& call);
/// The public key to check by: --vkey (text or file), else with the book. Errors: not_found where there is
/// none.
[[nodiscard]] Result<VerifierKey> load_vkey(const Call& call);
/// A public key as typed, or of the file that was typed. Errors: not_found, not_understood.
[[nodiscard]] Result<VerifierKey> vkey_of(const std::string& typed, const std::string& option);
/// The keys of --witness, all of them.
[[nodiscard]] Result<std::vector<VerifierKey>> witness_keys(const Call& call);

/// Signs the book as it is now, keeps the checkpoint in it, and returns the note with all its signatures.
[[nodiscard]] Result<std::string> checkpoint_now(const Call& call, Store& store);

/// The checkpoint of this size, if the book keeps one.
[[nodiscard]] std::optional<std::string> kept_checkpoint(Store& store, std::int64_t size);

/// The hashes of the book's tree, for proofs. The store must outlive it.
[[nodiscard]] NodeSource nodes_of(Store& store);

}  // namespace fogwright
