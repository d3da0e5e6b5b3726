// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <map>

#include "store/book_tables.hpp"
#include "store/postgres_documents.hpp"

namespace fogwright::pq {

/// The tables on a server. Each question costs a way there and back, so what is written is gathered and sent in
/// one statement (flush), and what is going to be asked is asked for together (look_up).
class PostgresTables final : public BookTables {
 public:
  /// Precondition: the connection outlives the tables.
  explicit PostgresTables(Connection& connection) : connection_(connection), documents_(connection) {}

  /// A transaction that sees one moment.
  void begin_reading();
  /// A transaction that holds the head row, which every writer locks first: one order of entries without gaps.
  void begin_writing();
  /// Sends what was gathered. Before each commit.
  void flush();
  void commit();
  void rollback() noexcept;

  [[nodiscard]] Tail tail() override;
  void each_entry(std::int64_t from, std::int64_t to,
                  const std::function<bool(const Row& row)>& visit) override;
  [[nodiscard]] std::optional<std::string> leaf(std::int64_t seq) override;
  [[nodiscard]] std::optional<std::int64_t> find(const Uuid& id) override;
  [[nodiscard]] std::optional<Uuid> largest_id() override;
  void look_up(std::span<const Uuid> ids) override;
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
  using Id = std::array<std::uint8_t, 16>;
  struct NewEntryRow {
    std::int64_t seq;
    Id id;
    Hash hash;
    std::string leaf;
  };
  struct NewNode {
    std::int64_t level, position;
    Hash hash;
  };

  void add_kept_node(std::int64_t level, std::int64_t position, const Hash& hash) override;
  void send_record();
  void forget();

  Connection& connection_;
  PostgresDocuments documents_;
  std::vector<NewEntryRow> entries_;  // not sent yet
  std::vector<NewNode> nodes_;
  std::size_t bytes_ = 0;
  std::map<Id, std::optional<std::int64_t>> places_;  // of ids, in this transaction
};

}  // namespace fogwright::pq
