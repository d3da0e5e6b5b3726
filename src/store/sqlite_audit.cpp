// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "store/audit_parts.hpp"
#include "store/schema.hpp"
#include "store/sqlite_store.hpp"

namespace fogwright {
namespace {

std::vector<std::string> described(const sqlite::Connection& connection) {
  sqlite::Statement select = connection.prepare(
      "SELECT type || ' ' || name, sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite\\_%' ESCAPE '\\'");
  std::vector<std::string> all;
  sqlite::Rows rows = select.rows();
  while (rows.next()) all.push_back(fmt::format("{}\n{}", rows.text(0), rows.text(1)));
  return all;
}

class AuditedFile final : public AuditedBook {
 public:
  AuditedFile(const std::string& path, const SqliteOptions& options)
      : steps_(options.steps),
        snapshot_(open_connection(path, sqlite::Access::read_only, options)),
        reading_(snapshot_, sqlite::Transaction::Kind::read),
        tables_(snapshot_),
        path_(path),
        options_(options) {}

  BookTables& tables() override { return tables_; }
  std::shared_ptr<BookTables> another() override {
    struct Own {
      explicit Own(sqlite::Connection made) : connection(std::move(made)), tables(connection) {}
      sqlite::Connection connection;
      SqliteTables tables;
    };
    auto made = std::make_shared<Own>(open_connection(path_, sqlite::Access::read_only, options_));
    return {made, &made->tables};
  }

  void check_tables(std::vector<Finding>& findings) override {
    sqlite::Connection model(":memory:", sqlite::Access::read_write, {}, 0);
    for (const char* step : steps_) model.execute(step);
    check_described(described(model), described(snapshot_), findings);
  }

  void check_files(std::vector<Finding>& findings) override {
    sqlite::Statement check = snapshot_.prepare(fmt::format("PRAGMA integrity_check({})", most_findings));
    sqlite::Rows rows = check.rows();
    while (rows.next()) {
      if (rows.text(0) != "ok") findings.push_back({std::nullopt, fmt::format("the file: {}", rows.text(0))});
    }
  }

 private:
  std::span<const char* const> steps_;
  sqlite::Connection snapshot_;
  sqlite::Transaction reading_;
  SqliteTables tables_;
  std::string path_;
  SqliteOptions options_;
};

}  // namespace

std::unique_ptr<AuditedBook> audited_file(const std::string& path, const SqliteOptions& options) {
  return std::make_unique<AuditedFile>(path, options);
}

}  // namespace fogwright
