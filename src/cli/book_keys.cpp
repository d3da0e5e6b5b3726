// SPDX-License-Identifier: Apache-2.0
#include "cli/book_keys.hpp"

#include <fmt/format.h>

namespace fogwright {
namespace {

std::string without_newline(std::string text) {
  while (!text.empty() && (text.back() == '\n' || text.back() == '\r')) text.pop_back();
  return text;
}

Result<std::string> beside_the_book(const Call& call, std::string_view ending) {
  const auto book = book_path(call);
  if (!book) return book;
  return fmt::format("{}{}", *book, ending);
}

}  // namespace

Result<std::string> key_path(const Call& call) {
  if (const auto typed = call.options.text("key"); typed && !typed->empty()) return *typed;
  if (const auto set = call.outside.environment("FOGWRIGHT_KEY"); set && !set->empty()) return *set;
  return beside_the_book(call, ".key");
}

Result<VerifierKey> make_key(const Call& call, const std::string& origin) {
  if (auto named = key_name_ok(origin); !named) return tl::make_unexpected(named.error());
  SignerKey key;
  key.name = origin;
  call.outside.random(key.seed);
  const auto secret = key_path(call);
  if (!secret) return tl::make_unexpected(secret.error());
  const auto open = beside_the_book(call, ".vkey");
  if (!open) return tl::make_unexpected(open.error());
  if (auto written = write_new_file(*secret, skey_text(key) + "\n", true); !written)
    return tl::make_unexpected(written.error());
  const VerifierKey verifier = key.verifier();
  if (auto written = write_new_file(*open, vkey_text(verifier) + "\n"); !written)
    return tl::make_unexpected(written.error());
  return verifier;
}

Result<SignerKey> load_key(const Call& call) {
  const auto path = key_path(call);
  if (!path) return tl::make_unexpected(path.error());
  const auto text = read_file(*path, 10'000);
  if (!text) {
    Error error = text.error();
    error.hint = "name the file of the book's signing key with --key or FOGWRIGHT_KEY";
    return tl::make_unexpected(std::move(error));
  }
  return read_skey(without_newline(*text));
}

Result<VerifierKey> load_vkey(const Call& call) {
  const auto typed = call.options.text("vkey");
  if (typed) {
    if (auto key = read_vkey(*typed)) return key;
  }
  const auto beside = beside_the_book(call, ".vkey");
  if (!typed && !beside) return tl::make_unexpected(beside.error());
  const std::string path = typed ? *typed : *beside;
  const auto text = read_file(path, 10'000);
  if (!text)
    return fail(ErrorCode::not_found, fmt::format("no public key is at {}", path), "--vkey",
                "give the key that you trust, as text or as a file: --vkey 'name+hash+key'");
  return read_vkey(without_newline(*text));
}

Result<std::string> checkpoint_now(const Call& call, Store& store) {
  const auto key = load_key(call);
  if (!key) return tl::make_unexpected(key.error());
  const Head head = store.head();
  const auto note = sign_checkpoint({store.origin(), static_cast<std::uint64_t>(head.size), head.root}, *key);
  if (!note) return note;
  store.add_checkpoint(head.size, *note);
  return note;
}

}  // namespace fogwright
