// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "server/service.hpp"

namespace fogwright::server {

/// The host that the browser thinks it speaks to is one of ours: else a name that was pointed at this machine
/// would pass for it. Errors: not_permitted.
[[nodiscard]] Result<void> check_host(const HttpRequest& request, const std::vector<std::string>& hosts);

/// An answer where the visitor may not use the route: 401 nobody, 403 somebody without the role, 404 what only
/// this machine may see.
[[nodiscard]] std::optional<HttpResponse> refuse_access(const Visit& visit);

}  // namespace fogwright::server
