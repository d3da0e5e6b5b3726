// SPDX-License-Identifier: Apache-2.0
#include "bundle/members.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "bundle/readme.hpp"
#include "bundle/verifier_script.hpp"
#include "fogwright/book/encoding.hpp"
#include "fogwright/book/tlog_proof.hpp"
#include "store/private_records.hpp"

namespace fogwright::bundle {
namespace {

using nlohmann::json;

constexpr std::size_t most_bytes = 256U << 20;

/// Members by name, as they are gathered.
using Files = std::map<std::string, std::string>;

Result<std::string> leaves_of(Store& store, const Selection& entries) {
  std::string lines;
  for (std::size_t begin = 0; begin < entries.size();) {
    std::size_t end = begin + 1;  // of a run of entries without a gap
    while (end < entries.size() && entries[end] == entries[end - 1] + 1) ++end;
    store.each_leaf(entries[begin], entries[end - 1] + 1, [&](std::int64_t, std::string_view leaf) {
      if (lines.size() <= most_bytes) lines.append(leaf).push_back('\n');
    });
    begin = end;
  }
  if (lines.size() <= most_bytes) return lines;
  return fail(ErrorCode::out_of_range, "the entries have more than 256 MB", "book bundle",
              "choose jobs with --job or days with --from and --to; fogwright book export gives a whole book");
}

// Where all entries are there, the checkpoint itself follows from them.
Result<void> add_proofs(const Order& order, std::uint64_t size, Files& files) {
  if (order.entries.size() == size) return {};
  for (const std::int64_t seq : order.entries) {
    const auto index = static_cast<std::uint64_t>(seq);
    auto path = inclusion_proof(order.nodes, index, size);
    if (!path) return tl::make_unexpected(path.error());
    files[fmt::format("proofs/{}.tlog-proof", seq)] =
        proof_text({{}, index, std::move(*path), order.checkpoint});
  }
  return {};
}

// Only witnesses' signatures that held were ever added to a checkpoint.
std::optional<std::string> newest_cosigned(Store& store) {
  std::optional<std::string> newest;
  for (auto& [size, note] : store.checkpoints())
    if (const auto read = read_note(note); read && read->signatures.size() > 1) newest = std::move(note);
  return newest;
}

Result<void> add_cosigned(Store& store, const Order& order, const Checkpoint& now, Files& files) {
  const auto note = newest_cosigned(store);
  if (!note || *note == order.checkpoint) return {};
  const Checkpoint old = *read_checkpoint(read_note(*note)->text);
  if (old.size == 0) return {};
  const auto proof = consistency_proof(order.nodes, old.size, now.size);
  if (!proof) return tl::make_unexpected(proof.error());
  std::string lines = fmt::format("old {}\n", old.size);
  for (const Hash& hash : *proof) lines += to_base64(as_bytes(hash)) + '\n';
  files["cosigned.checkpoint"] = *note;
  files["cosigned.proof"] = lines;
  return {};
}

std::string file_name(std::string_view product, std::string_view digest) {
  std::string name(product.substr(0, 40));
  std::replace_if(
      name.begin(), name.end(),
      [](char c) { return !(std::isalnum(static_cast<unsigned char>(c)) || c == '-'); }, '-');
  return fmt::format("labels/{}-{}.toml", name, digest.substr(0, 16));
}

void add_label(const json& body, Files& files) {
  const auto text = body.find("text");
  if (text == body.end() || !text->is_string()) return;
  files[file_name(body.value("product", ""), body.value("digest", ""))] = text->get<std::string>();
}

void add_hashes(const json& value, std::set<std::string>& hashes) {
  if (value.is_structured())
    for (const json& inner : value) add_hashes(inner, hashes);
  if (!value.is_string()) return;
  const auto& text = value.get_ref<const std::string&>();
  if (text.size() == 2 * sizeof(Hash) && from_hex(text)) hashes.insert(text);
}

Result<void> add_private(Store& store, const std::set<std::string>& hashes, Files& files) {
  auto* const records = dynamic_cast<PrivateRecords*>(&store);
  if (records == nullptr)
    return fail(ErrorCode::not_permitted, "this store does not give private data to a bundle", "--with-private",
                "make the bundle without it");
  std::string lines;
  for (const std::string& hash : hashes)
    if (const auto kept = records->private_record(hash))
      lines += json{{"salt", to_base64(kept->salt)}, {"data", to_base64(kept->bytes)}}.dump() + '\n';
  files["private.jsonl"] = lines;
  return {};
}

Result<void> add_what_entries_name(Store& store, const Order& order, Files& files) {
  std::set<std::string> hashes;
  for (const std::int64_t seq : order.entries) {
    const auto entry = store.entry(seq);
    if (entry->kind == "label-adopted") add_label(entry->body, files);
    if (order.with_private) add_hashes(entry->body, hashes);
  }
  if (order.with_private) return add_private(store, hashes, files);
  return {};
}

/// A signed note, so that the book's key stands for every byte of the bundle. Its second line is no number: it
/// can't pass for a checkpoint.
std::string manifest(const Files& files, const SignerKey& key) {
  std::string text = fmt::format("fogwright evidence bundle v1\nbook {}\n", key.name);
  for (const auto& [name, bytes] : files)
    text += fmt::format("{}  {}\n", to_hex(as_bytes(sha256(bytes))), name);
  return note_text({text, {sign_note(text, key)}});
}

}  // namespace

Result<std::vector<Member>> members_of(Store& store, const Order& order) {
  const auto checkpoint =
      read_note(order.checkpoint).and_then([](const Note& note) { return read_checkpoint(note.text); });
  if (!checkpoint) return tl::make_unexpected(checkpoint.error());
  Files files;
  auto leaves = leaves_of(store, order.entries);
  if (!leaves) return tl::make_unexpected(leaves.error());
  files["entries.jsonl"] = std::move(*leaves);
  files["book.checkpoint"] = order.checkpoint;
  files["book.vkey"] = vkey_text(order.key.verifier()) + "\n";
  files["verify-book.py"] = verifier_script;
  if (auto added = add_proofs(order, checkpoint->size, files); !added)
    return tl::make_unexpected(added.error());
  if (auto added = add_cosigned(store, order, *checkpoint, files); !added)
    return tl::make_unexpected(added.error());
  if (auto added = add_what_entries_name(store, order, files); !added)
    return tl::make_unexpected(added.error());
  for (const Member& paper : order.papers) files["papers/" + paper.name] = paper.bytes;
  files["README.txt"] = readme(checkpoint->origin, order.entries.size(), checkpoint->size,
                               files.contains("cosigned.checkpoint"), order.with_private);
  files["manifest.txt"] = manifest(files, order.key);
  std::vector<Member> members{{"README.txt", std::move(files.extract("README.txt").mapped())}};
  for (auto& [name, bytes] : files) members.push_back({name, std::move(bytes)});
  return members;
}

}  // namespace fogwright::bundle
