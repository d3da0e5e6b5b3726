// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <atomic>
#include <list>
#include <mutex>

#include "server/net/http_server.hpp"

namespace fogwright::server {

/// A connection that waits for its next request; `wake` ends the wait.
struct Resting {
  std::function<void()> wake;
  std::list<Resting*>::iterator place = {};
};

/// What all connections share.
class Exchange {
 public:
  Exchange(const ListenSettings& given, Handler handler, Metrics& metrics, LogLine log)
      : settings(given), handler_(std::move(handler)), metrics_(metrics), log_(std::move(log)) {}

  const ListenSettings& settings;

  [[nodiscard]] HttpResponse answer(const HttpRequest& request);
  void tell(const HttpRequest& request, const HttpResponse& response, double seconds);
  void count_fault(bool timeout) {
    if (timeout) ++metrics_.timeouts;
  }
  void log(const nlohmann::json& line) { log_(line); }
  [[nodiscard]] Metrics& metrics() { return metrics_; }

  /// Whether the connection may wait: not once the server stops.
  [[nodiscard]] bool rest(Resting& resting);
  void wake(Resting& resting);
  void stop();  ///< ends every wait
  [[nodiscard]] bool stopping() const { return stopping_; }

 private:
  Handler handler_;
  Metrics& metrics_;
  LogLine log_;
  std::mutex mutex_;
  std::list<Resting*> resting_;
  std::atomic<bool> stopping_{false};
};

}  // namespace fogwright::server
