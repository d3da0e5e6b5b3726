// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/checkpoint.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "fogwright/book/encoding.hpp"

namespace fogwright {
namespace {

tl::unexpected<Error> no_checkpoint(std::string_view what) {
  return fail(ErrorCode::not_understood, fmt::format("this is not a checkpoint: {}", what), {},
              "a checkpoint has three lines: origin, size, root hash");
}

// Takes the next line off the text; the text is known to end in a newline or to be empty.
std::string_view next_line(std::string_view& text) {
  const std::string_view line = text.substr(0, text.find('\n'));
  text.remove_prefix(std::min(line.size() + 1, text.size()));
  return line;
}

}  // namespace

std::string checkpoint_text(const Checkpoint& checkpoint) {
  return fmt::format("{}\n{}\n{}\n", checkpoint.origin, checkpoint.size, to_base64(as_bytes(checkpoint.root)));
}

Result<Checkpoint> read_checkpoint(std::string_view text) {
  if (!text.ends_with('\n')) return no_checkpoint("it does not end in a newline");
  const std::string_view origin = next_line(text);
  const auto size = read_decimal(next_line(text));
  const auto root = from_base64(next_line(text)).and_then(read_hash);
  if (origin.empty()) return no_checkpoint("its origin is empty");
  if (!size) return no_checkpoint("its size is not a plain decimal number");
  if (!root) return no_checkpoint("its root is not Base 64 of 32 bytes");
  if (!text.empty()) return no_checkpoint("it has more than three lines");
  return Checkpoint{std::string(origin), *size, *root};
}

Result<std::string> sign_checkpoint(const Checkpoint& checkpoint, const SignerKey& key) {
  if (auto ok = key_name_ok(checkpoint.origin); !ok) return tl::make_unexpected(ok.error());
  if (key.name != checkpoint.origin || key.kind != KeyKind::ed25519) {
    return fail(ErrorCode::not_understood, "a checkpoint is signed with the key of its own book", "key");
  }
  const std::string text = checkpoint_text(checkpoint);
  return note_text({text, {sign_note(text, key)}});
}

Result<std::string> add_signature(std::string_view note, const NoteSignature& signature) {
  return read_note(note).map([&](Note read) {
    read.signatures.push_back(signature);
    return note_text(read);
  });
}

Result<OpenedCheckpoint> open_checkpoint(std::string_view note, const VerifierKey& book_key,
                                         std::span<const VerifierKey> witnesses) {
  auto read = read_note(note);
  if (!read) return tl::make_unexpected(read.error());
  std::vector<VerifierKey> known{book_key};
  known.insert(known.end(), witnesses.begin(), witnesses.end());
  auto verified = verify_note(*read, known);
  if (!verified) return tl::make_unexpected(verified.error());
  if (std::erase_if(*verified, [&](const auto& signature) { return signature.key == book_key; }) == 0) {
    return fail(ErrorCode::bad_book, "the checkpoint is not signed by the key of the book", {},
                "check that the key belongs to this book");
  }
  auto checkpoint = read_checkpoint(read->text);
  if (!checkpoint) return tl::make_unexpected(checkpoint.error());
  if (checkpoint->origin != book_key.name) {
    return fail(ErrorCode::bad_book,
                fmt::format("the checkpoint is of {}, the key is of {}", checkpoint->origin, book_key.name), {},
                "use the checkpoint and the key of the same book");
  }
  return OpenedCheckpoint{std::move(*checkpoint), std::move(*verified)};
}

}  // namespace fogwright
