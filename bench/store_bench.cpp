// SPDX-License-Identifier: Apache-2.0
// The store against the bare libraries it stands on: SQLite's insert at the same durability on the same disk,
// OpenSSL's SHA-256 over the same bytes. Rounds of the two alternate, so that what else the machine does meets
// both.
//
//   store_bench [--entries N] [--folder DIR] [--server ADDRESS]
//   N: size of the book that is opened and verified, default 1000000. ADDRESS: of a PostgreSQL database to
//   measure instead, e.g. scripts/with-postgres build .../store_bench --server postgresql:///
#include <fmt/format.h>
#include <malloc.h>
#include <openssl/evp.h>
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <vector>

#include "fogwright/book/document_range.hpp"
#include "fogwright/book/encoding.hpp"
#include "fogwright/book/entry.hpp"
#include "fogwright/store.hpp"
#include "store/pq.hpp"
#include "store/sqlite.hpp"

using namespace fogwright;
namespace fs = std::filesystem;
using std::chrono::steady_clock;

namespace {

const std::string origin = "books.example/bench";

double seconds_since(steady_clock::time_point start) {
  return std::chrono::duration<double>(steady_clock::now() - start).count();
}

double cpu_seconds() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  const auto seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
  };
  return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

double resident_mb() {
  std::ifstream statm("/proc/self/statm");
  double total = 0, resident = 0;
  statm >> total >> resident;
  return resident * 4096 / 1e6;
}

// One document an entry, of which one in a hundred stays live: what stock and jobs look like after some years.
void fold(const Entry& entry, MutableDocuments& documents) {
  documents.put("job", entry.body["job"].get_ref<const std::string&>(),
                {{"state", "closed"}, {"seconds", entry.body["seconds"]}}, entry.seq % 100 == 0);
}

