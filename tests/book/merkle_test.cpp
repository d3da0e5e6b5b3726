// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/merkle.hpp"

#include <rapidcheck.h>
#include <catch2/catch.hpp>
#include <map>

#include "book/reference.hpp"
#include "book/stored_tree.hpp"

using namespace fogwright;

namespace {

using Proof = std::vector<Hash>;

struct Reference {
  std::vector<std::string> leaves;
  std::map<std::string, Hash> nodes;  // "L3" or "1.1"
  std::map<std::uint64_t, Hash> roots;
  std::vector<std::vector<std::string>> proofs;
};

Reference read_reference() {
  Reference reference;
  for (const auto& row : reference::word_rows("merkle_8_leaves.txt")) {
    if (row[0] == "leaf") {
      reference.leaves.push_back(reference::unhex(row[2]));
    } else if (row[0] == "leafhash") {
      reference.nodes["L" + row[1]] = reference::hash(row[2]);
    } else if (row[0] == "node") {
      reference.nodes[row[1]] = reference::hash(row[2]);
    } else if (row[0] == "root") {
      reference.roots[std::stoull(row[1])] = reference::hash(row[2]);
    } else {
      REQUIRE((row[0] == "inclusion" || row[0] == "consistency"));
      reference.proofs.push_back(row);
    }
  }
  REQUIRE(reference.leaves.size() == 8);
  REQUIRE(reference.nodes.size() == 15);
  REQUIRE(reference.roots.size() == 9);
  REQUIRE(reference.proofs.size() == 8);
  return reference;
}

std::string name_of(NodeId id) {
  return id.level == 0 ? "L" + std::to_string(id.index)
                       : std::to_string(id.level) + "." + std::to_string(id.index);
}

// The proof cut off or with a hash more at each place, with one hash changed, or two neighbours swapped.
std::vector<Proof> spoiled(const Proof& proof) {
  std::vector<Proof> all;
  for (std::size_t i = 0; i <= proof.size(); ++i) {
    Proof longer = proof;
    longer.insert(longer.begin() + static_cast<std::ptrdiff_t>(i), Hash{});
    all.push_back(longer);
    if (i == proof.size()) continue;
    all.emplace_back(proof.begin(), proof.begin() + static_cast<std::ptrdiff_t>(i));
    Proof changed = proof;
    changed[i][i % 32] ^= 0x10;
    all.push_back(changed);
    if (i + 1 < proof.size()) {
      Proof swapped = proof;
      std::swap(swapped[i], swapped[i + 1]);
      all.push_back(swapped);
    }
  }
  if (!proof.empty()) all.emplace_back(proof.begin() + 1, proof.end());
  return all;
}

}  // namespace

