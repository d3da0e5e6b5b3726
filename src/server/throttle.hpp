// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <map>
#include <mutex>
#include <string>

namespace fogwright::server {

/// Slows down who guesses passwords, by account and address together: a stranger's failures delay the stranger
/// and not the person. An address that fails at many accounts is delayed too, shortly. For use from several
/// threads.
class Throttle {
 public:
  /// Milliseconds to wait before the next attempt; 0: now.
  [[nodiscard]] std::int64_t wait_ms(const std::string& account, const std::string& remote,
                                     std::int64_t now_ms);
  void failed(const std::string& account, const std::string& remote, std::int64_t now_ms);
  void succeeded(const std::string& account, const std::string& remote);

  static constexpr std::size_t most_rows = 10'000;
  static constexpr int free_failures = 4;           ///< of one account from one address
  static constexpr int free_address_failures = 30;  ///< of one address over all accounts
  static constexpr std::int64_t longest_ms = 15 * 60'000;
  static constexpr std::int64_t longest_address_ms = 30'000;
  static constexpr std::int64_t forget_ms = 60 * 60'000;

 private:
  struct Row {
    int failures = 0;
    std::int64_t last_ms = 0;
    std::int64_t until_ms = 0;
  };
  void add(const std::string& key, int free, std::int64_t longest_ms, std::int64_t now_ms);
  void make_room(std::int64_t now_ms);

  std::mutex mutex_;
  std::map<std::string, Row> rows_;
};

}  // namespace fogwright::server
