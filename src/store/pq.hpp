// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <chrono>
#include <functional>
#include <map>
#include <memory>
#include <span>
#include <string>
#include <string_view>

#include "store/postgres_address.hpp"
#include "store/pq_values.hpp"

struct pg_conn;  // libpq's own header stays in libpq.hpp and what includes it
struct pg_result;

/// A thin owner of libpq. What the server reports as an error leaves here as a StorageFault: storage_busy if
/// others hold a lock too long or it takes no more connections, file_fault for missing rights, storage_fault
/// for a lost connection, a full disk and errors of its files, bad_book for damaged data, internal_fault for
/// the rest.
namespace fogwright::pq {

/// The rows that a statement gave, all of them in memory, in the binary format.
class Answer {
 public:
  explicit Answer(pg_result* result) : result_(result) {}

  [[nodiscard]] int rows() const;
  [[nodiscard]] std::int64_t integer(int row, int column) const { return integer_of(text(row, column)); }
  /// Text or bytes; they last as long as the answer.
  [[nodiscard]] std::string_view text(int row, int column) const;
  [[nodiscard]] bool is_null(int row, int column) const;
  /// Rows that an INSERT, UPDATE or DELETE changed.
  [[nodiscard]] std::int64_t changes() const;
  [[nodiscard]] pg_result* handle() const noexcept { return result_.get(); }

 private:
  struct Clear {
    void operator()(pg_result* result) const noexcept;
  };
  std::unique_ptr<pg_result, Clear> result_;
};

/// One connection. A lost one is made anew by the next statement that is no part of a transaction, so that the
/// server may be restarted between two calls.
class Connection {
 public:
  /// What is to be done on each new connection.
  using Prepare = std::function<void(Connection&)>;

  /// Connects. `wait`: how long a server that is just starting is waited for.
  Connection(const Address& address, std::chrono::milliseconds wait, Prepare prepare);

  /// Runs one statement, which is prepared the first time.
  template <class... Values>
  Answer run(const std::string& sql, const Values&... values) {
    const std::array<Value, sizeof...(values)> list{Value(values)...};
    return run_with(sql, list);
  }
  /// Runs statements without parameters, several of them if need be; the answer of the last, in text.
  Answer execute(const std::string& sql);

  /// Begins a transaction with these statements, BEGIN first. They may run twice, on two connections.
  void begin(const std::string& sql);
  /// If this throws and the connection is lost, whether the changes are there is not known.
  void commit();
  /// Ends the transaction that is open, if one is.
  void rollback() noexcept;
  [[nodiscard]] bool in_transaction() const noexcept { return in_transaction_; }

  [[nodiscard]] bool lost() const noexcept;
  /// Makes the connection anew, whatever became of the last one.
  void reconnect();
  [[nodiscard]] const Address& address() const noexcept { return address_; }

 private:
  struct Finish {
    void operator()(pg_conn* connection) const noexcept;
  };

  Answer run_with(const std::string& sql, std::span<const Value> values);
  Answer run_once(const std::string& sql, std::span<const Value> values);
  const std::string& prepared(const std::string& sql, std::span<const Value> values);
  Answer checked(pg_result* result);
  /// Does it again on a new connection if the old one is lost and no transaction was under way.
  Answer outside_transactions(const std::function<Answer()>& act);
  [[nodiscard]] bool try_to_connect();
  void prepare();

  Address address_;
  std::chrono::milliseconds wait_;
  Prepare prepare_;
  std::unique_ptr<pg_conn, Finish> handle_;
  std::map<std::string, std::string, std::less<>> prepared_;  // name of each statement
  bool in_transaction_ = false;
  bool preparing_ = false;
  bool broken_ = false;  // the server has hung up
  bool connected_before_ = false;
};

/// Ends the transaction that nobody committed, of a connection or of tables that stand on one.
template <class Owner>
class Rollback {
 public:
  explicit Rollback(Owner& owner) : owner_(owner) {}
  Rollback(const Rollback&) = delete;
  Rollback& operator=(const Rollback&) = delete;
  ~Rollback() { owner_.rollback(); }

 private:
  Owner& owner_;
};

}  // namespace fogwright::pq
