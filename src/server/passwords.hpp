// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <condition_variable>
#include <mutex>
#include <string>
#include <string_view>

#include "fogwright/error.hpp"

namespace fogwright::server {

inline constexpr std::size_t shortest_password = 12;
inline constexpr std::size_t longest_password = 256;

/// Long enough, not the handle, not one of the first that anybody tries. No other rules: length is what counts.
/// Errors: out_of_range, not_understood.
[[nodiscard]] Result<void> check_password_choice(std::string_view password, std::string_view handle);

/// Argon2id of libsodium (64 MiB, two passes); two at once, so that many attempts cannot take the memory. Both
/// fail with storage_busy where they would wait too long.
class PasswordHasher {
 public:
  [[nodiscard]] Result<std::string> hash(const std::string& password);
  /// `stored` "" is nobody's: takes as long, and is never right.
  [[nodiscard]] Result<bool> matches(const std::string& stored, const std::string& password);

 private:
  class Turn;
  std::mutex mutex_;
  std::condition_variable freed_;
  int running_ = 0;
};

}  // namespace fogwright::server
