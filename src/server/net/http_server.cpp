// SPDX-License-Identifier: Apache-2.0
#include "server/net/http_server.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <thread>
#include <vector>

#include "server/net/session_tls.hpp"

#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/strand.hpp>

namespace fogwright::server {
namespace {

using net::ip::tcp;
using Acceptor = net::basic_socket_acceptor<tcp, net::any_io_executor>;

Result<net::ip::address> read_address(const std::string& text) {
  beast::error_code fault;
  const auto address = net::ip::make_address(text, fault);
  if (!fault) return address;
  return fail(ErrorCode::not_understood, fmt::format("\"{}\" is not an address", text), "--address",
              "write e.g. --address 127.0.0.1, or 0.0.0.0 for all of this machine's");
}

Result<void> check_exposure(const net::ip::address& address, const ListenSettings& settings) {
  if (address.is_loopback() || !settings.certificate.empty() || settings.behind_proxy) return {};
  return fail(ErrorCode::bad_usage,
              fmt::format("{} can be reached from outside, and nothing is encrypted", address.to_string()),
              "--address",
              "give --certificate and --certificate-key, or --behind-proxy where a proxy encrypts");
}

}  // namespace

struct HttpServer::Inside {
  Inside(ListenSettings given, Handler handler, Metrics& metrics, LogLine log)
      : settings(std::move(given)), exchange(settings, std::move(handler), metrics, std::move(log)) {}

  Result<void> start() {
    const auto address = read_address(settings.address);
    if (!address) return tl::make_unexpected(address.error());
    if (auto ok = check_exposure(*address, settings); !ok) return ok;
    if (!settings.certificate.empty())
      if (auto ok = read_certificate(); !ok) return ok;
    return listen({*address, settings.port});
  }