TEST_CASE("Hashes of leaves and nodes are those of RFC 9162", "[merkle]") {
  // Source: transparency-dev/merkle, rfc6962/rfc6962_test.go.
  CHECK(reference::hex(hash_leaf("L123456")) ==
        "395aa064aa4c29f7010acfe3f25db9485bbd4b91897b6ad7ad547639252b4d56");
  CHECK(reference::hex(sha256(std::string("\x01", 1) + "N123" + "N456")) ==
        "aa217fe888e47007fa15edab33c2b492a722cb106c64667fc2b044444de66bbb");
  const Hash left = sha256("left");
  const Hash right = sha256("right");
  CHECK(hash_node(left, right) ==
        sha256(std::string(1, '\x01') + std::string(as_bytes(left)) + std::string(as_bytes(right))));
  // Source: FIPS 180-4 example "abc" (from memory).
  CHECK(reference::hex(sha256("abc")) == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

TEST_CASE("A salted hash covers the salt and the bytes", "[merkle]") {
  Salt salt{};
  salt[0] = 7;
  CHECK(salted_hash(salt, "an address") == sha256(std::string(as_bytes(salt)) + "an address"));
  CHECK(salted_hash(Salt{}, "an address") != salted_hash(salt, "an address"));
}

TEST_CASE("The reference tree has the published nodes and roots", "[merkle]") {
  const Reference reference = read_reference();
  CompactRange tree;
  std::map<std::string, Hash> made_nodes;
  CHECK(tree.root() == reference.roots.at(0));
  CHECK(empty_root() == reference.roots.at(0));
  for (const std::string& leaf : reference.leaves) {
    std::vector<TreeNode> made;
    tree.append(hash_leaf(leaf), made);
    for (const TreeNode& node : made) made_nodes[name_of(node.id)] = node.hash;
    CHECK(tree.root() == reference.roots.at(tree.size()));
  }
  CHECK(made_nodes == reference.nodes);
}

TEST_CASE("The published proofs come out and verify", "[merkle]") {
  const Reference reference = read_reference();
  const StoredTree tree(reference.leaves);
  for (const auto& row : reference.proofs) {
    CAPTURE(row);
    const std::uint64_t first = std::stoull(row[1]);
    const std::uint64_t size = std::stoull(row[2]);
    Proof wanted;
    for (std::size_t i = 3; i < row.size(); ++i) wanted.push_back(reference.nodes.at(row[i]));
    if (row[0] == "inclusion") {
      CHECK(inclusion_proof(tree.source(), first, size) == wanted);
      CHECK(
          verify_inclusion(first, size, hash_leaf(reference.leaves[first]), wanted, reference.roots.at(size)));
    } else {
      CHECK(consistency_proof(tree.source(), first, size) == wanted);
      CHECK(verify_consistency(first, reference.roots.at(first), size, reference.roots.at(size), wanted));
    }
  }
}

TEST_CASE("Every proof in trees of up to 65 leaves verifies, and none that was tampered with", "[merkle]") {
  const StoredTree tree(numbered_leaves(65));
  for (std::uint64_t size = 1; size <= 65; ++size) {
    const Hash root = tree.root_by_definition(size);
    REQUIRE(root_from(tree.source(), size) == root);
    bool fine = true;
    for (std::uint64_t index = 0; index < size; ++index) {
      const Hash leaf = tree.leaf_hash(index);
      const Proof proof = inclusion_proof(tree.source(), index, size).value();
      fine = fine && verify_inclusion(index, size, leaf, proof, root);
      fine = fine && !verify_inclusion(index + 1, size, leaf, proof, root);
      fine = fine && (size == 1 || !verify_inclusion(index, size, root, proof, leaf));
      for (const Proof& wrong : spoiled(proof))
        fine = fine && !verify_inclusion(index, size, leaf, wrong, root);
    }
    for (std::uint64_t old = 1; old <= size; ++old) {
      const Hash old_root = tree.root_by_definition(old);
      const Proof proof = consistency_proof(tree.source(), old, size).value();
      fine = fine && verify_consistency(old, old_root, size, root, proof);
      fine = fine && (old == size || !verify_consistency(old, root, size, old_root, proof));
      fine = fine && !verify_consistency(old, Hash{}, size, root, proof);
      for (const Proof& wrong : spoiled(proof)) {
        fine = fine && !verify_consistency(old, old_root, size, root, wrong);
      }
    }
    CHECK(fine);
  }
}

TEST_CASE("The edge cases that RFC 9162 leaves open are refused or allowed as documented", "[merkle]") {
  // Source: transparency-dev/merkle, testdata/consistency/additional and testdata/inclusion/single-entry.
  const Hash root = sha256("a root");
  CHECK_FALSE(verify_consistency(0, empty_root(), 0, empty_root(), {}));
  CHECK_FALSE(verify_consistency(0, empty_root(), 5, root, {}));
  CHECK(verify_consistency(5, root, 5, root, {}));
  CHECK_FALSE(verify_consistency(5, root, 5, Hash{}, {}));
  CHECK_FALSE(verify_consistency(5, root, 5, root, Proof{root}));
  CHECK_FALSE(verify_consistency(5, root, 4, root, {}));
  CHECK_FALSE(verify_consistency(4, root, 5, root, {}));
  CHECK_FALSE(verify_inclusion(0, 0, root, {}, root));
  CHECK(verify_inclusion(0, 1, root, {}, root));
  CHECK_FALSE(read_hash(""));
  CHECK_FALSE(read_hash(std::string(31, 'x')));
  CHECK_FALSE(read_hash(std::string(33, 'x')));
  const StoredTree tree(numbered_leaves(3));
  CHECK(inclusion_proof(tree.source(), 3, 3).error().code == ErrorCode::out_of_range);
  CHECK(consistency_proof(tree.source(), 0, 3).error().code == ErrorCode::out_of_range);
  CHECK(consistency_proof(tree.source(), 4, 3).error().code == ErrorCode::out_of_range);
}

TEST_CASE("A missing node stops a proof with the error of the source", "[merkle]") {
  const NodeSource none = [](NodeId) -> Result<Hash> { return fail(ErrorCode::bad_book, "gone"); };
  CHECK(root_from(none, 7).error().message == "gone");
  CHECK(inclusion_proof(none, 2, 7).error().message == "gone");
  CHECK(consistency_proof(none, 3, 7).error().message == "gone");
}

TEST_CASE("A tree goes on from its stored compact range as if it had never stopped", "[merkle][property]") {
  CHECK(rc::check("restore, then append", [] {
    const auto before = *rc::gen::inRange<std::size_t>(0, 300);
    const auto after = *rc::gen::inRange<std::size_t>(0, 40);
    const StoredTree whole(numbered_leaves(before + after));
    CompactRange first;
    for (std::size_t i = 0; i < before; ++i) first.append(whole.leaf_hash(i));
    CompactRange second = CompactRange::restore(before, first.bytes()).value();
    for (std::size_t i = before; i < before + after; ++i) second.append(whole.leaf_hash(i));
    RC_ASSERT(second.size() == before + after);
    RC_ASSERT(second.root() == whole.root_by_definition(before + after));
  }));
  CHECK(CompactRange::restore(3, std::string(32, 'x')).error().code == ErrorCode::bad_book);
  CHECK(CompactRange::restore(4, std::string(64, 'x')).error().code == ErrorCode::bad_book);
}
