// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace fogwright {

/// What stands beside the record: SHA-256(salt || bytes) is the hash in the leaf.
struct PrivateRecord {
  std::string salt, bytes;
};

/// A store that gives what stands beside the record together with its salt, so that others can check it against
/// the hash. Only a bundle asks for that.
class PrivateRecords {
 public:
  virtual ~PrivateRecords() = default;
  /// None where there is nothing of this hash, or it was erased.
  [[nodiscard]] virtual std::optional<PrivateRecord> private_record(std::string_view hash_hex) = 0;
};

}  // namespace fogwright
