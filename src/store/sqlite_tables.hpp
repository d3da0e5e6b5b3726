// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "store/book_tables.hpp"
#include "store/sql_documents.hpp"

namespace fogwright {

/// The tables in an SQLite file. Entries and documents are gathered and written many at once.
class SqliteTables final : public BookTables {
 public:
  /// Precondition: the connection outlives the tables.
  explicit SqliteTables(const sqlite::Connection& connection);

  /// Writes what was gathered. Before each commit.
  void flush();
  /// Forgets what was gathered. At the end of each transaction, which may have been rolled back.
  void forget();

  [[nodiscard]] Tail tail() override;
  void each_entry(std::int64_t from, std::int64_t to,
                  const std::function<bool(const Row& row)>& visit) override;
  [[nodiscard]] std::optional<std::string> leaf(std::int64_t seq) override;
  [[nodiscard]] std::optional<std::int64_t> find(const Uuid& id) override;
  [[nodiscard]] std::optional<Uuid> largest_id() override;
  void add_entry(const Entry& entry, const Hash& hash, std::string leaf) override;
  void each_hash(unsigned level, std::int64_t begin, std::int64_t end,
                 const std::function<void(std::string_view hash)>& visit) override;
  void each_node(unsigned lowest_level,
                 const std::function<bool(std::int64_t level, std::int64_t position, std::string_view hash)>&
                     visit) override;
  [[nodiscard]] NodeCount node_count(unsigned level) override;
  [[nodiscard]] MutableDocuments& documents() override { return documents_; }
  void each_document(const std::function<void(const DocumentRow& row)>& visit) override;
  void put_document(const DocumentRow& row) override { documents_.put_row(row); }
  void erase_document(std::string_view kind, std::string_view key) override { documents_.erase(kind, key); }
  [[nodiscard]] Checkpoints checkpoints() override;
  [[nodiscard]] std::optional<std::string> checkpoint(std::int64_t size) override;
  void add_checkpoint(std::int64_t size, std::string_view note) override;
  void extend_checkpoint(std::int64_t size, std::string_view note) override;
  [[nodiscard]] std::optional<PrivateRecord> private_record(std::string_view hash) override;
  void add_private(std::string_view hash, std::string_view salt, std::string_view bytes) override;
  [[nodiscard]] bool erase_private(std::string_view hash) override;
  void each_private(const std::function<void(std::string_view hash, std::string_view salt,
                                             std::string_view bytes)>& visit) override;

 private:
  struct NewEntryRow {
    std::int64_t seq;
    Uuid id;
    Hash hash;
    std::string leaf;
  };

  void add_kept_node(std::int64_t level, std::int64_t position, const Hash& hash) override;
  void write_entries();

  const sqlite::Connection& connection_;
  sqlite::Statement tail_, leaf_, find_, largest_id_, leaf_hashes_, node_hashes_, add_node_;
  sqlite::Inserts add_entries_;
  std::vector<NewEntryRow> entries_;  // not written yet
  SqlDocuments documents_;
};

}  // namespace fogwright
