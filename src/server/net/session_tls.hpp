// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <boost/asio/ssl/context.hpp>

#include "server/net/session.hpp"

namespace fogwright::server {

using TlsContext = std::shared_ptr<net::ssl::context>;

/// TLS 1.2 or newer by a certificate chain and its key. Errors: file_fault.
[[nodiscard]] Result<TlsContext> make_tls(const ListenSettings& settings);

net::awaitable<void> serve_tls(net::ip::tcp::socket socket, std::string remote, Exchange& exchange,
                               TlsContext tls);

}  // namespace fogwright::server
