// SPDX-License-Identifier: Apache-2.0
#pragma once

/// A server on a port of its own, and clients that write raw bytes.

#include <memory>
#include <string>
#include <thread>

#include "server/net/http_server.hpp"

namespace fogwright::test {

class Running {
 public:
  Running(server::ListenSettings settings, server::Handler handler);
  ~Running();
  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;
  void stop();
  [[nodiscard]] std::uint16_t port() const { return server_.port(); }

  server::Metrics metrics;

 private:
  server::HttpServer server_;
  std::thread thread_;
};

/// Settings with short times, so that tests of slowness are quick.
[[nodiscard]] server::ListenSettings quick_settings();

class Client {
 public:
  explicit Client(std::uint16_t port);
  ~Client();
  Client(const Client&) = delete;
  Client& operator=(const Client&) = delete;

  /// False where the other side has gone.
  bool send(std::string_view bytes);
  /// What comes until there are `answers` answers or the other side ends; bounded in time.
  std::string receive(int answers = 1);
  std::string exchange(std::string_view bytes) {
    send(bytes);
    return receive();
  }
  [[nodiscard]] bool ended();  ///< the other side has closed

 private:
  int socket_;
};

}  // namespace fogwright::test
