// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/note.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "book/big_endian.hpp"
#include "book/ed25519.hpp"
#include "fogwright/book/encoding.hpp"

namespace fogwright {
namespace {

constexpr std::size_t most_bytes = 1'000'000;
constexpr std::size_t most_signatures = 100;
constexpr std::string_view dash = "\xE2\x80\x94 ";  // U+2014 and a space

tl::unexpected<Error> no_note(std::string what) {
  return fail(ErrorCode::not_understood, "this is not a signed note: " + std::move(what), {},
              "copy the note again, whole, with its blank line and signature lines");
}

Result<NoteSignature> read_signature(std::string_view line) {
  if (!line.starts_with(dash)) return no_note("a signature line does not start with an em dash");
  line.remove_prefix(dash.size());
  const std::size_t space = line.find(' ');
  if (space == line.npos) return no_note("a signature line has no signature");
  const auto bytes = from_base64(line.substr(space + 1));
  if (!bytes || bytes->size() < 5) return no_note("a signature is not Base 64 of more than four bytes");
  NoteSignature signature{std::string(line.substr(0, space)), 0, bytes->substr(4)};
  if (!key_name_ok(signature.name)) return no_note("a signature line has no proper key name");
  signature.id = static_cast<std::uint32_t>(read_big_endian(std::string_view(*bytes).substr(0, 4)));
  return signature;
}

bool has_control(std::string_view text) {
  return std::any_of(text.begin(), text.end(), [](char c) { return c >= 0 && c < 0x20 && c != '\n'; });
}

std::string cosigned_message(std::string_view text, std::uint64_t unix_seconds) {
  return fmt::format("cosignature/v1\ntime {}\n{}", unix_seconds, text);
}

std::optional<VerifiedSignature> check(std::string_view text, const NoteSignature& signature,
                                       const VerifierKey& key) {
  if (key.kind == KeyKind::ed25519) {
    if (!ed25519::verify(text, signature.bytes, key.public_key)) return {};
    return VerifiedSignature{key, {}};
  }
  if (signature.bytes.size() != 8 + 64) return {};
  const std::string_view bytes = signature.bytes;
  const std::uint64_t unix_seconds = read_big_endian(bytes.substr(0, 8));
  if (unix_seconds >> 63 != 0) return {};  // forbidden by the specification
  if (!ed25519::verify(cosigned_message(text, unix_seconds), bytes.substr(8), key.public_key)) return {};
  return VerifiedSignature{key, unix_seconds};
}

}  // namespace

std::string note_text(const Note& note) {
  std::string out = note.text + '\n';
  for (const NoteSignature& signature : note.signatures) {
    out += fmt::format("{}{} {}\n", dash, signature.name,
                       to_base64(big_endian(signature.id, 4) + signature.bytes));
  }
  return out;
}

Result<Note> read_note(std::string_view text) {
  if (text.size() > most_bytes) return no_note("it is larger than 1,000,000 bytes");
  if (!is_utf8(text) || has_control(text)) return no_note("it holds bytes that no note may hold");
  const std::size_t split = text.rfind("\n\n");
  if (split == text.npos || !text.ends_with('\n')) return no_note("it has no blank line before its signatures");
  Note note{std::string(text.substr(0, split + 1)), {}};
  for (text.remove_prefix(split + 2); !text.empty(); text.remove_prefix(text.find('\n') + 1)) {
    if (note.signatures.size() == most_signatures) return no_note("it has more than 100 signatures");
    auto signature = read_signature(text.substr(0, text.find('\n')));
    if (!signature) return tl::make_unexpected(signature.error());
    note.signatures.push_back(std::move(*signature));
  }
  if (note.signatures.empty()) return no_note("it has no signature");
  return note;
}

NoteSignature sign_note(std::string_view text, const SignerKey& key) {
  return {key.name, key.verifier().id(), ed25519::sign(text, key.seed)};
}

NoteSignature cosign_note(std::string_view text, const SignerKey& key, std::uint64_t unix_seconds) {
  const std::string signature = ed25519::sign(cosigned_message(text, unix_seconds), key.seed);
  return {key.name, key.verifier().id(), big_endian(unix_seconds, 8) + signature};
}

Result<std::vector<VerifiedSignature>> verify_note(const Note& note, std::span<const VerifierKey> known) {
  std::vector<VerifiedSignature> verified;
  for (const NoteSignature& signature : note.signatures) {
    const auto key = std::find_if(known.begin(), known.end(), [&](const VerifierKey& candidate) {
      return candidate.name == signature.name && candidate.id() == signature.id;
    });
    if (key == known.end()) continue;
    const auto holds = check(note.text, signature, *key);
    if (!holds) {
      return fail(ErrorCode::bad_book, fmt::format("the signature of {} does not fit the note", key->name), {},
                  "the note was changed after it was signed, or damaged; trust nothing in it");
    }
    verified.push_back(*holds);
  }
  if (verified.empty()) {
    return fail(ErrorCode::bad_book, "no signature on the note is from a known key", {},
                "check that the right keys are given");
  }
  return verified;
}

}  // namespace fogwright
