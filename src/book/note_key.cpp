// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "book/big_endian.hpp"
#include "book/ed25519.hpp"
#include "fogwright/book/encoding.hpp"
#include "fogwright/book/note.hpp"
#include "fogwright/book/sha256.hpp"

namespace fogwright {
namespace {

constexpr std::string_view secret_prefix = "PRIVATE+KEY+";

std::string material(KeyKind kind, const KeyBytes& key) {
  return static_cast<char>(kind) + std::string(as_bytes(key));
}

std::string key_text(std::string_view name, std::uint32_t id, KeyKind kind, const KeyBytes& key) {
  return fmt::format("{}+{:08x}+{}", name, id, to_base64(material(kind, key)));
}

struct KeyText {
  std::string name;
  std::string id;
  KeyKind kind{};
  KeyBytes bytes{};
};

tl::unexpected<Error> no_key(std::string_view what) {
  return fail(ErrorCode::not_understood, fmt::format("this is not a note key: {}", what), {},
              "a key has the form name+hex id+Base 64; copy it again");
}

// "name+id+base64": Base 64 may hold '+', names and ids may not.
Result<KeyText> split_key(std::string_view text) {
  const std::size_t first = text.find('+');
  const std::size_t second = text.find('+', std::min(first, text.size() - 1) + 1);
  if (text.empty() || first == std::string_view::npos || second == std::string_view::npos) {
    return no_key("it has fewer than three parts");
  }
  KeyText key{std::string(text.substr(0, first)), std::string(text.substr(first + 1, second - first - 1))};
  const auto bytes = from_base64(text.substr(second + 1));
  if (auto ok = key_name_ok(key.name); !ok) return tl::make_unexpected(ok.error());
  if (!bytes || bytes->size() != 1 + key.bytes.size()) return no_key("it does not hold 33 bytes");
  key.kind = static_cast<KeyKind>(bytes->front());
  if (key.kind != KeyKind::ed25519 && key.kind != KeyKind::cosignature) return no_key("its kind is not known");
  std::copy(bytes->begin() + 1, bytes->end(), key.bytes.begin());
  return key;
}

}  // namespace

SignerKey::~SignerKey() { ed25519::wipe(seed); }

std::uint32_t VerifierKey::id() const {
  const Hash hash = sha256(name + '\n' + material(kind, public_key));
  return static_cast<std::uint32_t>(read_big_endian(as_bytes(hash).substr(0, 4)));
}

VerifierKey SignerKey::verifier() const { return {name, kind, ed25519::public_key(seed)}; }

Result<void> key_name_ok(std::string_view name) {
  const bool control = std::any_of(name.begin(), name.end(), [](char c) { return c >= 0 && c < 0x20; });
  if (name.empty() || control || name.find('+') != name.npos || !is_utf8(name) || has_unicode_space(name)) {
    return fail(ErrorCode::not_understood,
                "a key name must not be empty or hold spaces, '+' or control characters", "name",
                "use a name in the form of an address, e.g. books.example/north-van");
  }
  return {};
}

std::string vkey_text(const VerifierKey& key) { return key_text(key.name, key.id(), key.kind, key.public_key); }

Result<VerifierKey> read_vkey(std::string_view text) {
  auto parts = split_key(text);
  if (!parts) return tl::make_unexpected(parts.error());
  VerifierKey key{parts->name, parts->kind, parts->bytes};
  if (parts->id != fmt::format("{:08x}", key.id())) return no_key("its id does not fit the key");
  return key;
}

std::string skey_text(const SignerKey& key) {
  return std::string(secret_prefix) + key_text(key.name, key.verifier().id(), key.kind, key.seed);
}

Result<SignerKey> read_skey(std::string_view text) {
  if (!text.starts_with(secret_prefix)) return no_key("a private key starts with PRIVATE+KEY+");
  auto parts = split_key(text.substr(secret_prefix.size()));
  if (!parts) return tl::make_unexpected(parts.error());
  SignerKey key(parts->name, parts->kind, parts->bytes);
  if (parts->id != fmt::format("{:08x}", key.verifier().id())) return no_key("its id does not fit the key");
  return key;
}

}  // namespace fogwright
