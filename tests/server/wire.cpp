// SPDX-License-Identifier: Apache-2.0
#include "wire.hpp"

#include <arpa/inet.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

#include <catch2/catch.hpp>

namespace fogwright::test {

using namespace std::chrono_literals;

server::ListenSettings quick_settings() {
  server::ListenSettings settings;
  settings.port = 0;
  settings.threads = 2;
  settings.most_connections = 200;
  settings.most_body_bytes = 100'000;
  settings.handshake = settings.idle = settings.header = settings.body = settings.write = 800ms;
  settings.linger = 300ms;
  settings.grace = 3s;
  settings.reload = 100ms;
  return settings;
}

Running::Running(server::ListenSettings settings, server::Handler handler)
    : server_(std::move(settings), std::move(handler), metrics, [](const nlohmann::json&) {}) {
  const auto started = server_.start();
  if (!started) FAIL(started.error().message);
  thread_ = std::thread([this] { server_.run(false); });
}

void Running::stop() {
  if (!thread_.joinable()) return;
  server_.stop();
  thread_.join();
}

Running::~Running() { stop(); }

Client::Client(std::uint16_t port) : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
  sockaddr_in to{};
  to.sin_family = AF_INET;
  to.sin_port = htons(port);
  to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  REQUIRE(::connect(socket_, reinterpret_cast<sockaddr*>(&to), sizeof to) == 0);
  const timeval patience{10, 0};
  ::setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
}

Client::~Client() { ::close(socket_); }

bool Client::send(std::string_view bytes) {
  return ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL) == static_cast<ssize_t>(bytes.size());
}

std::string Client::receive(int answers) {
  std::string all;
  const auto count = [&all] {
    int found = 0;
    for (auto at = all.find("HTTP/1.1 "); at != std::string::npos; at = all.find("HTTP/1.1 ", at + 1)) ++found;
    return found;
  };
  char bytes[4'096];
  // Answers of the tests end with "}\n" or have no body.
  while (count() < answers || !(all.ends_with("}\n") || all.ends_with("\r\n\r\n"))) {
    const ssize_t got = ::recv(socket_, bytes, sizeof bytes, 0);
    if (got <= 0) break;
    all.append(bytes, static_cast<std::size_t>(got));
  }
  return all;
}

bool Client::ended() {
  char byte = 0;
  return ::recv(socket_, &byte, 1, 0) == 0;
}

}  // namespace fogwright::test
