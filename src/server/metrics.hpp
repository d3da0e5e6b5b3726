// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <atomic>
#include <cstdint>
#include <map>
#include <mutex>
#include <string>
#include <utility>

namespace fogwright::server {

/// What the server counts, in the text format of Prometheus. For use from several threads.
class Metrics {
 public:
  /// `route` is the name of an operation, never an address that somebody made up.
  void count(const std::string& route, int status, double seconds);
  [[nodiscard]] std::string text() const;

  std::atomic<std::int64_t> open_connections{0};
  std::atomic<std::int64_t> connections{0};
  std::atomic<std::int64_t> connections_refused{0};
  std::atomic<std::int64_t> timeouts{0};
  std::atomic<std::int64_t> sign_ins_refused{0};

 private:
  struct Route {
    std::int64_t count = 0;
    double seconds = 0;
  };
  mutable std::mutex mutex_;
  std::map<std::pair<std::string, int>, Route> routes_;
};

}  // namespace fogwright::server
