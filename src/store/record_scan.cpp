// SPDX-License-Identifier: Apache-2.0
#include "store/record_scan.hpp"

#include <algorithm>

namespace fogwright {
namespace {

constexpr std::int64_t stretch_size = 8192;
constexpr std::size_t stretches_at_once = 8;

}  // namespace

RecordScan::RecordScan(AuditedBook& book, std::int64_t size, BookVerifier& verifier, unsigned threads)
    : verifier_(verifier), size_(size) {
  while (readers_.size() < threads) {
    readers_.push_back(book.another());
    idle_.push_back(readers_.back().get());
  }
}

void RecordScan::run(const Progress& progress) {
  while (stopped_at_ < size_) {
    std::vector<Stretch> stretches = next_stretches();
    on_threads(static_cast<unsigned>(readers_.size()))(stretches.size(),
                                                       [&](std::size_t i) { read(stretches[i]); });
    for (Stretch& stretch : stretches) {
      if (stretch.fault) std::rethrow_exception(stretch.fault);
      verifier_.feed(std::move(stretch.leaves));
      stopped_at_ = stretch.next;
      if (stretch.next < stretch.end) return;
    }
    if (progress) progress(stopped_at_, size_);
  }
}

std::vector<RecordScan::Stretch> RecordScan::next_stretches() const {
  std::vector<Stretch> stretches;
  for (std::int64_t begin = stopped_at_; begin < size_ && stretches.size() < stretches_at_once;) {
    const std::int64_t end = std::min(begin + stretch_size, size_);
    stretches.push_back({verifier_.hashes_from(static_cast<std::uint64_t>(begin)), begin, end});
    begin = end;
  }
  return stretches;
}

// A fault must not leave the thread it happens on.
void RecordScan::read(Stretch& stretch) {
  BookTables& reader = take_reader();
  try {
    read(stretch, reader);
  } catch (...) {
    stretch.fault = std::current_exception();
  }
  give_back(reader);
}

void RecordScan::read(Stretch& stretch, BookTables& tables) {
  tables.each_entry(stretch.next, stretch.end, [&](const BookTables::Row& row) {
    if (row.seq != stretch.next) return false;
    const auto stored = read_hash(row.hash);
    const Hash hash = stored.value_or(Hash{});  // zeros if what is stored is no hash: no leaf has that one
    stretch.leaves.add({row.leaf, &hash});
    ++stretch.next;
    return true;
  });
}

BookTables& RecordScan::take_reader() {
  const std::lock_guard lock(mutex_);
  BookTables& reader = *idle_.back();
  idle_.pop_back();
  return reader;
}

void RecordScan::give_back(BookTables& reader) {
  const std::lock_guard lock(mutex_);
  idle_.push_back(&reader);
}

}  // namespace fogwright
