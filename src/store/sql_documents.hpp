// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>
#include <string>

#include "fogwright/book/document_range.hpp"
#include "store/book_tables.hpp"
#include "store/inserts.hpp"

namespace fogwright {

/// Documents in a table of the columns kind, key, body, live. What is put is written at the end of the
/// transaction, each document once, or before all of the table is gone through.
class SqlDocuments : public MutableDocuments, public DocumentRange {
 public:
  SqlDocuments(const sqlite::Connection& connection, const std::string& table);

  [[nodiscard]] std::optional<nlohmann::json> get(std::string_view kind, std::string_view key) const override;
  [[nodiscard]] std::optional<std::string> get_text(std::string_view kind, std::string_view key) const override;
  /// The visitor may change documents.
  void each(
      std::string_view kind, bool live_only,
      const std::function<void(const std::string& key, const nlohmann::json& body)>& visit) const override;
  void each_after(
      std::string_view kind, bool live_only, std::string_view after,
      const std::function<bool(const std::string& key, const nlohmann::json& body)>& visit) const override;
  void each_text(std::string_view kind, bool live_only,
                 const std::function<void(std::string_view key, std::string_view body)>& visit) const override;
  void put(std::string_view kind, std::string_view key, const nlohmann::json& body, bool live) override;

  /// All of them as they stand in the table, in order of the bytes of kind and key.
  void each_row(const std::function<void(const BookTables::DocumentRow& row)>& visit) const;
  void put_row(const BookTables::DocumentRow& row);
  void erase(std::string_view kind, std::string_view key);

  /// Writes what was put.
  void flush() const;
  /// Forgets what was put and not written.
  void forget() const { put_.clear(), put_count_ = 0; }

 private:
  struct Body {
    std::string text;
    bool live;
  };
  using Bodies = std::map<std::string, Body, std::less<>>;

  void put_text(std::string_view kind, std::string_view key, std::string text, bool live);
  void each_from(std::string_view kind, bool live_only, std::string from,
                 const std::function<bool(const std::string& key, const nlohmann::json& body)>& visit) const;

  const sqlite::Connection& connection_;
  std::string table_;
  // Reading runs statements and writes what was put, which changes neither what they say nor the documents.
  mutable sqlite::Statement get_;
  mutable sqlite::Statement each_, each_live_, rows_;
  mutable sqlite::Inserts write_;
  mutable std::map<std::string, Bodies, std::less<>> put_;  // by kind, by key
  mutable std::size_t put_count_ = 0;
};

}  // namespace fogwright
