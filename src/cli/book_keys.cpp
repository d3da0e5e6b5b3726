// SPDX-License-Identifier: Apache-2.0
#include "cli/book_keys.hpp"

#include <fmt/format.h>

#include <filesystem>

namespace fogwright {
namespace {

std::string without_newline(std::string text) {
  while (!text.empty() && (text.back() == '\n' || text.back() == '\r')) text.pop_back();
  return text;
}

// The keys of a book on a server are in the user's data folder, under the name of the book.
Result<std::string> of_server(const Call& call, const std::string& address) {
  const auto name = file_name_of(address);
  if (!name) return name;
  if (const auto folder = data_folder(call)) return fmt::format("{}/keys/{}", *folder, *name);
  return fail(ErrorCode::missing_value, "there is no home folder to keep keys in", "--key",
              "write --key FILE or set FOGWRIGHT_KEY");
}

Result<std::string> beside_the_book(const Call& call, std::string_view ending) {
  const auto book = book_path(call);
  if (!book) return book;
  return keys_of(call, *book).map([&](const std::string& path) { return path + std::string(ending); });
}

void make_folder_of(const std::string& path) {
  std::error_code ignored;  // writing says it
  std::filesystem::create_directories(std::filesystem::path(path).parent_path(), ignored);
}

}  // namespace

Result<std::string> keys_of(const Call& call, const std::string& book) {
  return is_server_address(book) ? of_server(call, book) : Result<std::string>(book);
}

Result<std::string> key_path(const Call& call) {
  if (const auto typed = call.options.text("key"); typed && !typed->empty()) return *typed;
  if (const auto set = call.outside.environment("FOGWRIGHT_KEY"); set && !set->empty()) return *set;
  return beside_the_book(call, ".key");
}

Result<VerifierKey> write_key_pair(const SignerKey& key, const std::string& secret, const std::string& open) {
  if (auto written = write_new_file(secret, skey_text(key) + "\n", true); !written)
    return tl::make_unexpected(written.error());
  const VerifierKey verifier = key.verifier();
  if (auto written = write_new_file(open, vkey_text(verifier) + "\n"); !written)
    return tl::make_unexpected(written.error());
  return verifier;
}

Result<SignerKey> new_key(const Call& call, const std::string& name, KeyKind kind) {
  if (auto named = key_name_ok(name); !named) return tl::make_unexpected(named.error());
  SignerKey key;
  key.name = name;
  key.kind = kind;
  call.outside.random(key.seed);
  return key;
}

Result<VerifierKey> make_key(const Call& call, const std::string& origin) {
  const auto key = new_key(call, origin, KeyKind::ed25519);
  if (!key) return tl::make_unexpected(key.error());
  const auto secret = key_path(call);
  if (!secret) return tl::make_unexpected(secret.error());
  const auto open = beside_the_book(call, ".vkey");
  if (!open) return tl::make_unexpected(open.error());
  make_folder_of(*secret);
  make_folder_of(*open);
  return write_key_pair(*key, *secret, *open);
}

Result<SignerKey> read_key_file(const std::string& path, std::string hint) {
  const auto text = read_file(path, 10'000);
  if (text) return read_skey(without_newline(*text));
  Error error = text.error();
  error.hint = std::move(hint);
  return tl::make_unexpected(std::move(error));
}

void remove_key(const Call& call) {
  std::error_code ignored;
  if (const auto secret = key_path(call)) std::filesystem::remove(*secret, ignored);
  if (const auto open = beside_the_book(call, ".vkey")) std::filesystem::remove(*open, ignored);
}

Result<SignerKey> load_key(const Call& call) {
  const auto path = key_path(call);
  if (!path) return tl::make_unexpected(path.error());
  return read_key_file(*path, "name the file of the book's signing key with --key or FOGWRIGHT_KEY");
}

Result<VerifierKey> vkey_of(const std::string& typed, const std::string& option) {
  if (auto key = read_vkey(typed)) return key;
  const auto text = read_file(typed, 10'000);
  if (!text)
    return fail(ErrorCode::not_found, fmt::format("no public key is at {}", typed), option,
                fmt::format("give the key that you trust, as text or as a file: {} 'name+hash+key'", option));
  return read_vkey(without_newline(*text));
}

Result<VerifierKey> load_vkey(const Call& call) {
  if (const auto typed = call.options.text("vkey")) return vkey_of(*typed, "--vkey");
  const auto beside = beside_the_book(call, ".vkey");
  if (!beside) return tl::make_unexpected(beside.error());
  return vkey_of(*beside, "--vkey");
}

Result<std::vector<VerifierKey>> witness_keys(const Call& call) {
  std::vector<VerifierKey> keys;
  for (const std::string& typed : call.options.all("witness")) {
    auto key = vkey_of(typed, "--witness");
    if (!key) return tl::make_unexpected(key.error());
    if (key->kind != KeyKind::cosignature)
      return fail(ErrorCode::not_understood, fmt::format("the key of {} is no witness's key", key->name),
                  "--witness", "give the .vkey file that fogwright witness key wrote");
    keys.push_back(std::move(*key));
  }
  return keys;
}

Result<std::string> checkpoint_now(const Call& call, Store& store) {
  const auto key = load_key(call);
  if (!key) return tl::make_unexpected(key.error());
  const Head head = store.head();
  const auto note = sign_checkpoint({store.origin(), static_cast<std::uint64_t>(head.size), head.root}, *key);
  if (!note) return note;
  // Signed before, it may have cosignatures by now.
  if (auto kept = kept_checkpoint(store, head.size); kept && kept->starts_with(*note)) return std::move(*kept);
  store.add_checkpoint(head.size, *note);
  return note;
}

std::optional<std::string> kept_checkpoint(Store& store, std::int64_t size) {
  for (auto& [kept_size, note] : store.checkpoints())
    if (kept_size == size) return std::move(note);
  return std::nullopt;
}

NodeSource nodes_of(Store& store) {
  return [&store](NodeId id) -> Result<Hash> {
    const auto hash = store.node(static_cast<std::int64_t>(id.level), static_cast<std::int64_t>(id.index));
    if (!hash)
      return fail(ErrorCode::bad_book, "the book lacks a node of its tree", {}, "run fogwright book verify");
    return *hash;
  };
}

}  // namespace fogwright
