// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "fogwright/book/sha256.hpp"
#include "fogwright/store.hpp"

namespace fogwright::server {

/// Keeps what may have to be erased beside the record while an entry is appended; gone again where nothing is.
class Beside {
 public:
  /// An empty text keeps nothing.
  Beside(Store& store, const Salt& salt, const std::string& text);
  Beside(const Beside&) = delete;
  Beside& operator=(const Beside&) = delete;
  ~Beside();
  void used() { used_ = true; }
  [[nodiscard]] const std::string& hash() const { return hash_; }

 private:
  Store& store_;
  std::string hash_;
  bool used_ = false;
};

}  // namespace fogwright::server
