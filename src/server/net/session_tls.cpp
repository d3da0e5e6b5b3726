// SPDX-License-Identifier: Apache-2.0
#include "server/net/session_tls.hpp"

#include <fmt/format.h>
#include <boost/asio/ssl/stream.hpp>

namespace fogwright::server {
namespace {

using Tls = net::ssl::stream<Tcp>;

}  // namespace

Result<TlsContext> make_tls(const ListenSettings& settings) {
  auto tls = std::make_shared<net::ssl::context>(net::ssl::context::tls_server);
  beast::error_code fault;
  SSL_CTX_set_min_proto_version(tls->native_handle(), TLS1_2_VERSION);
  tls->set_options(net::ssl::context::default_workarounds | SSL_OP_NO_RENEGOTIATION | SSL_OP_NO_COMPRESSION |
                       SSL_OP_CIPHER_SERVER_PREFERENCE,
                   fault);
  tls->use_certificate_chain_file(settings.certificate, fault);
  if (fault)
    return fail(ErrorCode::file_fault, fmt::format("the certificate cannot be read: {}", fault.message()),
                settings.certificate, "give the certificate and its chain as PEM");
  tls->use_private_key_file(settings.certificate_key, net::ssl::context::pem, fault);
  if (fault || SSL_CTX_check_private_key(tls->native_handle()) != 1)
    return fail(ErrorCode::file_fault, "the key of the certificate cannot be read, or belongs to another one",
                settings.certificate_key, "give the key of that certificate as PEM, without a password");
  return tls;
}

net::awaitable<void> serve_tls(net::ip::tcp::socket socket, std::string remote, Exchange& exchange,
                               TlsContext tls) {
  Session<Tls> session(Tls(Tcp(std::move(socket)), *tls), std::move(remote), exchange, true);
  Tls& stream = session.stream();
  beast::error_code fault;
  beast::get_lowest_layer(stream).expires_after(exchange.settings.handshake);
  co_await stream.async_handshake(net::ssl::stream_base::server,
                                  net::redirect_error(net::use_awaitable, fault));
  if (fault) {
    exchange.count_fault(fault == beast::error::timeout);
    co_return;
  }
  co_await session.converse();
}

}  // namespace fogwright::server
