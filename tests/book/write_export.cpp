// SPDX-License-Identifier: Apache-2.0
// write_export FOLDER COUNT: an exported book of COUNT entries with its checkpoint, the same cosigned, an older
// one, its key and the proof of its middle entry, for verifiers that are not ours.
#include <fstream>
#include <map>

#include "book/sample_book.hpp"
#include "fogwright/book/encoding.hpp"
#include "fogwright/book/tlog_proof.hpp"

using namespace fogwright;

namespace {

// The seed of RFC 8032 section 7.1, TEST 1. Never to be used outside tests.
SignerKey test_key() {
  const auto seed =
      from_hex("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60").and_then(read_hash);
  return {sample::origin, KeyKind::ed25519, seed.value()};
}

// TEST 2 of the same.
SignerKey test_witness() {
  const auto seed =
      from_hex("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb").and_then(read_hash);
  return {"witness.example.com/w1", KeyKind::cosignature, seed.value()};
}

std::string cosigned(const std::string& note) {
  const NoteSignature signature = cosign_note(read_note(note).value().text, test_witness(), 1'700'000'000);
  return add_signature(note, signature).value();
}

std::string signed_note(const std::vector<std::string>& leaves, std::size_t size) {
  return sign_checkpoint(sample::checkpoint(leaves, size), test_key()).value();
}

TlogProof proof_of(const std::vector<std::string>& leaves, std::uint64_t index) {
  CompactRange tree;
  std::vector<TreeNode> nodes;
  for (const std::string& leaf : leaves) tree.append(hash_leaf(leaf), nodes);
  const NodeSource source = [&](NodeId id) -> Result<Hash> {
    for (const TreeNode& node : nodes) {
      if (node.id == id) return node.hash;
    }
    return fail(ErrorCode::not_found, "no such node");
  };
  return {{}, index, inclusion_proof(source, index, leaves.size()).value(), signed_note(leaves, leaves.size())};
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) return 2;
  const auto leaves = sample::leaves(std::stoll(argv[2]));
  const std::size_t middle = leaves.size() / 2;
  std::map<std::string, std::string> files;
  for (const std::string& leaf : leaves) files["book.jsonl"] += leaf + "\n";
  files["book.checkpoint"] = signed_note(leaves, leaves.size());
  files["older.checkpoint"] = signed_note(leaves, middle);
  files["cosigned.checkpoint"] = cosigned(files["book.checkpoint"]);
  files["witness.vkey"] = vkey_text(test_witness().verifier()) + "\n";
  files["book.vkey"] = vkey_text(test_key().verifier()) + "\n";
  files["entry.tlog-proof"] = proof_text(proof_of(leaves, middle));
  files["entry.json"] = leaves.at(middle) + "\n";
  for (const auto& [name, content] : files) {
    std::ofstream out(std::string(argv[1]) + "/" + name, std::ios::binary);
    out << content;
    if (!out.flush()) return 4;
  }
  return 0;
}
