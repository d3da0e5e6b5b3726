// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>
#include <string>
#include <vector>

#include "fogwright/book/encoding.hpp"
#include "fogwright/book/entry.hpp"
#include "fogwright/book/merkle.hpp"
#include "fogwright/book/tlog_proof.hpp"

/// The worked example of docs/record-format.md, made by the code. Its key is the seed of RFC 8032 section 7.1,
/// TEST 1.
namespace worked_example {

using namespace fogwright;

inline const std::string origin = "books.example/north-van";

inline std::vector<std::string> leaves() {
  Entry received;
  received.id = read_uuid("019a4c2e-5c00-7a31-8f00-0000000000a1").value();
  received.happened_ms = 1762162400000;
  received.received_ms = 1762162400120;
  received.actor = "ada";
  received.device = "van-2";
  received.kind = "container-received";
  received.body = {{"container", "C-1"}, {"lot", "L-204"}, {"place", "van-2"}, {"size_ul", 3785000}};

  Entry opened = received;
  opened.seq = 1;
  opened.id = read_uuid("019a4c2f-4660-7b02-9a00-0000000000b2").value();
  opened.happened_ms = 1762162460000;
  opened.received_ms = 1762162460090;
  opened.kind = "container-opened";
  opened.body = {{"container", "C-1"}};

  Entry corrected = received;
  corrected.seq = 2;
  corrected.id = read_uuid("019a4c30-30c0-7c13-a500-0000000000c3").value();
  corrected.happened_ms = 1762162520000;
  corrected.received_ms = 1762162520075;
  corrected.body["lot"] = "L-240";
  corrected.corrects = received.id;
  corrected.reason = "the lot was read from the wrong carton";

  std::vector<std::string> all;
  for (const Entry& entry : {received, opened, corrected}) all.push_back(leaf_bytes(entry, origin).value());
  return all;
}

/// What stands in the document, by name: each must be found in it letter by letter.
inline std::map<std::string, std::string> fragments() {
  const auto seed =
      from_hex("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60").and_then(read_hash);
  const SignerKey key(origin, KeyKind::ed25519, seed.value());
  const std::vector<std::string> entries = leaves();
  CompactRange tree;
  std::map<std::string, std::string> found;
  std::string hashes;
  for (const std::string& leaf : entries) {
    found["book.jsonl"] += leaf + "\n";
    tree.append(hash_leaf(leaf));
    hashes += to_hex(as_bytes(hash_leaf(leaf))) + "\n";
  }
  found["leaf hashes"] = hashes;
  found["node"] = to_hex(as_bytes(hash_node(hash_leaf(entries[0]), hash_leaf(entries[1])))) + "\n";
  found["root"] = to_hex(as_bytes(tree.root())) + "\n";
  found["book.checkpoint"] = sign_checkpoint({origin, tree.size(), tree.root()}, key).value();
  found["book.vkey"] = vkey_text(key.verifier()) + "\n";
  found["entry.tlog-proof"] =
      proof_text({{}, 1, {hash_leaf(entries[0]), hash_leaf(entries[2])}, found["book.checkpoint"]});
  return found;
}

}  // namespace worked_example
