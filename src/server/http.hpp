// SPDX-License-Identifier: Apache-2.0
#pragma once

/// A request and its answer as the handlers see them: no socket, no HTTP library, so that tests need no
/// network.

#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "asking/target.hpp"

namespace fogwright::server {

struct HttpRequest {
  std::string method;                          ///< "GET"
  std::string target;                          ///< as sent: "/api/v1/jobs?limit=10"
  std::map<std::string, std::string> headers;  ///< names in lower case
  std::string body;
  std::string remote;   ///< address of the client; behind a proxy the one that the proxy saw
  bool secure = false;  ///< encrypted as far as the client sees
  bool local = false;   ///< from this very machine, and through no proxy

  /// Empty where it was not sent.
  [[nodiscard]] std::string header(std::string_view lower_case_name) const;
};

struct HttpResponse {
  int status = 200;
  std::string body;
  std::string content_type = "application/json";
  std::vector<std::pair<std::string, std::string>> headers;
  std::string operation = "none";  ///< for the log and the counts: its id in the description of the API
  std::string actor = {};          ///< for the log: who was signed in
};

/// The value of a cookie of the request; empty where it is not there.
[[nodiscard]] std::string cookie(const HttpRequest& request, std::string_view name);

[[nodiscard]] HttpResponse json_response(int status, const nlohmann::json& body);

/// What a browser is told with every answer: a policy that loads nothing from elsewhere, no sniffing, no
/// framing, no storing of records. `secure`: the connection is encrypted as far as the browser sees.
void add_security_headers(HttpResponse& response, bool secure);

}  // namespace fogwright::server
