// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <atomic>
#include <string>
#include <thread>
#include <vector>

namespace store_test {

/// Stands between the store and the server and cuts the line at a moment of the test's choice: what a network
/// does.
class Proxy {
 public:
  /// Listens on the socket of a folder, as the server does.
  explicit Proxy(const std::string& folder);
  Proxy(const Proxy&) = delete;
  Proxy& operator=(const Proxy&) = delete;
  ~Proxy();

  enum class Cut { never, before_commit, after_commit };
  /// Once: the next COMMIT is lost on its way there, or its answer on the way back.
  void cut_next(Cut cut) { cut_ = cut; }
  [[nodiscard]] bool has_cut() const { return cut_ == Cut::never; }

 private:
  void accept_all();
  void carry(int client);

  std::atomic<Cut> cut_{Cut::never};
  std::atomic<bool> ended_{false};
  int listener_;
  std::thread accepting_;
  std::vector<std::thread> carrying_;
};

}  // namespace store_test