  Result<void> listen(const tcp::endpoint& at) {
    beast::error_code fault;
    acceptor.open(at.protocol(), fault);
    if (!fault) acceptor.set_option(net::socket_base::reuse_address(true), fault);
    if (!fault) acceptor.bind(at, fault);
    if (!fault) acceptor.listen(1'024, fault);
    if (fault)
      return fail(ErrorCode::file_fault,
                  fmt::format("port {} cannot be opened: {}", at.port(), fault.message()), "--port",
                  "choose another port, or stop what holds it");
    return {};
  }

  Result<void> read_certificate() {
    auto fresh = make_tls(settings);
    if (!fresh) return tl::make_unexpected(fresh.error());
    tls = std::move(*fresh);
    certificate_time = newest_time();
    return {};
  }

  /// The old certificate stays in use where the new one cannot be read.
  void reload() {
    certificate_time = newest_time();
    const auto ok = read_certificate();
    nlohmann::json line = {{"event", "certificate"}, {"result", ok ? "read again" : "kept the old one"}};
    if (!ok) line["why"] = ok.error().message;
    exchange.log(line);
  }

  [[nodiscard]] std::filesystem::file_time_type newest_time() const {
    std::error_code missing;
    return std::max(std::filesystem::last_write_time(settings.certificate, missing),
                    std::filesystem::last_write_time(settings.certificate_key, missing));
  }

  net::awaitable<void> accept_all() {
    beast::error_code fault;
    auto token = net::redirect_error(net::use_awaitable, fault);
    while (!exchange.stopping()) {
      const net::any_io_executor strand = net::make_strand(context);
      tcp::socket socket = co_await acceptor.async_accept(strand, token);
      if (!fault) {
        begin(std::move(socket));
      } else if (fault != net::error::operation_aborted) {
        // Out of descriptors, most likely: let some connections end.
        net::steady_timer pause(acceptor.get_executor(), std::chrono::milliseconds(50));
        co_await pause.async_wait(token);
      }
    }
  }

  void begin(tcp::socket socket) {
    beast::error_code gone;
    const auto remote = socket.remote_endpoint(gone);
    if (gone) return;
    socket.set_option(tcp::no_delay(true), gone);
    ++exchange.metrics().connections;
    const auto executor = socket.get_executor();
    if (exchange.metrics().open_connections >= settings.most_connections) return turn_away(std::move(socket));
    ++exchange.metrics().open_connections;
    auto done = [this](const std::exception_ptr& fault) { ended(fault); };
    const std::string address = remote.address().to_string();
    if (tls)
      net::co_spawn(executor, serve_tls(std::move(socket), address, exchange, tls), done);
    else
      net::co_spawn(executor, serve_plain(std::move(socket), address, exchange), done);
  }

  /// At once and without a coroutine: what is turned away must cost nothing.
  void turn_away(tcp::socket socket) {
    ++exchange.metrics().connections_refused;
    constexpr std::string_view answer =
        "HTTP/1.1 503 Service Unavailable\r\nRetry-After: 5\r\nContent-Length: 0\r\nConnection: close\r\n\r\n";
    beast::error_code ignored;
    socket.non_blocking(true, ignored);
    if (!tls) socket.write_some(net::buffer(answer), ignored);
  }

  void ended(const std::exception_ptr& fault) {
    --exchange.metrics().open_connections;
    if (!fault) return;
    try {
      std::rethrow_exception(fault);
    } catch (const std::exception& what) {
      exchange.log({{"event", "connection-fault"}, {"what", what.what()}});
    }
  }

  net::awaitable<void> watch_certificate() {
    net::steady_timer timer(co_await net::this_coro::executor);
    beast::error_code fault;
    while (!exchange.stopping()) {
      timer.expires_after(settings.reload);
      co_await timer.async_wait(net::redirect_error(net::use_awaitable, fault));
      if (newest_time() != certificate_time) reload();
    }
  }

  void wait_for_signals() {
    signals.async_wait([this](const beast::error_code& fault, int number) {
      if (fault) return;
      if (number != SIGHUP) return stop();
      if (tls) reload();
      wait_for_signals();
    });
  }

  void run(bool with_signals) {
    if (with_signals) {
      for (const int number : {SIGTERM, SIGINT, SIGHUP}) signals.add(number);
      wait_for_signals();
    }
    net::co_spawn(control, accept_all(), net::detached);
    if (tls) net::co_spawn(control, watch_certificate(), net::detached);
    std::vector<std::thread> pool;
    for (int i = 0; i < settings.threads; ++i) pool.emplace_back([this] { context.run(); });
    for (std::thread& one : pool) one.join();
  }

  /// Takes no more connections, ends those that rest; the others after their answer, or when the grace is over.
  void stop() {
    net::post(control, [this] {
      if (exchange.stopping()) return;
      exchange.stop();
      beast::error_code ignored;
      acceptor.close(ignored);
      signals.cancel(ignored);
      end_of_grace = std::chrono::steady_clock::now() + settings.grace;
      wait_for_the_last();
    });
  }

  void wait_for_the_last() {
    if (exchange.metrics().open_connections == 0 || std::chrono::steady_clock::now() >= end_of_grace)
      return context.stop();
    last.expires_after(std::chrono::milliseconds(20));
    last.async_wait([this](const beast::error_code&) { wait_for_the_last(); });
  }

  ListenSettings settings;
  Exchange exchange;
  net::io_context context;
  net::any_io_executor control = net::make_strand(context);  // accepting, certificates, signals, stopping
  Acceptor acceptor{control};
  net::signal_set signals{control};
  net::steady_timer last{control};
  std::chrono::steady_clock::time_point end_of_grace;
  TlsContext tls;
  std::filesystem::file_time_type certificate_time;
};

HttpServer::HttpServer(ListenSettings settings, Handler handler, Metrics& metrics, LogLine log)
    : inside_(std::make_unique<Inside>(std::move(settings), std::move(handler), metrics, std::move(log))) {}
HttpServer::~HttpServer() = default;

Result<void> HttpServer::start() { return inside_->start(); }
std::uint16_t HttpServer::port() const { return inside_->acceptor.local_endpoint().port(); }
void HttpServer::run(bool signals) { inside_->run(signals); }
void HttpServer::stop() { inside_->stop(); }

}  // namespace fogwright::server
