// SPDX-License-Identifier: Apache-2.0
#include "store/audit.hpp"

#include <fmt/format.h>

#include <future>

#include "fogwright/book/encoding.hpp"
#include "store/audit_parts.hpp"
#include "store/fresh_documents.hpp"
#include "store/leaf_batches.hpp"
#include "store/record_scan.hpp"
#include "store/tree_state.hpp"

namespace fogwright {
namespace {

constexpr unsigned threads = 2;

// One reading of the record, from the first entry on: bytes against the tree and, in depth, entries against
// documents.
class RecordReading {
 public:
  RecordReading(AuditedBook& book, const std::string& origin, const AuditOptions& options)
      : book_(book),
        origin_(origin),
        fold_(options.fold),
        size_(book.tables().size()),
        verifier_(origin, {false, on_threads(threads), most_findings}) {
    if (options.depth == VerifyDepth::all) fresh_.emplace();
  }

  BookVerifier& verifier() { return verifier_; }

  void run(const Progress& progress) {
    if (fresh_) return run_in_depth(progress);
    RecordScan scan(book_, size_, verifier_, threads);
    scan.run(progress);
    stopped_at_ = scan.stopped_at();
  }

  /// The documents that follow from the entries; none in depth `record`.
  FreshDocuments* fresh() { return fresh_ ? &*fresh_ : nullptr; }

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
    const auto source = book_.another();
    LeafBatches batches(*source, size_);
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
        entries[i] = read_entry(batch.leaf(batch.rows[i]), origin_);
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
    if (findings_.empty()) fold_(*entry, fresh_->documents());
  }

  AuditedBook& book_;
  const std::string& origin_;
  Fold fold_;
  std::int64_t size_, stopped_at_ = 0;
  BookVerifier verifier_;
  std::optional<FreshDocuments> fresh_;
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

void check_documents(FreshDocuments& fresh, BookTables& book, std::vector<Finding>& findings) {
  std::vector<std::string> differing;
  const std::int64_t count = fresh.compare(book, differing);
  for (std::string& document : differing) findings.push_back({std::nullopt, "document " + std::move(document)});
  const auto unnamed = count - static_cast<std::int64_t>(differing.size());
  if (unnamed > 0) findings.push_back({std::nullopt, fmt::format("and {} more documents", unnamed)});
}

}  // namespace

Verification audit_book(AuditedBook& book, const std::string& origin, const AuditOptions& options,
                        const Progress& progress) {
  BookTables& tables = book.tables();
  RecordReading record(book, origin, options);
  CheckpointAudit checkpoints(tables.checkpoints(), options.trusted_vkey);
  checkpoints.expect(record.verifier());
  record.run(progress);

  const VerifySummary summary = record.verifier().finish();
  Verification result;
  result.head = {static_cast<std::int64_t>(summary.size), summary.root, last_received(tables, origin)};
  result.findings = findings_of(summary);
  merge(result.findings, record.take_findings());
  const bool entries_hold = !names_entries(result.findings);
  if (entries_hold) check_nodes(tables, summary, result.findings);
  result.checkpoints = checkpoints.outcomes(summary.faults, result.findings);
  book.check_tables(result.findings);
  if (options.depth == VerifyDepth::all) {
    book.check_files(result.findings);
    check_private(tables, result.findings);
    if (entries_hold) check_documents(*record.fresh(), tables, result.findings);
  }
  return result;
}

}  // namespace fogwright
