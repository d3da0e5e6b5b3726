// SPDX-License-Identifier: Apache-2.0
// An audit against the bare scan, with SQLite alone, of the rows that it reads. The book: the season of the
// demo firm many times over, its documents under new keys, and one departure in a hundred entries. Rounds of
// the two alternate.
//
//   audit_bench [--entries N] [--folder DIR]     N: default 1000000
#include <fmt/format.h>
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <vector>

#include "fogwright/audit/audit.hpp"
#include "fogwright/audit/retention.hpp"
#include "fogwright/store.hpp"
#include "store/sqlite.hpp"

using namespace fogwright;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

const std::string origin = "books.example/bench";
constexpr std::int64_t now_ms = 1'800'000'000'000;

double cpu_seconds() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  const auto seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
  };
  return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

/// The most memory that was resident since it was reset.
double peak_mb() {
  std::ifstream status("/proc/self/status");
  for (std::string line; std::getline(status, line);)
    if (line.starts_with("VmHWM:")) return std::stod(line.substr(6)) / 1e3;
  return 0;
}
void reset_peak() { std::ofstream("/proc/self/clear_refs") << "5"; }

void no_fold(const Entry&, MutableDocuments&) {}

NewEntry numbered(std::int64_t n) {
  UuidRandom random{};
  for (std::size_t i = 0; i < 8; ++i) random[9 - i] = static_cast<std::uint8_t>(n >> (8 * i) & 0xFF);
  return {uuid_v7(1'700'000'000'000 + n, random),
          1'700'000'000'000 + n,
          "sedge",
          "heron-tablet",
          "requirement-met",
          {{"job", fmt::format("J{}", n / 55)},
           {"requirement", "filter-out"},
           {"by", "sedge"},
           {"at_ms", now_ms},
           {"evidence", {{"confirmed", true}}}},
          std::nullopt,
          ""};
}

void append(Store& book, std::int64_t from, std::int64_t to) {
  const auto done = book.append([&](const Documents&, const Head&) -> Result<std::vector<NewEntry>> {
    std::vector<NewEntry> entries;
    for (std::int64_t n = from; n < to; ++n) entries.push_back(numbered(n));
    return entries;
  });
  if (!done) throw std::runtime_error(done.error().message);
}

struct Template {
  std::string kind, key, body;
  bool live;
};

struct Season {
  std::int64_t entries = 0;
  std::vector<Template> documents;
};

Season play_season(const fs::path& folder) {
  const std::string command =
      fmt::format("'{}' '{}' '{}' > /dev/null", FOGWRIGHT_DEMO, folder.string(), FOGWRIGHT_SOURCE_DIR);
  if (std::system(command.c_str()) != 0) throw std::runtime_error("the season could not be played");
  sqlite::Connection book((folder / "quillfen.db").string(), sqlite::Access::read_only, "", 0);
  Season season{std::stoll(book.value("SELECT count(*) FROM entry")), {}};
  auto select = book.prepare("SELECT kind, key, body, live FROM document WHERE kind <> 'departure'");
  sqlite::Rows rows = select.rows();
  while (rows.next())
    season.documents.push_back({std::string(rows.text(0)), std::string(rows.text(1)), std::string(rows.text(2)),
                                rows.integer(3) != 0});
  return season;
}

bool one_for_all(const std::string& kind) {
  return kind != "job" && kind != "job-use" && kind != "job-draws" && kind != "count" && kind != "movements" &&
         kind != "container" && kind != "batch" && kind != "use";
}

