// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>
#include <optional>
#include <string>

#include "fogwright/book/document_range.hpp"
#include "store/book_tables.hpp"
#include "store/pq.hpp"

namespace fogwright::pq {

/// The documents of a book on a server. Within one transaction each is asked for once; what is put is sent in
/// one statement at the end, or before the server has to go through all of them.
class PostgresDocuments final : public MutableDocuments, public DocumentRange {
 public:
  explicit PostgresDocuments(Connection& connection) : connection_(connection) {}

  [[nodiscard]] std::optional<nlohmann::json> get(std::string_view kind, std::string_view key) const override;
  void each(
      std::string_view kind, bool live_only,
      const std::function<void(const std::string& key, const nlohmann::json& body)>& visit) const override;
  void each_after(
      std::string_view kind, bool live_only, std::string_view after,
      const std::function<bool(const std::string& key, const nlohmann::json& body)>& visit) const override;
  void each_text(std::string_view kind, bool live_only,
                 const std::function<void(std::string_view key, std::string_view body)>& visit) const override;
  void put(std::string_view kind, std::string_view key, const nlohmann::json& body, bool live) override;

  void each_row(const std::function<void(const BookTables::DocumentRow& row)>& visit) const;
  void put_row(const BookTables::DocumentRow& row);
  void erase(std::string_view kind, std::string_view key);

  /// Sends what was put.
  void flush() const;
  /// Forgets what is known and what was put: at the beginning and at the end of a transaction.
  void forget() { known_.clear(), changed_ = 0; }

 private:
  void each_text_after(std::string_view kind, bool live_only, std::string_view after, bool from_the_first,
                       const std::function<bool(std::string_view key, std::string_view body)>& visit) const;
  struct Known {
    std::optional<std::string> body;  // none: there is no such document
    bool live = false;
    bool changed = false;
  };
  using Place = std::pair<std::string, std::string>;

  Known& known(std::string_view kind, std::string_view key) const;
  void forget_if_many() const;

  Connection& connection_;
  // Reading asks the server, which changes what is known but not what the documents are.
  mutable std::map<Place, Known> known_;
  mutable std::size_t changed_ = 0;
};

}  // namespace fogwright::pq
