// SPDX-License-Identifier: Apache-2.0
#include "store/audit.hpp"

#include <fmt/format.h>

#include <future>

#include "fogwright/book/encoding.hpp"
#include "store/audit_parts.hpp"
#include "store/leaf_batches.hpp"
#include "store/rebuild.hpp"
#include "store/record_scan.hpp"
#include "store/session.hpp"

namespace fogwright {
namespace {

constexpr unsigned threads = 2;

// One reading of the record, from the first entry on: bytes against the tree and, in depth, entries against
// documents.
class RecordReading {
 public:
  RecordReading(const AuditedBook& book, VerifyDepth depth, sqlite::Connection& snapshot)
      : book_(book),
        size_(BookReader(snapshot).size()),
        verifier_(book.origin, {false, on_threads(threads), most_findings}) {
    if (depth == VerifyDepth::record) return;
    make_fresh_documents(snapshot);
    fresh_.emplace(snapshot, fresh_documents);
  }

  BookVerifier& verifier() { return verifier_; }
  [[nodiscard]] std::int64_t size() const { return size_; }

  void run(const Progress& progress) {
    if (fresh_) return run_in_depth(progress);
    RecordScan scan(book_, size_, verifier_, threads);
    scan.run(progress);
    stopped_at_ = scan.stopped_at();
  }

  /// What reading the entries found, besides what the verifier did.
  [[nodiscard]] std::vector<Finding> take_findings() {
    if (stopped_at_ < size_) {
      add(stopped_at_, "is missing; what stands behind it cannot be tied to the tree");
    }
    return std::move(findings_);
  }

 private:
  // Entries are read ahead by one thread while others hash and read the batch before; folding needs them in
  // order.
  void run_in_depth(const Progress& progress) {
    const auto source = open_connection(book_.path, sqlite::Access::read_only, book_.options);
    LeafBatches batches(source, size_);
    LeafBatch batch, ahead;
    batches.next(batch);
    while (!batch.rows.empty()) {
      auto reading = std::async(std::launch::async, [&] { batches.next(ahead); });
      verifier_.feed(batch.leaves());
      fold(batch);
      if (progress) progress(batch.rows.back().seq + 1, size_);
      reading.get();
      std::swap(batch, ahead);
    }
    fresh_.reset();
    stopped_at_ = batches.stopped_at();
  }

  void add(std::int64_t seq, std::string what) {
    if (findings_.size() < most_findings) findings_.push_back({seq, std::move(what)});
  }

  // Reading is spread over the threads; folding goes in order.
  void fold(const LeafBatch& batch) {
    constexpr std::size_t piece = 256;
    std::vector<Result<Entry>> entries(batch.rows.size());
    on_threads(threads)((entries.size() + piece - 1) / piece, [&](std::size_t number) {
      for (std::size_t i = number * piece; i < std::min(entries.size(), (number + 1) * piece); ++i) {
        entries[i] = read_entry(batch.leaf(batch.rows[i]), book_.origin);
      }
    });
    for (std::size_t i = 0; i < entries.size(); ++i) fold(batch.rows[i], entries[i]);
  }

  void fold(const LeafBatch::Row& row, const Result<Entry>& entry) {
    if (!entry) {
      add(row.seq, entry.error().message);
      return;
    }
    if (entry->id != row.id) add(row.seq, "stands under an id that is not its own");
    if (findings_.empty()) book_.fold(*entry, *fresh_);
  }

  const AuditedBook& book_;
  std::int64_t size_, stopped_at_ = 0;
  BookVerifier verifier_;
  std::optional<SqlDocuments> fresh_;
  std::vector<Finding> findings_;
};

// "entry N" of a fault of the verifier.
std::optional<std::int64_t> entry_of(const Error& fault) {
  constexpr std::string_view prefix = "entry ";
  if (!fault.where.starts_with(prefix)) return std::nullopt;
  return std::stoll(fault.where.substr(prefix.size()));
}

// An entry that is named already for its hash needs no second finding for what that did to its text.
void merge(std::vector<Finding>& findings, std::vector<Finding>&& more) {
  for (Finding& finding : more) {
    const bool named = std::any_of(findings.begin(), findings.end(), [&](const Finding& known) {
      return known.seq.has_value() && known.seq == finding.seq;
    });
    if (!named) findings.push_back(std::move(finding));
  }
}

std::vector<Finding> findings_of(const VerifySummary& summary) {
  std::vector<Finding> findings;
  for (const Error& fault : summary.faults) findings.push_back({entry_of(fault), fault.message});
  if (summary.fault_count > summary.faults.size()) {
    findings.push_back({std::nullopt, fmt::format("and {} more", summary.fault_count - summary.faults.size())});
  }
  return findings;
}

bool names_entries(const std::vector<Finding>& findings) {
  return std::any_of(findings.begin(), findings.end(),
                     [](const Finding& finding) { return finding.seq.has_value(); });
}

void check_documents(const sqlite::Connection& connection, std::vector<Finding>& findings) {
  std::vector<std::string> differing;
  const std::int64_t count = compare_documents(connection, differing);
  for (std::string& document : differing) findings.push_back({std::nullopt, "document " + std::move(document)});
  const auto unnamed = count - static_cast<std::int64_t>(differing.size());
  if (unnamed > 0) findings.push_back({std::nullopt, fmt::format("and {} more documents", unnamed)});
}

}  // namespace

Verification audit_book(const AuditedBook& book, std::string_view trusted_vkey, VerifyDepth depth,
                        const Progress& progress) {
  sqlite::Connection snapshot = open_connection(book.path, sqlite::Access::read_only, book.options);
  snapshot.set_pragma("query_only", "OFF", "0");  // documents are derived into a temporary table
  const sqlite::Transaction reading(snapshot, sqlite::Transaction::Kind::read);
  RecordReading record(book, depth, snapshot);
  CheckpointAudit checkpoints(snapshot, trusted_vkey);
  checkpoints.expect(record.verifier());
  record.run(progress);

  const VerifySummary summary = record.verifier().finish();
  Verification result;
  result.head = {static_cast<std::int64_t>(summary.size), summary.root, 0};
  result.findings = findings_of(summary);
  merge(result.findings, record.take_findings());
  const bool entries_hold = !names_entries(result.findings);
  if (entries_hold) check_nodes(snapshot, summary, result.findings);
  result.checkpoints = checkpoints.outcomes(summary.faults, result.findings);
  check_tables(snapshot, book.options, result.findings);
  if (depth == VerifyDepth::all) {
    check_file(snapshot, result.findings);
    check_private(snapshot, result.findings);
    if (entries_hold) check_documents(snapshot, result.findings);
  }
  result.head.last_received_ms = last_received(snapshot, book.origin);
  return result;
}

}  // namespace fogwright
