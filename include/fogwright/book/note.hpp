// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/error.hpp"

/// Signed notes by C2SP signed-note v1.0.0 with Ed25519 (RFC 8032) signatures, and the timestamped Ed25519
/// cosignatures of C2SP tlog-cosignature v1.0.1.
namespace fogwright {

/// The signature type byte that goes into key ids and encoded keys.
enum class KeyKind : std::uint8_t {
  ed25519 = 0x01,      ///< signs the note text
  cosignature = 0x04,  ///< signs the note text with a time: a witness has seen this checkpoint
};

/// 32 bytes: an Ed25519 public key, or the seed of a private one.
using KeyBytes = std::array<std::uint8_t, 32>;

/// What a verifier has to know of a signer. Public.
struct VerifierKey {
  std::string name;  ///< e.g. "books.example/north-van"; no Unicode space, no '+'
  KeyKind kind = KeyKind::ed25519;
  KeyBytes public_key{};

  /// The first four bytes of SHA-256(name || 0x0A || kind || public key), big-endian.
  [[nodiscard]] std::uint32_t id() const;

  friend bool operator==(const VerifierKey&, const VerifierKey&) = default;
};

/// A signer. Secret: the seed is wiped when the key goes.
struct SignerKey {
  std::string name;
  KeyKind kind = KeyKind::ed25519;
  KeyBytes seed{};

  SignerKey() = default;
  SignerKey(std::string key_name, KeyKind key_kind, const KeyBytes& key_seed)
      : name(std::move(key_name)), kind(key_kind), seed(key_seed) {}
  SignerKey(const SignerKey&) = default;
  SignerKey& operator=(const SignerKey&) = default;
  ~SignerKey();

  [[nodiscard]] VerifierKey verifier() const;
};

/// Refuses an empty name, one with a Unicode space, a '+' or a control character, or bytes that are not
/// UTF-8 (not_understood).
[[nodiscard]] Result<void> key_name_ok(std::string_view name);

/// "name+hex8(id)+base64(kind || public key)", the form that others configure as a trusted key.
[[nodiscard]] std::string vkey_text(const VerifierKey& key);
/// Refuses malformed text, a kind other than the two above and an id that does not fit the key.
[[nodiscard]] Result<VerifierKey> read_vkey(std::string_view text);

/// "PRIVATE+KEY+name+hex8(id)+base64(kind || seed)", as Go's sumdb/note writes it. Secret.
[[nodiscard]] std::string skey_text(const SignerKey& key);
[[nodiscard]] Result<SignerKey> read_skey(std::string_view text);

/// One signature line of a note.
struct NoteSignature {
  std::string name;
  std::uint32_t id = 0;
  std::string bytes;  ///< what follows the key id: 64 bytes for ed25519, 8 + 64 for a cosignature

  friend bool operator==(const NoteSignature&, const NoteSignature&) = default;
};

/// A note as it was read. Nothing in it may be trusted before verify_note has passed.
struct Note {
  std::string text;  ///< ends in a newline
  std::vector<NoteSignature> signatures;

  friend bool operator==(const Note&, const Note&) = default;
};

/// The note as it is stored and sent.
[[nodiscard]] std::string note_text(const Note& note);

/// Refuses malformed notes: no blank line, no signature, more than 100 signatures or 1,000,000 bytes,
/// control characters, malformed UTF-8 or Base 64 (not_understood).
[[nodiscard]] Result<Note> read_note(std::string_view text);

/// Signs text that ends in a newline. Precondition: the key's kind is ed25519.
[[nodiscard]] NoteSignature sign_note(std::string_view text, const SignerKey& key);

/// States that at this time (seconds since 1970 UTC) this text was the largest consistent checkpoint seen.
/// Precondition: the key's kind is cosignature.
[[nodiscard]] NoteSignature cosign_note(std::string_view text, const SignerKey& key,
                                        std::uint64_t unix_seconds);

/// A signature of a known key that was checked and holds.
struct VerifiedSignature {
  VerifierKey key;
  std::optional<std::uint64_t> unix_seconds;  ///< of a cosignature

  friend bool operator==(const VerifiedSignature&, const VerifiedSignature&) = default;
};

/// Checks each signature whose name and id match a known key and ignores all others. Refuses the whole note
/// if one of them does not hold, or if none is from a known key (bad_book).
[[nodiscard]] Result<std::vector<VerifiedSignature>> verify_note(const Note& note,
                                                                 std::span<const VerifierKey> known);

}  // namespace fogwright
