// SPDX-License-Identifier: Apache-2.0
// `witness`: somebody other than the firm cosigns its checkpoints and refuses those that don't go on from the
// last.
#include <fmt/format.h>

#include <chrono>
#include <ostream>

#include "cli/book_command.hpp"
#include "cli/book_keys.hpp"
#include "cli/witness_memory.hpp"
#include "fogwright/book/witness.hpp"
#include "store/lock_file.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr std::chrono::seconds patience{5};

Result<std::string> key_file(const Call& call) {
  if (const auto typed = call.options.text("key"); typed && !typed->empty()) return *typed;
  return fail(ErrorCode::missing_value, "the witness's key file is not named", "--key",
              "write e.g. --key office.key; fogwright witness key makes it");
}

// --- key ----------------------------------------------------------------------------------------------------

Outcome run_key(const Call& call) {
  const auto name = call.options.text("name");
  if (!name)
    return refuse_missing("the witness has no name", "--name",
                          "give it a name that is yours alone, e.g. --name office.example/witness");
  const auto path = key_file(call);
  if (!path) return refuse(path.error());
  const auto key = new_key(call, *name, KeyKind::cosignature);
  if (!key) return refuse(key.error());
  const std::string open = *path + ".vkey";
  const auto verifier = write_key_pair(*key, *path, open);
  if (!verifier) return refuse(verifier.error());
  if (call.json)
    call.outside.out << json{{"key", *path}, {"vkey_file", open}, {"vkey", vkey_text(*verifier)}}.dump(2)
                     << '\n';
  else
    call.outside.out << fmt::format(
        "the witness's public key, for the firm and for everyone who verifies, is in {}:\n  {}\nits secret key "
        "is "
        "{}: it must not come into the hands of the firm\n",
        open, vkey_text(*verifier), *path);
  return {};
}

// --- sign ---------------------------------------------------------------------------------------------------

/// What a signature needs besides the witness's memory.
struct Signing {
  SignerKey witness;
  VerifierKey book;
  WitnessRequest request;
};

Result<Signing> read_signing(const Call& call) {
  const auto path = key_file(call);
  if (!path) return tl::make_unexpected(path.error());
  auto witness = read_key_file(*path, "make one with fogwright witness key");
  if (!witness) return tl::make_unexpected(witness.error());
  if (witness->kind != KeyKind::cosignature)
    return fail(ErrorCode::not_understood, "this is a book's key, not a witness's", "--key",
                "make one with fogwright witness key");
  const auto typed = call.options.text("vkey");
  if (!typed)
    return fail(ErrorCode::missing_value, "the book's public key is not given", "--vkey",
                "give the key that you first got from the firm, as text or as a file");
  auto book = vkey_of(*typed, "--vkey");
  if (!book) return tl::make_unexpected(book.error());
  const auto text = read_file(call.options.operands().front());
  if (!text) return tl::make_unexpected(text.error());
  auto request = read_request(*text);
  if (!request) return tl::make_unexpected(request.error());
  return Signing{std::move(*witness), std::move(*book), std::move(*request)};
}

// A memory that was lost must not pass for a book that is new.
Result<void> first_is_meant(const Call& call, const Signing& signing, const std::optional<Checkpoint>& seen) {
  if (seen.has_value() != call.options.has("first")) return {};
  if (seen)
    return fail(ErrorCode::already_exists,
                fmt::format("{} entries of {} were cosigned already", seen->size, signing.book.name), "--first",
                "leave --first out");
  return fail(ErrorCode::not_found,
              fmt::format("nothing of {} was cosigned with this memory", signing.book.name), "--memory",
              "name the file of what was cosigned, or write --first if this is the first time");
}

/// Checks, keeps, then signs: what was signed is never forgotten.
Result<std::string> cosign(const Call& call, const Signing& signing, WitnessMemory& memory) {
  const auto seen = memory.seen(signing.book.name);
  if (auto meant = first_is_meant(call, signing, seen); !meant) return tl::make_unexpected(meant.error());
  const auto seconds = static_cast<std::uint64_t>(call.outside.now_ms() / 1000);
  const auto signature = witness_checkpoint(signing.request, signing.book, seen, signing.witness, seconds);
  if (!signature) return tl::make_unexpected(signature.error());
  auto note = add_signature(signing.request.checkpoint, *signature);
  if (!note) return note;
  const Checkpoint checkpoint = *read_checkpoint(read_note(*note)->text);
  if (auto kept = memory.keep(checkpoint, *note); !kept) return tl::make_unexpected(kept.error());
  return note;
}

Outcome run_sign(const Call& call) {
  if (call.options.operands().size() != 1)
    return refuse_missing("no checkpoint is named", "witness sign",
                          "write fogwright witness sign FILE --vkey book.vkey --key office.key");
  const auto signing = read_signing(call);
  if (!signing) return refuse(signing.error());
  const std::string path = call.options.text("memory").value_or(*key_file(call) + ".cosigned");
  LockFile lock(path + ".lock");
  const auto held = lock.hold(patience);  // two at once must not cosign two pasts
  auto memory = WitnessMemory::read(path);
  if (!memory) return refuse(memory.error());
  const auto note = cosign(call, *signing, *memory);
  if (!note) return refuse(note.error());
  return write_or_print(call, *note, "cosigned");
}

}  // namespace

std::vector<Command> witness_commands() {
  const OptionRow key{"key", "FILE", "the witness's secret key"};
  return {
      {"witness",
       "key",
       "",
       "make the key of a witness, who cosigns checkpoints of a firm's book",
       {{"name", "NAME", "the witness's name, its own alone, e.g. office.example/witness"}, key},
       run_key,
       "fogwright witness key --name office.example/witness --key office.key"},
      {"witness",
       "sign",
       "FILE",
       "cosign a checkpoint that goes on from the last one; refuse a fork or a cut",
       {key,
        {"vkey", "KEY|FILE", "the book's public key"},
        {"first", nullptr, "nothing of this book was cosigned yet"},
        {"memory", "FILE", "what was cosigned last (default: beside the key)"},
        out_row},
       run_sign,
       "fogwright witness sign request.txt --vkey book.vkey --key office.key --out cosigned.txt"},
  };
}

}  // namespace fogwright
