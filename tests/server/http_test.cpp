// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include <atomic>
#include <chrono>

#include "wire.hpp"

using fogwright::server::HttpRequest;
using fogwright::server::HttpResponse;
using fogwright::test::Client;
using fogwright::test::quick_settings;
using fogwright::test::Running;
using namespace std::chrono_literals;

namespace {

/// Tells back what arrived.
HttpResponse echo(const HttpRequest& request) {
  return fogwright::server::json_response(200, {{"target", request.target},
                                                {"size", request.body.size()},
                                                {"remote", request.remote},
                                                {"secure", request.secure}});
}

std::string get(const std::string& target, const std::string& more = "") {
  return "GET " + target + " HTTP/1.1\r\nHost: localhost\r\n" + more + "\r\n";
}

int status(const std::string& answer) { return answer.size() > 12 ? std::stoi(answer.substr(9, 3)) : 0; }

bool holds(const std::string& answer, const std::string& part) {
  return answer.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("a connection is kept for the next request, and every answer carries what protects a browser") {
  Running server(quick_settings(), echo);
  Client client(server.port());
  for (int i = 0; i < 3; ++i) {
    const std::string answer = client.exchange(get("/x" + std::to_string(i)));
    CHECK(status(answer) == 200);
    CHECK(holds(answer, "\"/x" + std::to_string(i)));
    for (const char* header : {"Content-Security-Policy: default-src 'none'", "X-Content-Type-Options: nosniff",
                               "Referrer-Policy: no-referrer", "Cache-Control: no-store"})
      CHECK(holds(answer, header));
  }
  CHECK(server.metrics.connections == 1);
}

TEST_CASE("requests that come in one piece are answered in order") {
  Running server(quick_settings(), echo);
  Client client(server.port());
  client.send(get("/one") + get("/two") + "POST /three HTTP/1.1\r\nHost: x\r\nContent-Length: 3\r\n\r\nabc" +
              get("/four"));
  const std::string all = client.receive(4);
  CHECK(all.find("/one") < all.find("/two"));
  CHECK(all.find("/two") < all.find("/three"));
  CHECK(all.find("/three") < all.find("/four"));
}

TEST_CASE("bytes that are no request are refused and the connection ends") {
  Running server(quick_settings(), echo);
  const std::string bad[] = {"\r\n\r\nnonsense\r\n\r\n",
                             "GET / HTTP/9.9\r\n\r\n",
                             "GET  HTTP/1.1\r\n\r\n",
                             "G\x01T / HTTP/1.1\r\n\r\n",
                             "GET / HTTP/1.1\r\nBad Header\r\n\r\n",
                             "POST / HTTP/1.1\r\nContent-Length: -1\r\n\r\n",
                             "POST / HTTP/1.1\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\nab",
                             "POST / HTTP/1.1\r\nTransfer-Encoding: chunked\r\nContent-Length: 3\r\n\r\nabc",
                             "POST / HTTP/1.1\r\nTransfer-Encoding: chunked\r\n\r\nzz\r\nabc",
                             "\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03 a TLS hello\r\n\r\n"};
  for (const std::string& bytes : bad) {
    INFO(bytes);
    Client client(server.port());
    CHECK(status(client.exchange(bytes)) == 400);
    CHECK(client.ended());
  }
  CHECK(status(Client(server.port()).exchange(get("/"))) == 200);
}

TEST_CASE("headers and bodies have their limits") {
  Running server(quick_settings(), echo);
  CHECK(status(Client(server.port()).exchange(get("/", "X: " + std::string(20'000, 'a') + "\r\n"))) == 431);
  CHECK(
      status(Client(server.port()).exchange("POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 100001\r\n\r\n")) ==
      413);
  Client chunked(server.port());
  chunked.send("POST / HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: chunked\r\n\r\n");
  for (int i = 0; i < 3; ++i) chunked.send("9c40\r\n" + std::string(40'000, 'a') + "\r\n");
  CHECK(status(chunked.receive()) == 413);
  CHECK(holds(
      Client(server.port())
          .exchange("POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 100000\r\n\r\n" + std::string(100'000, 'a')),
      "\"size\":100000"));
}

TEST_CASE("slow clients are let go, and do not stop others") {
  Running server(quick_settings(), echo);
  std::vector<std::unique_ptr<Client>> slow;
  for (int i = 0; i < 100; ++i) {
    slow.push_back(std::make_unique<Client>(server.port()));
    slow.back()->send("G");
  }
  const auto begin = std::chrono::steady_clock::now();
  std::atomic<int> answered{0};
  std::size_t at = 1;
  const std::string request = get("/slowly");
  // A byte at a time to each, while somebody else asks.
  while (std::chrono::steady_clock::now() - begin < 1'500ms && at < request.size()) {
    for (auto& one : slow) one->send(request.substr(at, 1));
    ++at;
    if (status(Client(server.port()).exchange(get("/quick"))) == 200) ++answered;
    std::this_thread::sleep_for(100ms);
  }
  CHECK(answered > 3);
  for (auto& one : slow) CHECK(one->receive().empty());
  CHECK(server.metrics.timeouts >= 100);
}

TEST_CASE("a body that stops halfway is let go") {
  Running server(quick_settings(), echo);
  Client client(server.port());
  client.send("POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 100\r\n\r\nhalf");
  CHECK(client.receive().empty());
}

TEST_CASE("a client that waits to be told to send its body is told") {
  Running server(quick_settings(), echo);
  Client client(server.port());
  client.send("POST / HTTP/1.1\r\nHost: x\r\nExpect: 100-continue\r\nContent-Length: 3\r\n\r\n");
  CHECK(holds(client.receive(), "100 Continue"));
  CHECK(holds(client.exchange("abc"), "\"size\":3"));
}

TEST_CASE("more connections than the server takes are turned away with a time to come back") {
  auto settings = quick_settings();
  settings.most_connections = 3;
  Running server(settings, echo);
  std::vector<std::unique_ptr<Client>> held;
  for (int i = 0; i < 3; ++i) {
    held.push_back(std::make_unique<Client>(server.port()));
    CHECK(status(held.back()->exchange(get("/"))) == 200);
  }
  const std::string answer = Client(server.port()).exchange(get("/"));
  CHECK(status(answer) == 503);
  CHECK(holds(answer, "Retry-After"));
  CHECK(server.metrics.connections_refused == 1);
}

TEST_CASE("a server that is told to stop finishes what runs, ends what rests and takes nothing new") {
  std::atomic<bool> entered{false};
  Running server(quick_settings(), [&](const HttpRequest& request) {
    if (request.target == "/long") {
      entered = true;
      std::this_thread::sleep_for(400ms);
    }
    return echo(request);
  });
  Client resting(server.port());
  CHECK(status(resting.exchange(get("/"))) == 200);
  Client working(server.port());
  working.send(get("/long"));
  while (!entered) std::this_thread::sleep_for(1ms);
  const auto begin = std::chrono::steady_clock::now();
  server.stop();
  CHECK(std::chrono::steady_clock::now() - begin < 2'500ms);
  const std::string answer = working.receive();
  CHECK(status(answer) == 200);
  CHECK(holds(answer, "Connection: close"));
  CHECK(resting.ended());
}

TEST_CASE("only behind a proxy is it believed who the client is") {
  const std::string forwarded = "X-Forwarded-For: 198.51.100.1, 203.0.113.9\r\nX-Forwarded-Proto: https\r\n";
  Running open(quick_settings(), echo);
  CHECK(holds(Client(open.port()).exchange(get("/", forwarded)), "\"remote\":\"127.0.0.1\",\"secure\":false"));
  auto settings = quick_settings();
  settings.behind_proxy = true;
  Running behind(settings, echo);
  const std::string answer = Client(behind.port()).exchange(get("/", forwarded));
  CHECK(holds(answer, "\"remote\":\"203.0.113.9\",\"secure\":true"));
  CHECK(holds(answer, "Strict-Transport-Security"));
}

TEST_CASE("nothing that can be reached from outside is served in the clear") {
  auto settings = quick_settings();
  settings.address = "0.0.0.0";
  fogwright::server::Metrics metrics;
  const auto start = [&] {
    return fogwright::server::HttpServer(settings, echo, metrics, [](const nlohmann::json&) {}).start();
  };
  REQUIRE_FALSE(start());
  CHECK(start().error().code == fogwright::ErrorCode::bad_usage);
  settings.behind_proxy = true;
  CHECK(start());
  settings.address = "somewhere";
  CHECK(start().error().code == fogwright::ErrorCode::not_understood);
}