NewEntry numbered(std::int64_t n) {
  UuidRandom random{};
  for (std::size_t i = 0; i < 8; ++i) random[9 - i] = static_cast<std::uint8_t>(n >> (8 * i) & 0xFF);
  return {uuid_v7(1'700'000'000'000 + n, random),
          1'700'000'000'000 + n,
          "plover",
          "heron-tablet",
          "job-fogged",
          {{"job", fmt::format("job-{:08}", n)},
           {"return", "hall, 20 by 30 in"},
           {"seconds", 42 + n % 30},
           {"microlitres", 126'000 + n % 1000},
           {"fogger", "F-2"},
           {"note", "filter out, fan only, motor on before the valve"}},
          std::nullopt,
          ""};
}

std::unique_ptr<Store> new_book(const std::string& path) {
  auto book = create_book(path, origin, fold, [] { return std::int64_t{1'700'000'000'000}; });
  if (!book) throw std::runtime_error(book.error().message);
  return std::move(*book);
}

using Batches = std::vector<std::vector<NewEntry>>;

Batches batches_of(std::int64_t from, std::int64_t to, std::int64_t batch) {
  Batches batches;
  for (std::int64_t n = from; n < to; n += batch) {
    auto& entries = batches.emplace_back();
    for (std::int64_t i = n; i < std::min(to, n + batch); ++i) entries.push_back(numbered(i));
  }
  return batches;
}

// Moves the entries out, as an import does with what it has read.
void append(Store& book, std::vector<NewEntry>& entries) {
  const auto done = book.append(
      [&](const Documents&, const Head&) -> Result<std::vector<NewEntry>> { return std::move(entries); });
  if (!done) throw std::runtime_error(done.error().message);
}

// The least that a durable record costs with SQLite: its number, its id, its bytes.
class BareTable {
 public:
  explicit BareTable(const std::string& path) {
    std::ofstream{path};
    connection_.emplace(path, sqlite::Access::read_write, std::string(), 0);
    connection_->set_pragma("journal_mode", "WAL", "wal");
    connection_->set_pragma("synchronous", "FULL", "2");
    connection_->execute(
        "CREATE TABLE entry(seq INTEGER PRIMARY KEY, id BLOB NOT NULL UNIQUE, leaf BLOB NOT NULL) STRICT");
    insert_.emplace(connection_->prepare("INSERT INTO entry(seq, id, leaf) VALUES(?1, ?2, ?3)"));
  }

  void insert(std::int64_t from, const std::vector<std::pair<Uuid, std::string>>& leaves) {
    connection_->execute("BEGIN IMMEDIATE");
    for (const auto& [id, leaf] : leaves)
      insert_->run(from++, sqlite::Blob{as_bytes(id.bytes)}, sqlite::Blob{leaf});
    connection_->execute("COMMIT");
    if (connection_->wal_pages() >= 1000) connection_->checkpoint();
  }

 private:
  std::optional<sqlite::Connection> connection_;
  std::optional<sqlite::Statement> insert_;
};

using Leaves = std::vector<std::pair<Uuid, std::string>>;

// The same with PostgreSQL: one statement and one way there and back a commit.
class BareServerTable {
 public:
  explicit BareServerTable(const std::string& address)
      : connection_(pq::read_address(address).value(), std::chrono::seconds(5), [](pq::Connection&) {}) {
    (void)connection_.execute(
        "DROP TABLE IF EXISTS public.bare;"
        "CREATE TABLE public.bare(seq bigint PRIMARY KEY, id bytea NOT NULL UNIQUE, leaf bytea NOT NULL)");
  }

  void insert(std::int64_t from, const Leaves& leaves) {
    pq::Integers seqs;
    pq::ByteStrings ids, bytes;
    for (const auto& [id, leaf] : leaves) {
      seqs.values.push_back(from++);
      ids.values.push_back(as_bytes(id.bytes));
      bytes.values.push_back(leaf);
    }
    (void)connection_.run(
        "INSERT INTO public.bare(seq, id, leaf) SELECT * FROM unnest($1::bigint[], $2::bytea[], $3::bytea[])",
        seqs, ids, bytes);
  }

 private:
  pq::Connection connection_;
};

Leaves leaves_of(std::int64_t from, std::int64_t to) {
  Leaves leaves;
  for (std::int64_t n = from; n < to; ++n) {
    NewEntry given = numbered(n);
    const Entry entry{
        n,  given.id, given.happened_ms, given.happened_ms, given.actor, given.device, given.kind, given.body,
        {}, {}};
    leaves.emplace_back(entry.id, leaf_bytes(entry, origin).value());
  }
  return leaves;
}

double median(std::vector<double> values) {
  std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2),
                   values.end());
  return values[values.size() / 2];
}

template <class Bare>
void bench_append(const std::string& address, Bare bare, std::int64_t batch, std::int64_t batches_a_round,
                  int rounds) {
  const auto book = new_book(address);
  std::vector<double> ours, theirs, ratios, cpu_ratios;
  std::int64_t next = 0;
  for (int round = 0; round < rounds; ++round) {
    const std::int64_t end = next + batch * batches_a_round;
    std::vector<Leaves> ready;
    for (std::int64_t n = next; n < end; n += batch) ready.push_back(leaves_of(n, n + batch));
    Batches batches = batches_of(next, end, batch);
    auto start = steady_clock::now();
    double cpu_before = cpu_seconds();
    for (auto& entries : batches) append(*book, entries);
    const double our_cpu = cpu_seconds() - cpu_before;
    ours.push_back(static_cast<double>(end - next) / seconds_since(start));
    start = steady_clock::now();
    cpu_before = cpu_seconds();
    for (std::size_t i = 0; i < ready.size(); ++i)
      bare.insert(next + static_cast<std::int64_t>(i) * batch, ready[i]);
    theirs.push_back(static_cast<double>(end - next) / seconds_since(start));
    ratios.push_back(ours.back() / theirs.back());
    cpu_ratios.push_back((cpu_seconds() - cpu_before) / our_cpu);
    next = end;
  }
  fmt::print(
      "append, {:>4} a commit: {:>8.0f} entries/s, bare insert {:>8.0f} rows/s, ratio {:.2f}, by processor "
      "time {:.2f} "
      "(medians of {} rounds)\n",
      batch, median(ours), median(theirs), median(ratios), median(cpu_ratios), rounds);
}

