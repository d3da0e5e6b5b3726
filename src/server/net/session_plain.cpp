// SPDX-License-Identifier: Apache-2.0
#include "server/net/session.hpp"
#include "server/problem.hpp"

namespace fogwright::server {
namespace {

std::string lower(std::string_view name) {
  std::string text(name);
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return text;
}

/// The address that the nearest proxy saw: what stands before it anybody may have written.
std::string last_of(const std::string& list) {
  const auto comma = list.rfind(',');
  std::string last = comma == std::string::npos ? list : list.substr(comma + 1);
  last.erase(0, last.find_first_not_of(' '));
  return last;
}

bool is_loopback(const std::string& remote) {
  beast::error_code fault;
  const auto address = net::ip::make_address(remote, fault);
  return !fault && address.is_loopback();
}

}  // namespace

HttpRequest to_request(const http::request<http::string_body>& message, const std::string& remote,
                       bool encrypted, const ListenSettings& settings) {
  HttpRequest request;
  request.method = std::string(message.method_string());
  request.target = std::string(message.target());
  for (const auto& field : message) {
    const auto [at, added] = request.headers.emplace(
        lower({field.name_string().data(), field.name_string().size()}), std::string(field.value()));
    if (!added) at->second += ", " + std::string(field.value());
  }
  request.body = message.body();
  request.remote = remote;
  request.secure = encrypted;
  request.local = is_loopback(remote) && request.header("x-forwarded-for").empty();
  if (!settings.behind_proxy) return request;
  if (const std::string seen = last_of(request.header("x-forwarded-for")); !seen.empty()) request.remote = seen;
  request.secure = encrypted || request.header("x-forwarded-proto") == "https";
  return request;
}

http::response<http::string_body> to_message(HttpResponse response, const HttpRequest& request,
                                             bool keep_alive) {
  http::response<http::string_body> message(static_cast<http::status>(response.status), 11);
  for (const auto& [name, value] : response.headers) message.insert(name, value);
  const bool has_body = response.status != 304 && response.status != 204;
  if (has_body) message.set(http::field::content_type, response.content_type);
  message.keep_alive(keep_alive);
  const std::size_t size = response.body.size();
  if (has_body && request.method != "HEAD") message.body() = std::move(response.body);
  if (has_body) message.content_length(size);
  return message;
}

std::optional<HttpResponse> answer_to_fault(const beast::error_code& fault) {
  std::optional<HttpResponse> response;
  if (fault == http::error::header_limit || fault == http::error::buffer_overflow)
    response = problem(431, "out-of-range", "the header of the request is too large", "send less of it");
  else if (fault == http::error::body_limit)
    response = problem(413, "out-of-range", "the body of the request is too large", "send it in parts");
  else if (fault != http::error::end_of_stream && fault != http::error::partial_message &&
           fault.category() == make_error_code(http::error::end_of_stream).category())
    response = problem(400, "not-understood", "these bytes are no HTTP request", "speak HTTP/1.1");
  if (response) add_security_headers(*response, false);
  return response;
}

net::awaitable<void> serve_plain(net::ip::tcp::socket socket, std::string remote, Exchange& exchange) {
  Session<Tcp> session(Tcp(std::move(socket)), std::move(remote), exchange, false);
  co_await session.converse();
}

}  // namespace fogwright::server
