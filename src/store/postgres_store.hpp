// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <memory>
#include <string>

#include "store/book_store.hpp"
#include "store/postgres_session.hpp"
#include "store/postgres_tables.hpp"

namespace fogwright::pq {

/// A book on a PostgreSQL server. Any number of processes on any number of machines may use it. When the server
/// was restarted, the next call connects anew.
class PostgresStore final : public BookStore {
 public:
  /// Opens a book that exists; as its owner, takes the steps its tables lack. Throws StorageFault.
  PostgresStore(const Address& address, Fold fold, Clock clock, const Options& options);

  void backup_to(const std::string& path, const Progress& progress) override;

 private:
  struct Session {
    explicit Session(Connection made) : connection(std::move(made)), tables(connection) {}
    Connection connection;
    PostgresTables tables;
  };

  [[nodiscard]] std::string place() const override { return address_.shown; }
  [[nodiscard]] BookTables& seen() override { return reader().tables; }
  void look(const std::function<void(BookTables& tables)>& use) override;
  void transact(const Work& work) override;
  [[nodiscard]] std::shared_ptr<void> hold() override { return nullptr; }
  [[nodiscard]] bool made_it(const std::vector<Receipt>& receipts) override;
  [[nodiscard]] bool in_doubt() const override { return in_doubt_; }
  [[nodiscard]] std::unique_ptr<AuditedBook> audited() override;

  Session& reader();
  Session& writer();
  void commit(Session& open);

  Address address_;
  Options options_;
  std::unique_ptr<Session> reader_, writer_;  // made when they are needed
  bool looking_ = false;
  bool in_doubt_ = false;  // a COMMIT went out and no answer came back
};

/// One moment of the book, to be verified.
[[nodiscard]] std::unique_ptr<AuditedBook> audited_database(const Address& address, const Options& options);

}  // namespace fogwright::pq