// What has to be hashed to get the root of so many entries: each leaf, and a node of 65 bytes for each but one.
struct Hashing {
  double leaves = 0, all = 0;  // seconds of processor for each entry
};

Hashing hash_with_openssl(const std::vector<std::string>& leaves) {
  EVP_MD_CTX* const context = EVP_MD_CTX_new();
  EVP_MD* const digest = EVP_MD_fetch(nullptr, "SHA256", nullptr);
  EVP_DigestInit_ex2(context, digest, nullptr);
  unsigned char hash[32];
  const auto seconds_for = [&](auto message_of) {
    const double before = cpu_seconds();
    for (const std::string& leaf : leaves) {
      const std::string_view message = message_of(leaf);
      EVP_DigestInit_ex2(context, nullptr, nullptr);
      EVP_DigestUpdate(context, message.data(), message.size());
      EVP_DigestFinal_ex(context, hash, nullptr);
    }
    return (cpu_seconds() - before) / static_cast<double>(leaves.size());
  };
  Hashing hashing;
  hashing.leaves = seconds_for([](const std::string& leaf) { return std::string_view(leaf); });
  hashing.all = hashing.leaves +
                seconds_for([](const std::string& leaf) { return std::string_view(leaf).substr(0, 65); });
  EVP_MD_free(digest);
  EVP_MD_CTX_free(context);
  return hashing;
}

