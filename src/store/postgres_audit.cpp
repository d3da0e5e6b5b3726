// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "store/audit_parts.hpp"
#include "store/postgres_schema.hpp"
#include "store/postgres_store.hpp"

namespace fogwright::pq {
namespace {

class AuditedDatabase final : public AuditedBook {
 public:
  AuditedDatabase(const Address& address, const Options& options)
      : address_(address), options_(options), snapshot_(open_connection(address, options)), tables_(snapshot_) {
    tables_.begin_reading();
  }

  BookTables& tables() override { return tables_; }
  std::shared_ptr<BookTables> another() override {
    struct Own {
      explicit Own(Connection made) : connection(std::move(made)), tables(connection) {}
      Connection connection;
      PostgresTables tables;
    };
    auto made = std::make_shared<Own>(open_connection(address_, options_));
    return {made, &made->tables};
  }

  void check_tables(std::vector<Finding>& findings) override {
    Connection model = open_connection(address_, options_);
    check_described(described_anew(model, options_.steps), described(snapshot_), findings);
    const Answer head = snapshot_.run("SELECT size FROM head");
    if (head.rows() == 1 && head.integer(0, 0) == tables_.size()) return;
    findings.push_back({std::nullopt, "the head does not stand behind the last entry"});
  }

  // Pages are checked against their checksums by the server whenever it reads one.
  void check_files(std::vector<Finding>& findings) override {
    const Answer failed = snapshot_.run(
        "SELECT coalesce(checksum_failures, 0) FROM pg_stat_database WHERE datname = current_database()");
    if (failed.rows() != 1 || failed.integer(0, 0) == 0) return;
    findings.push_back(
        {std::nullopt, fmt::format("the server found {} damaged pages of its files", failed.integer(0, 0))});
  }

 private:
  Address address_;
  Options options_;
  Connection snapshot_;
  PostgresTables tables_;
};

}  // namespace

std::unique_ptr<AuditedBook> audited_database(const Address& address, const Options& options) {
  return std::make_unique<AuditedDatabase>(address, options);
}

}  // namespace fogwright::pq
