// SPDX-License-Identifier: Apache-2.0
// What verifying costs beside hashing alone. The aim: verify at 0.6 or more of OpenSSL's SHA-256 over the same
// entries, per core, and on two cores nearly twice that.
#include <benchmark/benchmark.h>
#include <openssl/evp.h>

#include <map>
#include <memory>

#include "fogwright/book/entry.hpp"
#include "fogwright/book/verifier.hpp"

using namespace fogwright;

namespace {

const std::string origin = "books.example/bench";

// Entries of about the given length, as the demo book has them.
std::vector<std::string> make_leaves(std::size_t count, std::size_t length) {
  std::vector<std::string> leaves;
  Entry entry;
  entry.id = uuid_v7(1'760'000'000'000, {});
  entry.actor = "ada";
  entry.device = "van-2";
  entry.kind = "stock-received";
  entry.happened_ms = entry.received_ms = 1'760'000'000'000;
  entry.body = {{"container", ""}};
  const std::size_t bare = leaf_bytes(entry, origin).value().size();
  entry.body["container"] = std::string(length > bare ? length - bare : 0, 'x');
  for (std::size_t i = 0; i < count; ++i) {
    entry.seq = static_cast<std::int64_t>(i);
    leaves.push_back(leaf_bytes(entry, origin).value());
  }
  return leaves;
}

// Kept between benchmarks of the same length.
const std::vector<std::string>& leaves_of(std::size_t length) {
  static std::map<std::size_t, std::vector<std::string>> made;
  auto& leaves = made[length];
  if (leaves.empty()) leaves = make_leaves(1 << 16, length);
  return leaves;
}

std::int64_t bytes_of(const std::vector<std::string>& leaves) {
  std::size_t bytes = 0;
  for (const std::string& leaf : leaves) bytes += leaf.size();
  return static_cast<std::int64_t>(bytes);
}

// The yardstick: OpenSSL alone, entry by entry, with one context and nothing around it.
void openssl_sha256(benchmark::State& state) {
  const auto& leaves = leaves_of(static_cast<std::size_t>(state.range(0)));
  const std::unique_ptr<EVP_MD, decltype(&EVP_MD_free)> digest(EVP_MD_fetch(nullptr, "SHA256", nullptr),
                                                               EVP_MD_free);
  const std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)> context(EVP_MD_CTX_new(), EVP_MD_CTX_free);
  for (auto _ : state) {
    for (const std::string& leaf : leaves) {
      Hash hash;
      EVP_DigestInit_ex2(context.get(), digest.get(), nullptr);
      EVP_DigestUpdate(context.get(), leaf.data(), leaf.size());
      EVP_DigestFinal_ex(context.get(), hash.data(), nullptr);
      benchmark::DoNotOptimize(hash);
    }
  }
  state.SetBytesProcessed(state.iterations() * bytes_of(leaves));
}

void run_verify(benchmark::State& state, VerifyOptions options) {
  const auto& leaves = leaves_of(static_cast<std::size_t>(state.range(0)));
  std::vector<Hash> hashes;
  std::vector<StoredLeaf> stored;
  for (const std::string& leaf : leaves) hashes.push_back(hash_leaf(leaf));
  for (std::size_t i = 0; i < leaves.size(); ++i) stored.push_back({leaves[i], &hashes[i]});
  for (auto _ : state) {
    BookVerifier verifier(origin, options);
    for (std::size_t at = 0; at < stored.size(); at += 8192) verifier.feed(std::span(stored).subspan(at, 8192));
    if (!verifier.finish().ok()) state.SkipWithError("the book does not verify");
  }
  state.SetBytesProcessed(state.iterations() * bytes_of(leaves));
}

void verify(benchmark::State& state) {
  run_verify(state, {.run = on_threads(static_cast<unsigned>(state.range(1)))});
}

void verify_deep(benchmark::State& state) { run_verify(state, {.deep = true}); }

void node_hash(benchmark::State& state) {
  Hash hash{};
  for (auto _ : state) benchmark::DoNotOptimize(hash = hash_node(hash, hash));
  state.SetItemsProcessed(state.iterations());
}

}  // namespace

BENCHMARK(openssl_sha256)->Arg(300)->Arg(400)->Arg(1000)->UseRealTime();
BENCHMARK(verify)->ArgsProduct({{300, 400, 1000}, {1, 2}})->UseRealTime();
BENCHMARK(verify_deep)->Arg(400)->UseRealTime();
BENCHMARK(node_hash);
BENCHMARK_MAIN();