void bench_verify(Store& book, VerifyDepth depth) {
  const std::int64_t size = book.head().size;
  Hashing hashing;
  double bytes = 0;
  {
    std::vector<std::string> leaves;
    book.each_leaf(0, std::min<std::int64_t>(size, 100'000),
                   [&](std::int64_t, std::string_view leaf) { leaves.emplace_back(leaf); });
    for (const std::string& leaf : leaves)
      bytes += static_cast<double>(leaf.size()) / static_cast<double>(leaves.size());
    hashing = hash_with_openssl(leaves);
  }
  malloc_trim(0);
  const double cpu_before = cpu_seconds(), resident_before = resident_mb();
  double resident = 0;
  const auto start = steady_clock::now();
  const auto result =
      book.verify({}, depth, [&](std::int64_t, std::int64_t) { resident = std::max(resident, resident_mb()); });
  const double wall = seconds_since(start), cpu = cpu_seconds() - cpu_before;
  if (!result.findings.empty()) throw std::runtime_error(result.findings.front().what);
  const auto entries = static_cast<double>(size);
  fmt::print("verify {}, {} entries of {:.0f} bytes: {:.2f} s, {:.2f} s of processor ({:.2f} cores)\n",
             depth == VerifyDepth::record ? "record" : "all", size, bytes, wall, cpu, cpu / wall);
  fmt::print(
      "  OpenSSL needs {:.2f} s for the leaves ({:.2f} of its speed a core, {:.2f} in all), {:.2f} s for "
      "leaves and nodes "
      "({:.2f} a core, {:.2f} in all)\n",
      hashing.leaves * entries, hashing.leaves * entries / cpu, hashing.leaves * entries / wall,
      hashing.all * entries, hashing.all * entries / cpu, hashing.all * entries / wall);
  fmt::print("  memory {:.0f} MB before, {:.0f} MB at most\n", resident_before, resident);
}

void bench_proof(Store& book) {
  const auto size = static_cast<std::uint64_t>(book.head().size);
  const NodeSource nodes = [&](NodeId id) -> Result<Hash> {
    return book.node(id.level, static_cast<std::int64_t>(id.index)).value();
  };
  std::vector<double> took;
  for (std::uint64_t i = 0; i < 200; ++i) {
    const double before = cpu_seconds();
    if (!inclusion_proof(nodes, size * i / 200, size)) throw std::runtime_error("no proof");
    took.push_back(1e3 * (cpu_seconds() - before));
  }
  fmt::print("proof of one entry of {}: {:.2f} ms of processor (median of 200)\n", size, median(took));
}

// `most`: of the live documents, what is read; a firm of ten vans has some hundred containers and jobs open.
void bench_open(const std::string& path, std::int64_t entries, std::size_t most) {
  std::vector<double> took, cpu;
  std::size_t live = 0;
  for (int round = 0; round < 21; ++round) {
    const auto start = steady_clock::now();
    const double cpu_before = cpu_seconds();
    const auto book = open_book(path, fold, [] { return std::int64_t{0}; });
    live = 0;
    (*book)->read([&](const Documents& now, const Head&) {
      if (!now.get("job", fmt::format("job-{:08}", entries / 2))) throw std::runtime_error("no such job");
      dynamic_cast<const DocumentRange&>(now).each_after(
          "job", true, "", [&](const std::string&, const nlohmann::json&) { return ++live < most; });
    });
    took.push_back(1e3 * seconds_since(start));
    cpu.push_back(1e3 * (cpu_seconds() - cpu_before));
  }
  fmt::print(
      "open a book of {} entries, read one document and {} live ones: {:.1f} ms, {:.1f} ms of processor "
      "(medians of 21)\n",
      entries, live, median(took), median(cpu));
}

void bench_large(const std::string& path, std::int64_t entries) {
  {
    const auto book = new_book(path);
    for (std::int64_t n = 0; n < entries; n += 1000) {
      Batches batches = batches_of(n, std::min(entries, n + 1000), 1000);
      append(*book, batches.front());
    }
  }
  for (const std::size_t most : {1'000, 10'000}) bench_open(path, entries, most);
  const auto book = open_book(path, fold, [] { return std::int64_t{0}; });
  bench_proof(**book);
  for (int round = 0; round < 3; ++round) bench_verify(**book, VerifyDepth::record);
  bench_verify(**book, VerifyDepth::all);
}

void bench_backup(const std::string& path, const std::string& target) {
  const auto book = open_book(path, fold, [] { return std::int64_t{0}; });
  const auto start = steady_clock::now();
  (*book)->backup_to(target, {});
  fmt::print("backup: {:.2f} s for {:.0f} MB\n", seconds_since(start),
             static_cast<double>(fs::file_size(target)) / 1e6);
}

void bench_files(const fs::path& folder, std::int64_t entries) {
  for (const auto& [batch, batches] : {std::pair{1, 500}, {100, 50}, {1000, 20}}) {
    const std::string name = (folder / fmt::format("append-{}", batch)).string();
    bench_append(name, BareTable(name + "-bare"), batch, batches, 9);
  }
  bench_large((folder / "large").string(), entries);
  bench_backup((folder / "large").string(), (folder / "backup").string());
}

void bench_server(const std::string& address, const fs::path& folder, std::int64_t entries) {
  const auto schema = [&](const std::string& name) {
    return fmt::format("{}{}schema=bench_{}", address, address.find('?') == std::string::npos ? '?' : '&',
                       name);
  };
  for (const auto& [batch, batches] : {std::pair{1, 500}, {100, 50}, {1000, 20}})
    bench_append(schema(fmt::format("append_{}", batch)), BareServerTable(address), batch, batches, 9);
  bench_large(schema("large"), entries);
  bench_backup(schema("large"), (folder / "backup").string());
}

}  // namespace

int main(int count, char** words) {
  std::int64_t entries = 1'000'000;
  fs::path folder = fs::temp_directory_path();
  std::string server;
  for (int i = 1; i + 1 < count; i += 2) {
    if (words[i] == std::string_view("--entries")) entries = std::stoll(words[i + 1]);
    if (words[i] == std::string_view("--folder")) folder = words[i + 1];
    if (words[i] == std::string_view("--server")) server = words[i + 1];
  }
  folder /= fmt::format("fogwright-bench-{}", steady_clock::now().time_since_epoch().count());
  fs::create_directories(folder);
  if (server.empty())
    bench_files(folder, entries);
  else
    bench_server(server, folder, entries);
  fs::remove_all(folder);
}
