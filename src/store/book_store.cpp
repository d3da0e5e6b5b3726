// SPDX-License-Identifier: Apache-2.0
#include "store/book_store.hpp"

#include <algorithm>

namespace fogwright {

void BookStore::write(const Work& work) {
  if (writing_ != nullptr) {
    work(*writing_);
    return;
  }
  commit_tried_ = false;
  struct Ended {
    BookTables*& writing;
    ~Ended() { writing = nullptr; }
  } const ended{writing_};
  transact([&](BookTables& tables) {
    writing_ = &tables;
    return work(tables);
  });
}

void BookStore::begin_work(BookTables& tables) {
  TreeState now = state_;
  if (!catch_up(now, tables, origin_)) {
    throw StorageFault(ErrorCode::bad_book, "entries that were in the book are gone or changed",
                       "verify the book; restore it from a backup");
  }
  state_ = std::move(now);
}

Head BookStore::head_of(BookTables& tables) {
  TreeState now = state_;
  const bool ahead = catch_up(now, tables, origin_);
  const Head head = now.head();
  if (ahead) state_ = std::move(now);
  return head;
}

Result<std::vector<Receipt>> BookStore::append(const Decide& decide) {
  if (writing_ != nullptr)
    return fail(ErrorCode::internal_fault, "append was called while deciding what to append");
  try {
    return append_under_lock(decide);
  } catch (const StorageFault& fault) {
    if (fault.code() != ErrorCode::storage_busy) throw;
    return fail(fault.code(), fault.what(), place(), fault.hint());
  }
}

Result<std::vector<Receipt>> BookStore::append_under_lock(const Decide& decide) {
  Result<std::vector<Receipt>> result;
  TreeState after;
  const auto held = hold();  // until a failed commit is resolved
  try {
    write([&](BookTables& tables) {
      Appender appender(appending(tables), state_, clock_());
      result = append_all(appender, decide, tables.documents());
      after = appender.state();
      return result.has_value() && appender.wrote();
    });
    if (result) state_ = std::move(after);
  } catch (const StorageFault& fault) {
    if (fault.code() == ErrorCode::storage_busy) throw;
    if (!commit_tried_ || !result || !made_it(*result)) throw outcome_of(fault);
  }
  return result;
}

Result<std::vector<Receipt>> BookStore::append_all(Appender& appender, const Decide& decide,
                                                   const Documents& documents) {
  auto entries = decide(documents, state_.head());
  if (!entries) return tl::make_unexpected(entries.error());
  if (auto added = appender.add(std::move(*entries)); !added) return tl::make_unexpected(added.error());
  return appender.receipts();
}

bool BookStore::all_there(const std::vector<Receipt>& receipts, BookTables& tables) {
  return std::all_of(receipts.begin(), receipts.end(),
                     [&](const Receipt& receipt) { return tables.find(receipt.id) == receipt.seq; });
}

StorageFault BookStore::outcome_of(const StorageFault& fault) const {
  const char* outcome = commit_tried_ && in_doubt()
                            ? "; whether it was written shows when the book is opened again: the same ids may "
                              "then be handed in once more"
                            : "; nothing was written";
  return {fault.code(), fault.what() + std::string(outcome), fault.hint()};
}

}  // namespace fogwright
