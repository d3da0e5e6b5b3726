// SPDX-License-Identifier: Apache-2.0
#pragma once

/// HTTP/1.1 over TCP or TLS: sockets, limits and timeouts. What is answered is the handler's.

#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>

#include "server/http.hpp"
#include "server/metrics.hpp"

namespace fogwright::server {

struct ListenSettings {
  std::string address = "127.0.0.1";
  std::uint16_t port = 8443;     ///< 0: any that is free
  std::string certificate;       ///< PEM file, the chain; empty: no TLS
  std::string certificate_key;   ///< PEM file
  bool behind_proxy = false;     ///< a proxy in front encrypts and says who the client is (X-Forwarded-For)
  int threads = 8;               ///< of the one pool that reads, decides and writes
  int most_connections = 4'096;  ///< more are turned away
  std::uint64_t most_body_bytes = 2'000'000;
  std::uint32_t most_header_bytes = 16'384;

  std::chrono::milliseconds handshake{10'000};  ///< for a TLS handshake
  std::chrono::milliseconds idle{60'000};       ///< between two requests of a connection
  std::chrono::milliseconds header{10'000};     ///< from the first byte of a request to the end of its header
  std::chrono::milliseconds body{30'000};       ///< for a body
  std::chrono::milliseconds write{30'000};      ///< for an answer
  std::chrono::milliseconds linger{2'000};      ///< for a client to read an answer that ends the connection
  std::chrono::milliseconds grace{10'000};      ///< for what runs when the server is told to stop
  std::chrono::milliseconds reload{2'000};      ///< how often the files of the certificate are looked at
};

/// Called from several threads at once; must not throw.
using Handler = std::function<HttpResponse(const HttpRequest& request)>;
/// Takes one line of the log.
using LogLine = std::function<void(const nlohmann::json& line)>;

class HttpServer {
 public:
  HttpServer(ListenSettings settings, Handler handler, Metrics& metrics, LogLine log);
  ~HttpServer();
  HttpServer(const HttpServer&) = delete;
  HttpServer& operator=(const HttpServer&) = delete;

  /// Reads the certificate, binds and listens. Errors: bad_usage (another address than loopback without TLS),
  /// file_fault (certificate, address in use).
  [[nodiscard]] Result<void> start();
  [[nodiscard]] std::uint16_t port() const;  ///< once started
  /// Takes connections until stop(), or a signal to terminate where `signals`; returns when all is answered or
  /// the grace is over. A hang-up signal reads the certificate again.
  void run(bool signals);
  void stop();  ///< from any thread

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace fogwright::server
