// SPDX-License-Identifier: Apache-2.0
// `book verify`: the book against itself, against its witnesses, against checkpoints that others hold.
#include <fmt/format.h>

#include <ostream>

#include "asking/zone_time.hpp"
#include "cli/book_command.hpp"
#include "cli/book_keys.hpp"
#include "cli/progress.hpp"
#include "fogwright/book/encoding.hpp"
#include "fogwright/book/witness.hpp"
#include "report/page.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// What was demanded besides the book's own account of itself.
struct Outsiders {
  json witnesses = json::array();
  json held = json::array();
  std::vector<std::string> lines;  ///< the same, to be read
};

void add_finding(Verification& verification, std::string what) {
  verification.findings.push_back({std::nullopt, std::move(what)});
}

std::string after(std::int64_t size, std::uint64_t covered) {
  const std::int64_t more = size - static_cast<std::int64_t>(covered);
  if (more <= 0) return {};
  return more == 1 ? "; the one after them is not witnessed yet"
                   : fmt::format("; the {} after them are not witnessed yet", more);
}

// A witness says nothing about what came after the checkpoint that it cosigned.
void ask_witness(const VerifierKey& witness, std::span<const std::string> notes, const VerifierKey& book_key,
                 Verification& verification, Outsiders& told) {
  const auto found = witnessed_by(witness, notes, book_key);
  if (!found)
    return add_finding(verification, fmt::format("witness {}: {}", witness.name, found.error().message));
  if (!*found)
    return add_finding(verification,
                       fmt::format("witness {} has cosigned no checkpoint of this book", witness.name));
  const auto at_ms = static_cast<std::int64_t>((*found)->unix_seconds) * 1000;
  told.witnesses.push_back({{"name", witness.name}, {"size", (*found)->size}, {"at_ms", at_ms}});
  told.lines.push_back(fmt::format("{} cosigned the first {} entries at {} by its clock{}", witness.name,
                                   (*found)->size, local_time("UTC", at_ms),
                                   after(verification.head.size, (*found)->size)));
}

// The nodes were verified just before.
void compare_held(const std::string& file, const OpenedCheckpoint& held, Store& store,
                  Verification& verification, Outsiders& told) {
  const Checkpoint& checkpoint = held.checkpoint;
  if (checkpoint.size > static_cast<std::uint64_t>(verification.head.size))
    return add_finding(verification, fmt::format("the book has {} entries, {} was made of {}",
                                                 verification.head.size, file, checkpoint.size));
  const auto root = root_from(nodes_of(store), checkpoint.size);
  if (!root || *root != checkpoint.root)
    return add_finding(verification, fmt::format("the first {} entries are not those that {} was made of",
                                                 checkpoint.size, file));
  told.held.push_back({{"file", file}, {"size", checkpoint.size}});
  told.lines.push_back(fmt::format("the first {} entries are those of {}", checkpoint.size, file));
}

Outcome compare_all_held(const Call& call, const VerifierKey& book_key, Store& store,
                         Verification& verification, Outsiders& told) {
  for (const std::string& file : call.options.all("against")) {
    const auto text = read_file(file);
    if (!text) return refuse(text.error());
    const auto held = open_checkpoint(*text, book_key);
    if (held)
      compare_held(file, *held, store, verification, told);
    else
      add_finding(verification, fmt::format("{}: {}", file, held.error().message));
  }
  return {};
}

json findings_json(const Verification& verification) {
  json list = json::array();
  for (const Finding& finding : verification.findings)
    list.push_back({{"seq", finding.seq ? json(*finding.seq) : json(nullptr)}, {"what", finding.what}});
  return list;
}

void tell_verification(const Call& call, const Verification& verification, const Outsiders& told) {
  if (call.json) {
    call.outside.out << json{{"entries", verification.head.size},
                             {"root", to_hex(as_bytes(verification.head.root))},
                             {"valid", verification.findings.empty()},
                             {"findings", findings_json(verification)},
                             {"checkpoints", verification.checkpoints},
                             {"witnesses", told.witnesses},
                             {"held", told.held}}
                            .dump(2)
                     << '\n';
    return;
  }
  Page page(call.style);
  page.field("entries", fmt::format("{}", verification.head.size));
  page.field("root", to_hex(as_bytes(verification.head.root)));
  page.list("checkpoints", verification.checkpoints);
  if (!told.lines.empty()) page.list("others hold", told.lines);
  page.field("result", verification.findings.empty() ? "all is as it was written" : "NOT as it was written",
             verification.findings.empty() ? Emphasis::strong : Emphasis::alarm);
  call.outside.out << std::move(page).take();
}

Faults faults_of(const Verification& verification) {
  Faults faults;
  for (const Finding& finding : verification.findings)
    faults.push_back(
        {ErrorCode::bad_book, finding.what, finding.seq ? fmt::format("entry {}", *finding.seq) : "the book",
         "do not go on with this book; compare it with its last backup and with a checkpoint held elsewhere"});
  return faults;
}

Outcome run_verify(const Call& call) {
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  const auto witnesses = witness_keys(call);
  if (!witnesses) return refuse(witnesses.error());
  std::vector<std::string> notes;  // before the verification, which then covers each of them
  for (auto& [size, note] : (*store)->checkpoints()) notes.push_back(std::move(note));
  const auto key = load_vkey(call);
  if (!key &&
      (!notes.empty() || call.options.has("vkey") || !witnesses->empty() || call.options.has("against")))
    return refuse(key.error());
  const auto depth = call.options.has("quick") ? VerifyDepth::record : VerifyDepth::all;
  Verification verification =
      (*store)->verify(key ? vkey_text(*key) : "", depth, progress_line(call.outside, "verifying"));
  Outsiders told;
  for (const VerifierKey& witness : *witnesses) ask_witness(witness, notes, *key, verification, told);
  if (key)
    if (auto compared = compare_all_held(call, *key, **store, verification, told); !compared) return compared;
  tell_verification(call, verification, told);
  if (!verification.findings.empty()) return tl::make_unexpected(faults_of(verification));
  return {};
}

}  // namespace

std::vector<Command> book_verify_commands() {
  return {{"book", "verify", "", "read everything again and say whether it is as it was written",
           with_book_options({
               vkey_row,
               {"witness", "KEY|FILE", "a witness's public key: demand and show what it has cosigned", true},
               {"against", "FILE", "a checkpoint that somebody else holds: the book must go on from it", true},
               {"quick", nullptr, "the record only, not the documents and the file's structure"},
           }),
           run_verify, "fogwright book verify --book shop.db --witness office.vkey"}};
}

}  // namespace fogwright
