// SPDX-License-Identifier: Apache-2.0
#include "store/sqlite_store.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "store/schema.hpp"

namespace fogwright {
namespace {

using sqlite::Transaction;

// After these the connection is not to be trusted: SQLite goes on, but what it believes to be written may not
// be.
bool of_the_disk(ErrorCode code) {
  return code == ErrorCode::storage_fault || code == ErrorCode::file_fault || code == ErrorCode::bad_book;
}

Head head_of(const TreeState& state) { return {state.size(), state.tree.root(), state.last_received_ms}; }

class Flag {
 public:
  explicit Flag(bool& flag) : flag_(flag) { flag_ = true; }
  Flag(const Flag&) = delete;
  Flag& operator=(const Flag&) = delete;
  ~Flag() { flag_ = false; }

 private:
  bool& flag_;
};

}  // namespace

SqliteStore::SqliteStore(std::string path, Fold fold, Clock clock, const SqliteOptions& options)
    : path_(std::move(path)), fold_(fold), clock_(std::move(clock)), options_(options) {
  sqlite::Connection first = open_connection(path_, sqlite::Access::read_write, options_);
  lock_.emplace(path_ + ".lock");
  if (book_version(first, options_.steps) < static_cast<int>(options_.steps.size())) {
    const auto held = lock_->hold(options_.wait);
    bring_up_to_date(first, options_.steps);
  }
  origin_ = first.value("SELECT value FROM meta WHERE name = 'origin'");
  session_ = std::make_unique<Session>(path_, options_);
}

// Leaves a single file behind if nobody else has it open.
SqliteStore::~SqliteStore() {
  if (!session_) return;
  try {
    const auto held = lock_->hold(std::chrono::milliseconds(0));
    session_->writer.checkpoint_on_close();
    session_.reset();
  } catch (const StorageFault&) {
    // Another process is writing: it tidies up.
  }
}

Session& SqliteStore::session() {
  if (session_) return *session_;
  throw StorageFault(ErrorCode::storage_fault, "the book had a fault that could not be resolved",
                     "check the disk, then open the book again");
}

// What the log held when a sync failed may be in the system's memory only; it counts once it was written again.
void SqliteStore::reopen() noexcept {
  session_.reset();
  try {
    auto again = std::make_unique<Session>(path_, options_);
    again->writer.rewrite_log();
    again->writer.seal_log();
    session_ = std::move(again);
  } catch (const std::exception&) {
    // session() says so from now on.
  }
}

void SqliteStore::write(const std::function<bool(Session&)>& work) {
  if (writing_) {
    work(session());
    return;
  }
  commit_tried_ = false;
  Session& open = session();
  const auto held = lock_->hold(options_.wait);
  const Flag writing(writing_);
  try {
    Transaction transaction(open.writer, Transaction::Kind::write);
    catch_up_for_writing();
    if (!work(open)) return;
    commit_tried_ = true;
    transaction.commit();
  } catch (const StorageFault& fault) {
    if (of_the_disk(fault.code())) reopen();
    throw;
  }
  checkpoint_if_long();
}

// What was committed is durable whatever happens here, but after a fault the connection must go.
void SqliteStore::checkpoint_if_long() noexcept {
  try {
    if (session_->writer.wal_pages() >= options_.checkpoint_pages) session_->writer.checkpoint();
  } catch (const std::exception&) {
    reopen();
  }
}

// The state moves only forward: a book that has lost entries is refused until it is opened again.
void SqliteStore::catch_up_for_writing() {
  TreeState now = state_;
  if (!catch_up(now, session().written, origin_)) {
    throw StorageFault(ErrorCode::bad_book, "entries that were in the book are gone or changed",
                       "verify the book; restore it from a backup");
  }
  state_ = std::move(now);
}

Head SqliteStore::head_seen() {
  TreeState now = state_;
  const bool ahead = catch_up(now, session().seen, origin_);
  Head head = head_of(now);
  if (ahead) state_ = std::move(now);
  return head;
}

Result<std::vector<Receipt>> SqliteStore::append(const Decide& decide) {
  if (writing_) return fail(ErrorCode::internal_fault, "append was called while deciding what to append");
  Result<std::vector<Receipt>> result;
  TreeState after;
  try {
    const auto held = lock_->hold(options_.wait);  // until a failed commit is resolved
    try {
      write([&](Session& open) {
        Appender appender({open.written, open.book, open.documents, origin_, fold_}, state_, clock_());
        result = append_all(appender, decide, open.documents);
        after = appender.state();
        return result.has_value() && appender.wrote();
      });
      if (result) state_ = std::move(after);
    } catch (const StorageFault& fault) {
      if (fault.code() == ErrorCode::storage_busy) throw;
      if (!commit_tried_ || !result || !made_it(*result)) throw outcome_of(fault);
    }
  } catch (const StorageFault& fault) {
    if (fault.code() != ErrorCode::storage_busy) throw;
    return fail(fault.code(), fault.what(), path_, fault.hint());
  }
  return result;
}

Result<std::vector<Receipt>> SqliteStore::append_all(Appender& appender, const Decide& decide,
                                                     const Documents& documents) {
  auto entries = decide(documents, head_of(state_));
  if (!entries) return tl::make_unexpected(entries.error());
  if (auto added = appender.add(std::move(*entries)); !added) return tl::make_unexpected(added.error());
  return appender.receipts();
}

// After a commit that failed the entries may be there all the same: reopen() has made what is there durable.
bool SqliteStore::made_it(const std::vector<Receipt>& receipts) {
  if (!session_) return false;
  try {
    return std::all_of(receipts.begin(), receipts.end(), [&](const Receipt& receipt) {
      return session_->written.find(receipt.id) == receipt.seq;
    });
  } catch (const StorageFault&) {
    session_.reset();
    return false;
  }
}

StorageFault SqliteStore::outcome_of(const StorageFault& fault) const {
  const bool in_doubt = commit_tried_ && !session_;
  const char* outcome = in_doubt
                            ? "; whether it was written shows when the book is opened again: the same ids may "
                              "then be handed in once more"
                            : "; nothing was written";
  return {fault.code(), fault.what() + std::string(outcome), fault.hint()};
}

}  // namespace fogwright
