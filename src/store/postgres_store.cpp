// SPDX-License-Identifier: Apache-2.0
#include "store/postgres_store.hpp"

#include <thread>

#include "store/postgres_schema.hpp"
#include "store/transfer.hpp"

namespace fogwright::pq {
namespace {

using std::chrono::steady_clock;

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

PostgresStore::PostgresStore(const Address& address, Fold fold, Clock clock, const Options& options)
    : BookStore(fold, std::move(clock)), address_(address), options_(options) {
  Connection& first = reader().connection;
  if (book_version(first, options_.steps) < static_cast<int>(options_.steps.size()))
    bring_up_to_date(first, options_.steps);
  const Answer rows = first.run("SELECT value FROM meta WHERE name = 'origin'");
  if (rows.rows() == 1) origin_ = rows.text(0, 0);
}

PostgresStore::Session& PostgresStore::reader() {
  if (!reader_) reader_ = std::make_unique<Session>(open_connection(address_, options_));
  return *reader_;
}

PostgresStore::Session& PostgresStore::writer() {
  if (!writer_) writer_ = std::make_unique<Session>(open_connection(address_, options_));
  return *writer_;
}

void PostgresStore::look(const std::function<void(BookTables& tables)>& use) {
  PostgresTables& tables = reader().tables;
  if (looking_) return use(tables);
  const Flag looking(looking_);
  tables.begin_reading();
  const Rollback ended(tables);  // there is nothing to commit
  use(tables);
}

// Whoever has the lock knows what became of every commit before.
void PostgresStore::transact(const Work& work) {
  Session& open = writer();
  open.tables.begin_writing();
  const Rollback unless_committed(open.tables);
  in_doubt_ = false;
  begin_work(open.tables);
  if (!work(open.tables)) return;
  open.tables.flush();
  about_to_commit();
  commit(open);
}

void PostgresStore::commit(Session& open) {
  try {
    open.tables.commit();
  } catch (const StorageFault&) {
    in_doubt_ = open.connection.lost();
    throw;
  }
}

// The server process of the lost connection may still be at it; it holds the head row until it is done. So
// whoever gets that row sees how it ended.
bool PostgresStore::made_it(const std::vector<Receipt>& receipts) {
  const auto deadline = steady_clock::now() + options_.wait;
  while (in_doubt_) {
    try {
      PostgresTables& tables = writer().tables;
      tables.begin_writing();
      const Rollback ended(tables);
      const bool there = all_there(receipts, tables);
      in_doubt_ = false;
      return there;
    } catch (const StorageFault&) {
      if (steady_clock::now() >= deadline) return false;
      std::this_thread::sleep_for(std::chrono::milliseconds(100));
    }
  }
  return false;
}

std::unique_ptr<AuditedBook> PostgresStore::audited() { return audited_database(address_, options_); }

void PostgresStore::backup_to(const std::string& path, const Progress& progress) {
  const auto done = copy_to_file(*this, path, fold_, clock_, progress);
  if (!done)
    throw StorageFault(done.error().front().code, done.error().front().message, done.error().front().hint);
}

}  // namespace fogwright::pq