json departure(std::int64_t n) {
  const auto rules = departure_rules();
  const DepartureRule& rule = rules[static_cast<std::size_t>(n) % rules.size()];
  return {{"seq", n * 100},
          {"rule", rule.id},
          {"severity", severity_name(rule.severity)},
          {"what", "12.8 fl oz was taken from C1, which held 11.2 fl oz"},
          {"actor", n % 2 == 0 ? "sedge" : "bracken"},
          {"person", n % 2 == 0 ? "sedge" : "bracken"},
          {"job", fmt::format("J{}", n)},
          {"product", "fenmist-rtu"},
          {"van", "heron"},
          {"happened_ms", 1'772'461'800'000 + n * 600'000}};
}

// What is live stays as much as in one season: the firm does not keep a thousand vans.
void copy_documents(sqlite::Connection& to, const Season& season, std::int64_t entries) {
  to.execute("BEGIN IMMEDIATE");
  auto insert = to.prepare("INSERT INTO document(kind, key, body, live) VALUES(?1, ?2, ?3, ?4)");
  const std::int64_t copies = std::max<std::int64_t>(1, entries / season.entries);
  for (std::int64_t copy = 0; copy < copies; ++copy)
    for (const Template& one : season.documents) {
      const bool first = copy == 0;
      if (one_for_all(one.kind) && !first) continue;
      const std::string key = first ? one.key : fmt::format("{}~{}", one.key, copy);
      insert.run(std::string_view(one.kind), std::string_view(key), std::string_view(one.body),
                 one.live && first);
    }
  for (std::int64_t n = 0; n < entries / 100; ++n)
    insert.run(std::string_view("departure"), std::string_view(fmt::format("{:012}-0", n * 100)),
               std::string_view(departure(n).dump()), true);
  to.execute("COMMIT");
}

void make_book(const std::string& path, const Season& season, std::int64_t entries) {
  {
    auto book = create_sqlite_book(path, origin, no_fold, [] { return now_ms; });
    if (!book) throw std::runtime_error(book.error().message);
    for (std::int64_t n = 0; n < entries; n += 1000) append(**book, n, std::min(entries, n + 1000));
  }
  sqlite::Connection direct(path, sqlite::Access::read_write, "", 0);
  copy_documents(direct, season, entries);
  direct.checkpoint_on_close();
}

std::size_t scan(const sqlite::Connection& book, const char* sql) {
  std::size_t bytes = 0;
  auto select = book.prepare(sql);
  sqlite::Rows rows = select.rows();
  while (rows.next()) bytes += rows.text(0).size() + rows.text(1).size();
  return bytes;
}

constexpr const char* audit_rows =
    "SELECT key, body FROM document WHERE kind IN ('departure', 'job-use', 'count', 'movements', 'container', "
    "'batch', 'job', 'person')";
constexpr const char* record_rows = "SELECT hash, leaf FROM entry UNION ALL SELECT hash, '' FROM node";

struct Figures {
  std::vector<double> took;
  [[nodiscard]] double median() const {
    auto sorted = took;
    std::sort(sorted.begin(), sorted.end());
    return sorted[sorted.size() / 2];
  }
};

template <class Work>
void timed(Figures& figures, Work work) {
  const double before = cpu_seconds();
  work();
  figures.took.push_back(cpu_seconds() - before);
}

void measure(const std::string& path, std::int64_t entries) {
  const auto store = open_sqlite_book(path, no_fold, [] { return now_ms; });
  const sqlite::Connection direct(path, sqlite::Access::read_only, "", 0);
  Figures bare, judged, bare_record, whole, kept;
  std::int64_t found = 0;
  double peak = 0;
  reset_peak();
  const double before = peak_mb();
  const auto run = [&](RecordCheck record) {
    (*store)->read([&](const Documents& now, const Head& head) {
      found = audit(now, {head.size, now_ms, std::move(record)}, {}).total();
    });
  };
  for (int round = 0; round < 7; ++round) {
    timed(bare, [&] { scan(direct, audit_rows); });
    timed(judged, [&] { run({}); });
    peak = peak_mb();
  }
  for (int round = 0; round < 3; ++round) {
    timed(bare_record, [&] { scan(direct, audit_rows), scan(direct, record_rows); });
    timed(whole, [&] {
      const auto verification = (*store)->verify("", VerifyDepth::record, [](std::int64_t, std::int64_t) {});
      if (!verification.findings.empty()) throw std::runtime_error(verification.findings.front().what);
      run({true, {}, {}});
    });
    timed(kept,
          [&] { (*store)->read([&](const Documents& now, const Head&) { (void)retention(now, now_ms); }); });
  }
  fmt::print("{} entries, {} departures, {:.0f} MB\n", entries, found,
             static_cast<double>(fs::file_size(path)) / 1e6);
  fmt::print("  bare scan of the documents that an audit reads: {:.1f} ms\n", 1e3 * bare.median());
  fmt::print("  audit without verifying: {:.1f} ms, {:.2f} times; {:.1f} MB over {:.1f} MB resident\n",
             1e3 * judged.median(), judged.median() / bare.median(), peak - before, before);
  fmt::print("  bare scan of those, entries and nodes: {:.2f} s\n", bare_record.median());
  fmt::print("  audit that verifies the record: {:.2f} s, {:.2f} times\n", whole.median(),
             whole.median() / bare_record.median());
  fmt::print("  what must be kept until when: {:.2f} s\n", kept.median());
}

}  // namespace

int main(int count, char** words) {
  std::int64_t entries = 1'000'000;
  fs::path folder = fs::temp_directory_path();
  for (int i = 1; i + 1 < count; i += 2) {
    if (words[i] == std::string_view("--entries")) entries = std::stoll(words[i + 1]);
    if (words[i] == std::string_view("--folder")) folder = words[i + 1];
  }
  folder /= fmt::format("fogwright-bench-{}", std::chrono::steady_clock::now().time_since_epoch().count());
  fs::create_directories(folder);
  const Season season = play_season(folder);
  for (const std::int64_t size : {entries / 10, entries}) {
    const std::string path = (folder / fmt::format("book-{}", size)).string();
    make_book(path, season, size);
    measure(path, size);
  }
  fs::remove_all(folder);
}
