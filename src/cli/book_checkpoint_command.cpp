// SPDX-License-Identifier: Apache-2.0
// What a book gives to others so that they can hold it to its past, and takes back from them.
#include <fmt/format.h>

#include <ostream>

#include "cli/book_command.hpp"
#include "cli/book_keys.hpp"
#include "fogwright/book/encoding.hpp"
#include "fogwright/book/tlog_proof.hpp"
#include "fogwright/book/witness.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

Outcome run_prove(const Call& call) {
  if (call.options.operands().size() != 1)
    return refuse_missing("no entry is named", "book prove",
                          "write fogwright book prove NUMBER, or the entry's id");
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  const auto seq = entry_named(**store, call.options.operands().front());
  if (!seq) return refuse(seq.error());
  const auto note = checkpoint_now(call, **store);
  if (!note) return refuse(note.error());
  const auto checkpoint = read_checkpoint(read_note(*note)->text);
  auto path = inclusion_proof(nodes_of(**store), static_cast<std::uint64_t>(*seq), checkpoint->size);
  if (!path) return refuse(path.error());
  return write_or_print(call, proof_text({{}, static_cast<std::uint64_t>(*seq), std::move(*path), *note}),
                        "proof");
}

/// The size that a witness cosigned last, as far as the book knows.
Result<std::uint64_t> last_of_witness(const Call& call, Store& store, const VerifierKey& witness) {
  const auto book_key = load_vkey(call);
  if (!book_key) return tl::make_unexpected(book_key.error());
  std::vector<std::string> notes;
  for (auto& [size, note] : store.checkpoints()) notes.push_back(std::move(note));
  return witnessed_by(witness, notes, *book_key).map([](const std::optional<Witnessed>& newest) {
    return newest ? newest->size : std::uint64_t{0};
  });
}

/// From which size the checkpoint is to be shown to go on; none: it is to stand alone.
Result<std::optional<std::uint64_t>> since(const Call& call, Store& store) {
  if (const auto typed = call.options.text("since")) {
    const auto size = read_decimal(*typed);
    if (size) return std::optional(*size);
    return fail(ErrorCode::not_understood, fmt::format("\"{}\" is not a number of entries", *typed), "--since",
                "write the number of entries that the witness names");
  }
  const auto witnesses = witness_keys(call);
  if (!witnesses) return tl::make_unexpected(witnesses.error());
  if (witnesses->empty()) return std::optional<std::uint64_t>();
  if (witnesses->size() > 1)
    return fail(ErrorCode::bad_usage, "two witnesses are named", "--witness",
                "make a request for each of them");
  return last_of_witness(call, store, witnesses->front()).map([](std::uint64_t size) {
    return std::optional(size);
  });
}

Result<std::string> request_from(Store& store, std::uint64_t old_size, const std::string& note) {
  WitnessRequest request{old_size, {}, note};
  const std::uint64_t size = read_checkpoint(read_note(note)->text)->size;
  if (old_size > size)
    return fail(ErrorCode::out_of_range, fmt::format("the book has {} entries, not {}", size, old_size),
                "--since", "a witness that names more entries has seen another book: verify this one");
  if (old_size > 0) {
    auto proof = consistency_proof(nodes_of(store), old_size, size);
    if (!proof) return tl::make_unexpected(proof.error());
    request.proof = std::move(*proof);
  }
  return request_text(request);
}

Outcome run_checkpoint(const Call& call) {
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  const auto old_size = since(call, **store);
  if (!old_size) return refuse(old_size.error());
  const auto note = checkpoint_now(call, **store);
  if (!note) return refuse(note.error());
  if (!*old_size) return write_or_print(call, *note, "checkpoint");
  const auto request = request_from(**store, **old_size, *note);
  if (!request) return refuse(request.error());
  return write_or_print(call, *request, "checkpoint");
}

/// The checkpoint that the book keeps of this size; if it keeps none (it came from a backup), the book's own
/// part of the note that was handed in, once the entries were found to be those that it was made of.
Result<std::string> kept_or_checked(Store& store, const std::string& handed_in, const VerifierKey& book_key) {
  const auto opened = open_checkpoint(handed_in, book_key);
  if (!opened) return tl::make_unexpected(opened.error());
  const Checkpoint& checkpoint = opened->checkpoint;
  if (auto kept = kept_checkpoint(store, static_cast<std::int64_t>(checkpoint.size))) return std::move(*kept);
  const auto root = root_from(nodes_of(store), checkpoint.size);
  if (checkpoint.size > static_cast<std::uint64_t>(store.head().size) || !root || *root != checkpoint.root)
    return fail(
        ErrorCode::bad_book,
        fmt::format("the book does not hold the {} entries that this checkpoint was made of", checkpoint.size),
        "the book", "keep the checkpoint: entries were changed or taken away, or this is an older copy");
  Note note = *read_note(handed_in);
  std::erase_if(note.signatures, [&](const NoteSignature& signature) {
    return signature.name != book_key.name || signature.id != book_key.id();
  });
  return note_text(note);
}

Outcome tell_taken(const Call& call, std::uint64_t size, std::size_t added) {
  if (call.json)
    call.outside.out << json{{"size", size}, {"added", added}}.dump(2) << '\n';
  else
    call.outside.out << fmt::format("checkpoint of {} entries: {} added\n", size,
                                    added == 1 ? "1 cosignature" : fmt::format("{} cosignatures", added));
  return {};
}

Outcome run_cosigned(const Call& call) {
  if (call.options.operands().size() != 1)
    return refuse_missing("no cosigned checkpoint is named", "book cosigned",
                          "write fogwright book cosigned FILE --witness office.vkey");
  const auto witnesses = witness_keys(call);
  if (!witnesses) return refuse(witnesses.error());
  if (witnesses->empty())
    return refuse_missing("it is not said whose cosignature to take in", "--witness",
                          "give the witness's public key, which you have from the witness itself");
  const auto handed_in = read_file(call.options.operands().front());
  if (!handed_in) return refuse(handed_in.error());
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  const auto book_key = load_vkey(call);
  if (!book_key) return refuse(book_key.error());
  const auto kept = kept_or_checked(**store, *handed_in, *book_key);
  if (!kept) return refuse(kept.error());
  const auto grown = take_cosignatures(*kept, *handed_in, *book_key, *witnesses);
  if (!grown) return refuse(grown.error());
  const std::uint64_t size = read_checkpoint(read_note(*grown)->text)->size;
  (*store)->add_checkpoint(static_cast<std::int64_t>(size), *grown);
  return tell_taken(call, size, read_note(*grown)->signatures.size() - read_note(*kept)->signatures.size());
}

}  // namespace

std::vector<Command> book_checkpoint_commands() {
  const OptionRow witness{"witness", "KEY|FILE", "a witness's public key", true};
  return {
      {"book", "checkpoint", "", "sign the book as it is now; give the lines to someone else",
       with_book_options(
           {key_row,
            vkey_row,
            out_row,
            {"witness", "KEY|FILE",
             "for this witness: with the proof that the book goes on from what it cosigned last", true},
            {"since", "N", "with the proof that the book goes on from its first N entries"}}),
       run_checkpoint, "fogwright book checkpoint --witness office.vkey --out request.txt"},
      {"book", "cosigned", "FILE", "take in a checkpoint that witnesses have cosigned",
       with_book_options({vkey_row, witness}), run_cosigned,
       "fogwright book cosigned cosigned.txt --witness office.vkey"},
      {"book", "prove", "NUMBER|ID", "a proof, to be checked without us, that an entry is in the book",
       with_book_options({key_row, out_row}), run_prove, ""},
  };
}

}  // namespace fogwright
