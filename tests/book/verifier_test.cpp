// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/verifier.hpp"

#include <rapidcheck.h>

#include <catch2/catch.hpp>

#include "book/sample_book.hpp"

using namespace fogwright;

namespace {

using Leaves = std::vector<std::string>;

std::vector<Hash> hashes_of(const Leaves& leaves) {
  std::vector<Hash> hashes;
  for (const std::string& leaf : leaves) hashes.push_back(hash_leaf(leaf));
  return hashes;
}

struct Run {
  VerifyOptions options{};
  std::vector<Checkpoint> expected{};
  const std::vector<Hash>* stored = nullptr;
  std::size_t batch = 100'000;
};

VerifySummary verify(const Leaves& leaves, const Run& run = {}) {
  BookVerifier verifier(sample::origin, run.options);
  for (const Checkpoint& checkpoint : run.expected) verifier.expect(checkpoint);
  std::vector<StoredLeaf> stored;
  for (std::size_t i = 0; i < leaves.size(); ++i) {
    stored.push_back({leaves[i], run.stored == nullptr ? nullptr : &run.stored->at(i)});
  }
  const std::span<const StoredLeaf> all(stored);
  for (std::size_t at = 0; at < all.size(); at += run.batch) {
    verifier.feed(all.subspan(at, std::min(run.batch, all.size() - at)));
  }
  return verifier.finish();
}

std::vector<std::string> where(const VerifySummary& summary) {
  std::vector<std::string> names;
  for (const Error& fault : summary.faults) names.push_back(fault.where);
  return names;
}

}  // namespace

TEST_CASE("A sound book has the root of its tree, in any batches, on any threads", "[verifier]") {
  for (const std::int64_t size : {0, 1, 255, 256, 257, 1500}) {
    const Leaves leaves = sample::leaves(size);
    const Checkpoint head = sample::checkpoint(leaves, leaves.size());
    for (const std::size_t batch : {1U, 7U, 256U, 1000U, 5000U}) {
      for (const unsigned threads : {1U, 2U, 5U}) {
        const auto found =
            verify(leaves, {.options = {.run = on_threads(threads)}, .expected = {head}, .batch = batch});
        CHECK(found.ok());
        CHECK(found.size == head.size);
        CHECK(found.root == head.root);
      }
    }
  }
  CHECK(verify(sample::leaves(300), {.options = {.deep = true}}).ok());
}

TEST_CASE("A flipped bit in any byte of an entry names the entry", "[verifier]") {
  const Leaves leaves = sample::leaves(9);
  const std::vector<Hash> stored = hashes_of(leaves);
  const Run run{.expected = {sample::checkpoint(leaves, 9)}, .stored = &stored};
  REQUIRE(verify(leaves, run).ok());
  for (const std::size_t victim : {0U, 6U, 8U}) {
    for (std::size_t i = 0; i < leaves[victim].size(); ++i) {
      Leaves changed = leaves;
      changed[victim][i] = static_cast<char>(changed[victim][i] ^ (1 << i % 8));
      const std::vector<std::string> named = where(verify(changed, run));
      CHECK(named == std::vector<std::string>{"entry " + std::to_string(victim), "checkpoint 9"});
    }
  }
}

TEST_CASE("Entries taken away, added, swapped or repeated are found", "[verifier]") {
  const Leaves leaves = sample::leaves(20);
  const Run run{.expected = {sample::checkpoint(leaves, 10), sample::checkpoint(leaves, 20)}};
  REQUIRE(verify(leaves, run).ok());

  Leaves cut(leaves.begin(), leaves.begin() + 15);
  CHECK(where(verify(cut, run)) == std::vector<std::string>{"checkpoint 20"});
  CHECK(verify(cut, run).faults[0].message.find("15 entries") != std::string::npos);

  Leaves removed = leaves;
  removed.erase(removed.begin() + 12);
  CHECK(where(verify(removed, run)).front() == "entry 12");

  Leaves swapped = leaves;
  std::swap(swapped[3], swapped[4]);
  CHECK(where(verify(swapped, run)) ==
        std::vector<std::string>{"entry 3", "entry 4", "checkpoint 10", "checkpoint 20"});

  Leaves repeated = leaves;
  repeated.insert(repeated.begin() + 5, repeated[5]);
  CHECK(where(verify(repeated, run)).front() == "entry 6");
}

TEST_CASE("A rewritten entry with its hash rewritten too is found by the checkpoint and placed between two",
          "[verifier]") {
  const Leaves leaves = sample::leaves(1000);
  Leaves changed = leaves;
  Entry entry = sample::entry(700);
  entry.body["volume_ml"] = 1;
  changed[700] = leaf_bytes(entry, sample::origin).value();
  const std::vector<Hash> stored = hashes_of(changed);
  const auto found = verify(
      changed,
      {.expected = {sample::checkpoint(leaves, 650), sample::checkpoint(leaves, 900)}, .stored = &stored});
  REQUIRE(where(found) == std::vector<std::string>{"checkpoint 900"});
  CHECK(found.faults[0].message.find("from 650 to 900") != std::string::npos);
}

TEST_CASE("A checkpoint of another book or of no entries", "[verifier]") {
  const Leaves leaves = sample::leaves(5);
  Checkpoint other = sample::checkpoint(leaves, 5);
  other.origin = "example.com/other";
  CHECK_FALSE(verify(leaves, {.expected = {other}}).ok());
  CHECK(verify(leaves, {.expected = {sample::checkpoint(leaves, 0)}}).ok());
  CHECK_FALSE(verify(leaves, {.expected = {{sample::origin, 0, Hash{}}}}).ok());
}

TEST_CASE("Only the deep check sees an entry that was written in a wrong form", "[verifier]") {
  Leaves leaves = sample::leaves(3);
  leaves[1].insert(1, " ");
  CHECK(verify(leaves).ok());
  const auto found = verify(leaves, {.options = {.deep = true}});
  CHECK(where(found) == std::vector<std::string>{"entry 1"});
  CHECK(found.faults[0].message.find("canonical") != std::string::npos);
}

TEST_CASE("Faults beyond the limit are counted but not kept", "[verifier]") {
  Leaves leaves = sample::leaves(50);
  std::reverse(leaves.begin(), leaves.end());
  const auto found = verify(leaves, {.options = {.most_faults = 3}});
  CHECK(found.fault_count == 50);
  CHECK(where(found) == std::vector<std::string>{"entry 0", "entry 1", "entry 2"});
}

TEST_CASE("Batches, threads and checkpoints in between never change the root", "[verifier][property]") {
  const Leaves leaves = sample::leaves(1200);
  CHECK(rc::check("same root", [&] {
    const auto size = *rc::gen::inRange<std::size_t>(1, leaves.size());
    const auto at = *rc::gen::inRange<std::size_t>(0, size);
    const Leaves some(leaves.begin(), leaves.begin() + static_cast<std::ptrdiff_t>(size));
    Run run{.expected = {sample::checkpoint(leaves, at)}, .batch = *rc::gen::inRange<std::size_t>(1, 1300)};
    run.options.run = on_threads(*rc::gen::inRange(1U, 4U));
    const auto found = verify(some, run);
    RC_ASSERT(found.ok());
    RC_ASSERT(found.root == sample::checkpoint(leaves, size).root);
  }));
}
