// SPDX-License-Identifier: Apache-2.0
#pragma once

/// One connection. Included by the two files that instantiate it: Beast is slow to compile.

#include <utility>  // Boost 1.74 forgets it in asio/awaitable.hpp

#include <boost/asio/any_io_executor.hpp>
#include <boost/asio/awaitable.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/redirect_error.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>

#include "server/net/exchange.hpp"

namespace fogwright::server {

namespace net = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;

using Tcp = beast::basic_stream<net::ip::tcp, net::any_io_executor>;
using RequestParser = http::request_parser<http::string_body>;
using Message = http::response<http::string_body>;

[[nodiscard]] HttpRequest to_request(const http::request<http::string_body>& message, const std::string& remote,
                                     bool encrypted, const ListenSettings& settings);
[[nodiscard]] http::response<http::string_body> to_message(HttpResponse response, const HttpRequest& request,
                                                           bool keep_alive);
/// What is answered to bytes that are no request; none where nothing can be.
[[nodiscard]] std::optional<HttpResponse> answer_to_fault(const beast::error_code& fault);

template <class Stream>
class Session {
 public:
  Session(Stream stream, std::string remote, Exchange& exchange, bool encrypted)
      : stream_(std::move(stream)), remote_(std::move(remote)), exchange_(exchange), encrypted_(encrypted) {}

  Session(const Session&) = delete;
  Session& operator=(const Session&) = delete;

  Stream& stream() { return stream_; }

  /// Requests one after the other until one side ends it.
  net::awaitable<void> converse() {
    bool more = true;
    while (more) {
      const bool came = co_await wait_for_a_byte();
      if (!came) break;
      more = co_await one_exchange();
    }
    co_await say_goodbye();
  }

 private:
  auto token() { return net::redirect_error(net::use_awaitable, fault_); }
  void allow(std::chrono::milliseconds time) { beast::get_lowest_layer(stream_).expires_after(time); }

  /// The time between two requests; here a server that stops may end the connection.
  net::awaitable<bool> wait_for_a_byte() {
    if (buffer_.size() > 0) co_return true;
    allow(exchange_.settings.idle);
    Resting resting{[executor = stream_.get_executor(), weak = std::weak_ptr(self_)] {
      net::post(executor, [weak] {
        const auto self = weak.lock();
        if (self && (*self)->waiting_) beast::get_lowest_layer((*self)->stream_).cancel();
      });
    }};
    if (!exchange_.rest(resting)) co_return false;
    waiting_ = true;
    const std::size_t count = co_await stream_.async_read_some(buffer_.prepare(4'096), token());
    waiting_ = false;
    exchange_.wake(resting);
    buffer_.commit(count);
    co_return !fault_;
  }

  net::awaitable<bool> one_exchange() {
    RequestParser parser;
    parser.header_limit(exchange_.settings.most_header_bytes);
    parser.body_limit(exchange_.settings.most_body_bytes);
    allow(exchange_.settings.header);
    co_await http::async_read_header(stream_, buffer_, parser, token());
    if (!fault_) co_await read_body(parser);
    if (fault_) {
      co_await refuse();
      co_return false;
    }
    const HttpRequest request = to_request(parser.get(), remote_, encrypted_, exchange_.settings);
    HttpResponse response = exchange_.answer(request);
    const bool keep = parser.get().keep_alive() && !exchange_.stopping();
    Message message = to_message(std::move(response), request, keep);
    co_await write(std::move(message));
    co_return keep && !fault_;
  }

  net::awaitable<void> read_body(RequestParser& parser) {
    allow(exchange_.settings.body);
    if (beast::iequals(parser.get()[http::field::expect], "100-continue")) {
      http::response<http::empty_body> go_on(http::status::continue_, 11);
      co_await http::async_write(stream_, go_on, token());
      if (fault_) co_return;
    }
    co_await http::async_read(stream_, buffer_, parser, token());
  }

  net::awaitable<void> refuse() {
    auto message = refusal();
    if (message) co_await write(std::move(*message));
  }

  /// Apart from the coroutine: GCC 12 destroys temporaries of aggregates in one twice.
  std::optional<Message> refusal() {
    exchange_.count_fault(fault_ == beast::error::timeout);
    auto response = answer_to_fault(fault_);
    if (!response) return std::nullopt;
    HttpRequest unknown;
    unknown.method = unknown.target = "?";
    unknown.remote = remote_;
    exchange_.tell(unknown, *response, 0);
    return to_message(std::move(*response), unknown, false);
  }

  net::awaitable<void> write(Message message) {
    allow(exchange_.settings.write);
    co_await http::async_write(stream_, message, token());
    if (fault_ == beast::error::timeout) exchange_.count_fault(true);
  }

  /// Reads on for a moment, so that a client which still sends gets to read the answer.
  net::awaitable<void> say_goodbye() {
    Tcp& lowest = beast::get_lowest_layer(stream_);
    allow(exchange_.settings.linger);
    if constexpr (!std::is_same_v<Stream, Tcp>) {
      if (!fault_) co_await stream_.async_shutdown(token());
    }
    beast::error_code ignored;
    lowest.socket().shutdown(net::ip::tcp::socket::shutdown_send, ignored);
    fault_ = {};
    for (std::size_t read = 0; !fault_ && read < 1'000'000;) {
      char rest[4'096];
      read += co_await lowest.async_read_some(net::buffer(rest), token());
    }
    lowest.close();
  }

  Stream stream_;
  std::string remote_;
  Exchange& exchange_;
  bool encrypted_;
  beast::flat_buffer buffer_{65'536};
  beast::error_code fault_;
  bool waiting_ = false;  // between two requests: the only time that a server which stops cuts off
  std::shared_ptr<Session*> self_ = std::make_shared<Session*>(this);  // gone with the session, on its strand
};

/// The life of a connection, by kind of stream (session_plain.cpp, session_tls.cpp).
net::awaitable<void> serve_plain(net::ip::tcp::socket socket, std::string remote, Exchange& exchange);

}  // namespace fogwright::server
