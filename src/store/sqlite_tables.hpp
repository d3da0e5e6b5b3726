// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "store/book_tables.hpp"
#include "store/sql_documents.hpp"
#include "store/sqlite.hpp"

namespace fogwright {

/// The tables in an SQLite file.
class SqliteTables final : public BookTables {
 public:
  /// Precondition: the connection outlives the tables.
  explicit SqliteTables(const sqlite::Connection& connection);

  [[nodiscard]] Tail tail() override;
  void each_entry(std::int64_t from, std::int64_t to,
                  const std::function<bool(const Row& row)>& visit) override;
  [[nodiscard]] std::optional<std::string> leaf(std::int64_t seq) override;
  [[nodiscard]] std::optional<std::int64_t> find(const Uuid& id) override;
  [[nodiscard]] std::optional<Uuid> largest_id() override;
  void add_entry(const Entry& entry, const Hash& hash, std::string_view leaf) override;
  void each_hash(unsigned level, std::int64_t begin, std::int64_t end,
                 const std::function<void(std::string_view hash)>& visit) override;
  void each_node(unsigned lowest_level,
                 const std::function<bool(std::int64_t level, std::int64_t position, std::string_view hash)>&
                     visit) override;
  [[nodiscard]] NodeCount node_count(unsigned level) override;
  [[nodiscard]] MutableDocuments& documents() override { return documents_; }
  void each_document(const std::function<void(const DocumentRow& row)>& visit) override;
  void put_document(const DocumentRow& row) override;
  void erase_document(std::string_view kind, std::string_view key) override;
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
  void add_kept_node(std::int64_t level, std::int64_t position, const Hash& hash) override;

  const sqlite::Connection& connection_;
  sqlite::Statement tail_, leaf_, find_, largest_id_, leaf_hashes_, node_hashes_, add_entry_, add_node_;
  SqlDocuments documents_;
};

}  // namespace fogwright
