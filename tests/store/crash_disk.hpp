// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "shim_vfs.hpp"

namespace store_test {

/// Files by name, as they would be found after the power came back.
using Image = std::map<std::string, std::string>;

/// A disk with a cache that loses its power. What was synced is there; of what was not, each write may be
/// there, not be there, or be torn at 512 bytes, in any combination. A new file has its name after its first
/// sync; an unlink may be undone until some folder sync. After a sync that failed, the system takes the pages
/// for clean: later syncs do not write them.
class CrashDisk : public Disk {
 public:
  /// Files that are there and durable before the recording begins.
  explicit CrashDisk(Image start);

  /// The number of the sync that fails, from 1; 0: none.
  void fail_sync(int number) { failing_sync_ = number; }
  /// Notes that the caller was told that entries up to here are kept.
  void acknowledge(std::int64_t entries) { acknowledged_.emplace_back(operations_.size(), entries); }

  int before(const Operation& operation) override;
  void after(const Operation& operation, bool failed) override;

  [[nodiscard]] int syncs() const { return syncs_; }
  [[nodiscard]] std::size_t points() const { return operations_.size() + 1; }

  /// Calls `look` with each image that can be found after each operation, with the entries acknowledged by
  /// then. Seed 0 loses all that was not synced, seed 1 keeps it, the others throw dice. Equal images are shown
  /// once.
  void each_image(unsigned seeds,
                  const std::function<void(const Image& image, std::int64_t acknowledged)>& look) const;

 private:
  struct File {
    std::string durable;
    bool named = true;               // found after a crash
    bool removed = false;            // unlinked, but that may be undone
    std::vector<Operation> pending;  // written since the last sync
    std::vector<Operation> doomed;   // lost to a failed sync, unless by chance they were written
  };
  using Files = std::map<std::string, File>;

  static void carry_out(Files& files, const Operation& operation, bool failed);
  static Image image_of(const Files& files, unsigned seed, std::mt19937& dice);
  [[nodiscard]] std::int64_t acknowledged_at(std::size_t point) const;

  Image start_;
  std::vector<std::pair<Operation, bool>> operations_;
  std::vector<std::pair<std::size_t, std::int64_t>> acknowledged_;
  int syncs_ = 0;
  int failing_sync_ = 0;
};

}  // namespace store_test
