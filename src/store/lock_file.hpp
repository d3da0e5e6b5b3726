// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <chrono>
#include <string>

namespace fogwright {

/// The writers' lock: a file beside the book that every process locks around each transaction that writes and
/// each checkpoint. SQLite's own locks order the transactions but let a checkpoint run beside another writer,
/// and versions before 3.51.3 can then damage the file. The system frees the lock when its holder dies. Never
/// deleted: whoever still had the old file open would lock something that nobody else sees.
class LockFile {
 public:
  /// Opens the file or makes it. Throws StorageFault (file_fault).
  explicit LockFile(const std::string& path);
  LockFile(const LockFile&) = delete;
  LockFile& operator=(const LockFile&) = delete;
  ~LockFile();

  /// Holds the lock while it lives. One that is taken while another one of the same LockFile lives costs
  /// nothing.
  class Hold {
   public:
    Hold(Hold&& other) noexcept : file_(other.file_) { other.file_ = nullptr; }
    Hold& operator=(Hold&&) = delete;
    ~Hold();

   private:
    friend class LockFile;
    explicit Hold(LockFile* file) : file_(file) {}
    LockFile* file_;
  };

  /// Throws StorageFault: storage_busy if others hold it for longer than `wait`.
  [[nodiscard]] Hold hold(std::chrono::milliseconds wait);

 private:
  void acquire(std::chrono::milliseconds wait);

  int descriptor_;
  int holds_ = 0;
};

}  // namespace fogwright
