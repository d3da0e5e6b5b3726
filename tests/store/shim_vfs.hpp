// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <memory>
#include <string>

/// A layer between SQLite and its own access to files that shows each change to a test and lets it fail.
namespace store_test {

struct Operation {
  enum class Kind { create, write, truncate, sync, remove };
  Kind kind;
  std::string file;         ///< full path
  std::int64_t offset = 0;  ///< of a write; the new size of a truncation
  std::string bytes{};      ///< of a write
  bool folder_too = false;  ///< a removal that is made durable at once
};

class Disk {
 public:
  virtual ~Disk() = default;
  /// Before an operation: 0, or the SQLite result code that it fails with.
  virtual int before(const Operation& operation) = 0;
  /// After one that was carried out; `failed` if SQLite is told that it was not.
  virtual void after(const Operation& operation, bool failed) = 0;
  /// Whether an operation that fails is carried out all the same.
  [[nodiscard]] virtual bool carry_out_failed() const { return false; }
};

/// Registered with SQLite under name() while it lives. Shared memory files are left alone: they do not outlive
/// a crash.
class ShimVfs {
 public:
  explicit ShimVfs(Disk& disk);
  ShimVfs(const ShimVfs&) = delete;
  ShimVfs& operator=(const ShimVfs&) = delete;
  ~ShimVfs();

  [[nodiscard]] std::string name() const { return "shim"; }

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace store_test
