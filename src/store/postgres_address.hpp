// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "fogwright/error.hpp"

namespace fogwright::pq {

/// Where a book is kept on a server: the address as libpq reads it (a URI), and a parameter of our own,
/// `schema`.
struct Address {
  std::vector<std::pair<std::string, std::string>> parameters;  ///< of libpq, a password among them
  std::string schema;                                           ///< the folder, so to say, of the book's tables
  std::string shown;                                            ///< without a password: for errors and output

  [[nodiscard]] std::string value(std::string_view keyword) const;
  /// The text without the password, wherever it stands.
  [[nodiscard]] std::string masked(std::string text) const;
};

/// Errors: not_understood; no word of the address is repeated, since it may hold a password. Throws
/// StorageFault if this machine has no client library.
[[nodiscard]] Result<Address> read_address(const std::string& text);

}  // namespace fogwright::pq
